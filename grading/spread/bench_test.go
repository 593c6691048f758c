package spread_test

import (
	"testing"

	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// BenchmarkTwelvePieces spreads twelve pieces with five cut lines each that were
// read before, as a drag on the Size strip does.
func BenchmarkTwelvePieces(b *testing.B) {
	var all []*spread.Spread
	for len(all) < 12 {
		for _, q := range blousePieces(b) {
			all = append(all, read(b, q))
		}
	}
	g := grows{model.Bust: 50, model.BackWaist: 6}
	for b.Loop() {
		for _, s := range all {
			if _, err := s.Edges(g.by); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkRead(b *testing.B) {
	q := blousePieces(b)[1]
	for b.Loop() {
		read(b, q)
	}
}

func BenchmarkAt(b *testing.B) {
	s := read(b, blousePieces(b)[1])
	g := grows{model.Bust: 50, model.BackWaist: 6}
	for b.Loop() {
		s.At(geom.Pt(120, 300), g.by)
	}
}
