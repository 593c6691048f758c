package grading_test

import (
	"math/rand/v2"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
)

// BenchmarkTraced reads and grades the six traced pieces of a blouse, six steps
// out, and reports how near the true line nineteen twentieths of it lie, in mm,
// beside what extending each place by itself gives.
func BenchmarkTraced(b *testing.B) {
	p, truth := shakenBlouse(b)
	for name, polygon := range map[string]bool{"curves": false, "polygons": true} {
		b.Run(name, func(b *testing.B) {
			var far, alone []float64
			seed := uint64(0)
			for b.Loop() {
				b.StopTimer()
				q := traced(b, p, polygon, seed)
				b.StartTimer()
				var g grading.Grader
				r, err := g.Grade(q)
				b.StopTimer()
				if err != nil {
					b.Fatal(err)
				}
				rnd := rand.New(rand.NewPCG(seed, 5))
				for i, piece := range r.Pieces {
					far = append(far, away(b, piece.Outline(), truth[i])...)
					alone = append(alone, pointwise(b, p.Pieces[i], p.Chart, p.Target.Place, rnd)...)
				}
				seed++
				b.StartTimer()
			}
			b.ReportMetric(p95(far), "mm-p95")
			b.ReportMetric(p95(alone), "mm-p95-pointwise")
		})
	}
}

// BenchmarkWearer grades a blouse, its nest read before, for bust, waist and hip
// of three sizes.
func BenchmarkWearer(b *testing.B) {
	p, _ := shakenBlouse(b)
	p.Target.Body = map[model.Measure]float64{model.Bust: 1120, model.Waist: 1010, model.Hip: 1190}
	var g grading.Grader
	for b.Loop() {
		if _, err := g.Grade(p); err != nil {
			b.Fatal(err)
		}
	}
}
