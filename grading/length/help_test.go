package length_test

import (
	"fmt"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/length"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// ring is a piece with straight edges between corners, its last one the fold
// where fold is set, printed with that line.
func ring(name string, fold bool, corners ...geom.Point) model.Piece {
	q := model.Piece{ID: name, Name: name, Nest: []model.Outline{{Size: "38"}}}
	for k, p := range corners {
		next := corners[(k+1)%len(corners)]
		q.Points = append(q.Points, model.GradePoint{ID: string(rune('a' + k))})
		q.Edges = append(q.Edges, model.Edge{ID: string(rune('a' + k))})
		q.Nest[0].Edges = append(q.Nest[0].Edges, geom.Path{geom.Line(p, next)})
	}
	if fold {
		q.Edges[len(corners)-1].Kind = model.Fold
	}
	return q
}

// sheet is paper 200 mm wide and 300 mm long with its fold at the left.
func sheet() model.Piece {
	return ring("Sheet", true, geom.Pt(0, 0), geom.Pt(200, 0), geom.Pt(200, 300), geom.Pt(0, 300))
}

func level(y float64) geom.Path { return geom.Polyline(geom.Pt(20, y), geom.Pt(180, y)) }

func lay(t interface {
	Helper()
	Fatal(...any)
}, q model.Piece, changes ...length.Change,
) length.Laid {
	t.Helper()
	l, err := length.Lay(q, q.Nest[0].Edges, nil, changes)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// demo is a demo pattern at its target, eight sizes beyond print or so.
type demo struct {
	name string
	make func() (model.Pattern, error)
}

var demos = []demo{{"blouse", blouse}, {"waistcoat", waistcoat}}

func blouse() (model.Pattern, error) {
	return drafted("en13402-women", draft.Blouse, []string{"34", "36", "38", "40"}, "48")
}

func waistcoat() (model.Pattern, error) {
	return drafted("us-misses", draft.Waistcoat, []string{"8", "10", "12", "14"}, "20")
}

func drafted(chart string, make func(model.SizeChart, []string) (model.Pattern, error), sizes []string, want string) (model.Pattern, error) {
	c, _ := sizechart.ByID(chart)
	p, err := make(c, sizes)
	if err != nil {
		return p, err
	}
	place, ok := c.Place(want)
	if !ok {
		return p, fmt.Errorf("no size %s", want)
	}
	p.Target.Place = float64(place)
	return p, nil
}

func (d demo) pattern(t testing.TB) model.Pattern {
	t.Helper()
	p, err := d.make()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func graded(t testing.TB, p model.Pattern) grading.Result {
	t.Helper()
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// longer is p with by mm put in at every lengthen line of that name.
func longer(p model.Pattern, line string, by float64) model.Pattern {
	l := model.Lengthening{ID: line, Name: line, By: by}
	for _, q := range p.Pieces {
		for _, m := range q.Lines {
			if m.Name == line {
				l.Lines = append(l.Lines, model.PieceLine{Piece: q.ID, Line: m.ID})
			}
		}
	}
	p.Lengths = append(p.Lengths[:len(p.Lengths):len(p.Lengths)], l)
	return p
}
