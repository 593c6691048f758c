package girth_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// Whatever is edited, a tape that has measured before says what a new one says.
func TestTapeForgetsWhatWasEdited(t *testing.T) {
	chart := euro.read(t)
	p := euro.blocks(t)
	p.Target.Place = 8
	var tape girth.Tape
	var g grading.Grader
	piece := func(edit func(q *model.Piece)) func(*model.Pattern) {
		return func(p *model.Pattern) {
			*p = p.WithPiece(0, func(q model.Piece) model.Piece { edit(&q); return q })
		}
	}
	for _, step := range []struct {
		name string
		edit func(*model.Pattern)
	}{
		{"at first", func(*model.Pattern) {}},
		{"another target", func(p *model.Pattern) { p.Target.Place = 9 }},
		{"by steps", func(p *model.Pattern) { p.Target.Method = model.BySteps }},
		{"a correction", piece(func(q *model.Piece) { q.Hand.Moves = []model.PointMove{{Point: "underarm", By: geom.Vec{X: 5}}} })},
		{"cut twice", piece(func(q *model.Piece) { q.Cut = 2 })},
		{"another name", piece(func(q *model.Piece) { q.Name = "Front facing" })},
		{"its name again", piece(func(q *model.Piece) { q.Name = "Front" })},
		{"fewer sizes", piece(func(q *model.Piece) { q.Nest = slices.Clone(q.Nest[1:]) })},
		{"an allowance", piece(func(q *model.Piece) {
			q.Edges = slices.Clone(q.Edges)
			q.Edges[3].Allowance = 10
		})},
		{"a bust line", piece(func(q *model.Piece) { q.Lines = []model.Line{level(model.BustLine, 300)} })},
		{"a link", func(p *model.Pattern) {
			p.Links = []model.Link{{
				ID: "l", Kind: model.SameLine,
				Lead:   model.Stretch{Piece: "f", Edges: []string{"neckline"}},
				Follow: model.Stretch{Piece: "b", Edges: []string{"neckline"}},
			}}
		}},
		{"no link", func(p *model.Pattern) { p.Links = nil }},
		{"another chart", func(p *model.Pattern) {
			p.Chart = chart
			p.Chart.Sizes = slices.Clone(chart.Sizes)
			p.Chart.Sizes[3].Body = map[model.Measure]float64{model.Bust: 890, model.Waist: 720, model.Hip: 960}
		}},
		{"a piece less", func(p *model.Pattern) { p.Pieces = p.Pieces[:1] }},
	} {
		step.edit(&p)
		r, err := g.Grade(p)
		if err != nil {
			t.Fatal(step.name, err)
		}
		got, lacks, err := tape.Table(p, r)
		if err != nil {
			t.Fatal(step.name, err)
		}
		want, missing, err := girth.Table(p, r)
		if err != nil || !reflect.DeepEqual(got, want) || !reflect.DeepEqual(lacks, missing) {
			t.Errorf("%s: %v\n%+v\n%+v", step.name, err, got, want)
		}
		if len(got) == 0 {
			t.Errorf("%s: nothing measured", step.name)
		}
	}
}

func BenchmarkTable(b *testing.B) {
	chart, _ := sizechart.ByID(euro.chart)
	p, err := draft.Blouse(chart, strings.Fields(euro.printed))
	if err != nil {
		b.Fatal(err)
	}
	p.Target.Place = 8
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		b.Fatal(err)
	}
	var tape girth.Tape
	for range b.N {
		if _, _, err := tape.Table(p, r); err != nil {
			b.Fatal(err)
		}
	}
}
