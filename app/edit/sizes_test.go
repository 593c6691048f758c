package edit

import (
	"reflect"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
)

// sizesOf is the sizes of every printed line of a piece, "36 38/40 42".
func sizesOf(q model.Piece) string {
	var out []string
	for _, o := range q.Nest {
		out = append(out, o.Label())
	}
	return strings.Join(out, " ")
}

// fourSizes is the drafted blouse printed in 34 to 40.
func fourSizes(t *testing.T) model.Pattern {
	t.Helper()
	p, err := draft.Blouse(blouse(t).Chart, []string{"34", "36", "38", "40"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// thinned is the blouse with all lines and marks of some sizes taken off its
// first piece.
func thinned(t *testing.T, gone ...string) model.Pattern {
	t.Helper()
	p := fourSizes(t)
	is := func(size string) bool { return strings.Contains(" "+strings.Join(gone, " ")+" ", " "+size+" ") }
	return p.WithPiece(0, func(q model.Piece) model.Piece {
		out := q
		out.Nest, out.Lines, out.Notches, out.Darts = nil, nil, nil, nil
		for _, o := range q.Nest {
			if !is(o.Size) {
				out.Nest = append(out.Nest, o)
			}
		}
		for _, l := range q.Lines {
			var drawn []model.SizedPath
			for _, d := range l.Drawn {
				if !is(d.Size) {
					drawn = append(drawn, d)
				}
			}
			l.Drawn = drawn
			out.Lines = append(out.Lines, l)
		}
		for _, n := range q.Notches {
			var spots []model.Spot
			for _, s := range n.Spots {
				if !is(s.Size) {
					spots = append(spots, s)
				}
			}
			n.Spots = spots
			out.Notches = append(out.Notches, n)
		}
		for _, d := range q.Darts {
			var apex []model.SizedPoint
			for _, a := range d.Apex {
				if !is(a.Size) {
					apex = append(apex, a)
				}
			}
			d.Apex = apex
			out.Darts = append(out.Darts, d)
		}
		return out
	})
}

// A line serves the sizes said and no other; its marks go by the smallest of
// them, each once.
func TestSharedLine(t *testing.T) {
	first := fourSizes(t).Pieces[0]
	id, sizes := first.ID, sizesOf(first)
	if sizes != "34 36 38 40" {
		t.Fatalf("the blouse is printed in %s", sizes)
	}
	for _, c := range []struct {
		gone []string
		size string
		also []string
		want string
	}{
		{[]string{"38"}, "36", []string{"38"}, "34 36/38 40"},
		{[]string{"36"}, "38", []string{"36"}, "34 36/38 40"},
		{[]string{"36"}, "38", []string{"36", "38", "36"}, "34 36/38 40"},
		{[]string{"36", "38"}, "34", []string{"38", "36"}, "34/36/38 40"},
		{[]string{"40"}, "38", []string{"42", "48"}, "34 36 38/42/48"},
		{nil, "38", []string{"88"}, "34 36 38 40"}, // its own girth code
		{nil, "38", nil, "34 36 38 40"},
	} {
		p := thinned(t, c.gone...)
		out := made(t, p, SharedLine(id, c.size, c.also))
		q := out.Pieces[0]
		if got := sizesOf(q); got != c.want {
			t.Errorf("%s also %v: printed in %s, want %s", c.size, c.also, got, c.want)
		}
		if err := out.Validate(); err != nil {
			t.Errorf("%s also %v: %v", c.size, c.also, err)
		}
		for i, o := range q.Nest {
			if !reflect.DeepEqual(o.Edges, p.Pieces[0].Nest[i].Edges) {
				t.Errorf("%s also %v: the line of %s was changed", c.size, c.also, o.Size)
			}
		}
		for k, l := range q.Lines {
			if len(l.Drawn) != len(p.Pieces[0].Lines[k].Drawn) {
				t.Errorf("%s also %v: %s is drawn %d times", c.size, c.also, l.Name, len(l.Drawn))
			}
		}
		for _, n := range q.Notches {
			for k, s := range n.Spots {
				if s.Size != q.Nest[k].Size {
					t.Errorf("%s also %v: a notch of the line of %s is marked %s", c.size, c.also, q.Nest[k].Size, s.Size)
				}
			}
		}
		// Taken back, the line is of one size again.
		back := made(t, out, SharedLine(id, c.size, nil)).Pieces[0]
		if got := sizesOf(back); got != sizesOf(p.Pieces[0]) {
			t.Errorf("%s also %v, taken back: printed in %s", c.size, c.also, got)
		}
	}
}

// Marks drawn for two sizes of what becomes one line are kept once.
func TestMarksOfASharedLineAreKeptOnce(t *testing.T) {
	p := fourSizes(t)
	p = p.WithPiece(0, func(q model.Piece) model.Piece {
		q.Nest = q.Nest[:3]
		return q
	})
	if len(p.Pieces[0].Darts) == 0 || len(p.Pieces[0].Darts[0].Apex) != 4 {
		t.Fatalf("darts %+v", p.Pieces[0].Darts)
	}
	q := made(t, p, SharedLine(p.Pieces[0].ID, "38", []string{"40"})).Pieces[0]
	want := []string{"34", "36", "38"}
	for k, a := range q.Darts[0].Apex {
		if a.Size != want[k] || a.At != p.Pieces[0].Darts[0].Apex[k].At {
			t.Errorf("dart point %d: %+v", k, a)
		}
	}
	if len(q.Darts[0].Apex) != 3 || len(q.Lines[0].Drawn) != 3 || len(q.Notches[0].Spots) != 3 {
		t.Errorf("%d dart points, %d grain lines, %d notch spots, want 3 of each", len(q.Darts[0].Apex), len(q.Lines[0].Drawn), len(q.Notches[0].Spots))
	}
}

func TestOneForAll(t *testing.T) {
	p := thinned(t, "36", "38", "40")
	id := p.Pieces[0].ID
	on := made(t, p, OneForAll(id, true))
	if !on.Pieces[0].OneForAll || sizesOf(on.Pieces[0]) != "34" {
		t.Errorf("%v, printed in %s", on.Pieces[0].OneForAll, sizesOf(on.Pieces[0]))
	}
	if off := made(t, on, OneForAll(id, false)); !reflect.DeepEqual(off, p) {
		t.Error("taken back, the pattern is not what it was")
	}
	shared := made(t, made(t, p, SharedLine(id, "34", []string{"36", "38", "40"})), OneForAll(id, true))
	off := made(t, shared, OneForAll(id, false)).Pieces[0]
	if off.OneForAll || sizesOf(off) != "34" {
		t.Errorf("no more the same in all sizes, it is printed in %s", sizesOf(off))
	}
}

func TestSizesRefusals(t *testing.T) {
	p := fourSizes(t)
	before := written(t, p)
	id := p.Pieces[0].ID
	for _, c := range []struct {
		edit func(model.Pattern) (model.Pattern, error)
		want string
	}{
		{SharedLine(id, "38", []string{"40"}), "size 40 of " + p.Pieces[0].Name + " has a line of its own"},
		{SharedLine(id, "34", []string{"42"}), "size 36 of " + p.Pieces[0].Name + " has a line of its own"},
		{SharedLine(id, "44", nil), "is not printed in size 44"},
		{SharedLine(id, "38", []string{"39"}), "has no size 39"},
		{SharedLine("nothing", "38", nil), "no piece"},
		{OneForAll(id, true), "cannot be the same in all"},
		{OneForAll("nothing", true), "no piece"},
		{Stack(id, OnPoint("nowhere")), "no such grade point"},
		{Stack("nothing", OnHem), "no piece"},
	} {
		got, err := c.edit(p)
		if err == nil || !strings.Contains(err.Error(), c.want) || !reflect.DeepEqual(got, p) {
			t.Errorf("%v, want %q", err, c.want)
		}
		if written(t, p) != before {
			t.Fatal("a refused edit wrote into what it was given")
		}
	}
}

// Stacked on the underarm, all sizes meet there; on the centre line again, the
// nest is as printed but for its place along the grain. Nothing given is
// written into, and links still hold.
func TestStackOnAPointAndBack(t *testing.T) {
	p := fourSizes(t)
	before := written(t, p)
	for _, i := range []int{0, 1} {
		q := p.Pieces[i]
		k := -1
		for j, g := range q.Points {
			if g.Name == "underarm" {
				k = j
			}
		}
		at := made(t, p, Stack(q.ID, OnPoint(q.Points[k].ID)))
		if err := at.Validate(); err != nil {
			t.Error(err)
		}
		last := q.Nest[3].Edges[k].Start()
		for _, o := range at.Pieces[i].Nest {
			if d := o.Edges[k].Start().Dist(last); d > 1e-9 {
				t.Errorf("%s, size %s: the underarm is %g mm off", q.Name, o.Size, d)
			}
		}
		back := made(t, at, Stack(q.ID, OnCentre)).Pieces[i]
		for j, o := range back.Nest {
			down := last.Sub(q.Nest[j].Edges[k].Start()).Y
			for e, path := range o.Edges {
				if d := path.Start().Dist(q.Nest[j].Edges[e].Start().Add(geom.Vec{Y: down})); d > 1e-9 {
					t.Fatalf("%s, size %s: edge %d is %g mm off", q.Name, o.Size, e+1, d)
				}
			}
		}
		again := made(t, at, Stack(q.ID, OnPoint(q.Points[k].ID)))
		if !reflect.DeepEqual(again, at) {
			t.Errorf("%s: laid twice is not laid once", q.Name)
		}
	}
	if written(t, p) != before {
		t.Error("laying sizes wrote into what it was given")
	}
}

// A chart that lacks a size on a shared line is refused.
func TestChartNeedsEverySizeOfASharedLine(t *testing.T) {
	p := fourSizes(t)
	p = made(t, p, SharedLine(p.Pieces[0].ID, "40", []string{"62"}))
	c := p.Chart
	c.ID, c.Sizes = "short", c.Sizes[:6]
	if _, err := Chart(c)(p); err == nil || !strings.Contains(err.Error(), "has no size 62") {
		t.Errorf("a chart without 62: %v", err)
	}
}
