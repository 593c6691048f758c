package edit_test

import (
	"math"
	"slices"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// A pattern without lengthen lines gets one where she clicks, and its mates get
// theirs at the same distance from the end of the seam, so that they are one
// group, in every printed size. The lines drafted lie level with each other; the
// front's side, which bends more, is 1.5 mm longer from there to the waist.
func TestALineAddedGoesToTheLinkedPieces(t *testing.T) {
	p, _ := demoPatterns(t)
	want := edit.LengthGroups(p)[0]
	was := map[string]model.Line{}
	for i := range p.Pieces {
		q := &p.Pieces[i]
		if k := q.LineIndex("lengthen-above-the-waist"); k >= 0 {
			was[q.ID] = q.Lines[k]
		}
		q.Lines = slices.DeleteFunc(slices.Clone(q.Lines), func(l model.Line) bool { return l.Kind == model.Lengthen })
	}
	size40 := p.Pieces[0].Nest[3].Edges
	at := was["front"].Drawn[3].Path.Start().Add(geom.Vec{X: 60})
	p = with(t, p, edit.AddLengthenLine("front", size40, at))
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	g := edit.LengthGroups(p)[0]
	if g.Name != want.Name || !slices.Equal(g.Pieces, want.Pieces) {
		t.Fatalf("got %+v, want a group like %+v", g, want)
	}
	for _, l := range g.Lines {
		q := p.Pieces[p.PieceIndex(l.Piece)]
		for i, d := range q.Lines[q.LineIndex(l.Line)].Drawn {
			old := was[q.ID].Drawn[i].Path.Start().Y
			if off := math.Abs(d.Path.Start().Y - old); off > 2 || d.Size != q.Nest[i].Size {
				t.Errorf("%s, size %s: it lies %.2f mm off the line that was there", q.Name, d.Size, off)
			}
		}
	}
	off := with(t, with(t, p, edit.SetLength(g.Name, 20)), edit.RemoveLengthenLines(g.Name))
	if err := off.Validate(); err != nil || len(off.Lengths) != 0 || len(edit.LengthGroups(off)) != len(edit.LengthGroups(p))-1 {
		t.Errorf("taken off: %v, %+v", err, off.Lengths)
	}
	for _, e := range []func(model.Pattern) (model.Pattern, error){
		edit.AddLengthenLine("nobody", size40, at), edit.AddLengthenLine("front", size40[1:], at),
		edit.RemoveLengthenLines("Hem"), edit.AddLengthenLine("front", size40, geom.Pt(0, 5000)),
	} {
		if _, err := e(p); err == nil {
			t.Error("a line that cannot be was taken")
		}
	}
}
