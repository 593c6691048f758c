package edit

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/store"
)

// written is all of a pattern as its file has it.
func written(t *testing.T, p model.Pattern) string {
	t.Helper()
	var b bytes.Buffer
	if err := store.Write(&b, store.File{Pattern: p}); err != nil {
		t.Fatal(err)
	}
	f, err := store.Read(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil || !reflect.DeepEqual(f.Pattern.Pieces, p.Pieces) {
		t.Fatalf("the pattern does not read back as it is: %v", err)
	}
	return b.String()
}

// copied is a pattern that shares nothing with p and is the same.
func copied(t *testing.T, p model.Pattern) model.Pattern {
	t.Helper()
	var b bytes.Buffer
	if err := store.Write(&b, store.File{Pattern: p}); err != nil {
		t.Fatal(err)
	}
	f, err := store.Read(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil || !reflect.DeepEqual(f.Pattern, p) {
		t.Fatalf("the pattern does not read back as it is: %v", err)
	}
	return f.Pattern
}

// worked is the blouse with something of everything that edits replace.
func worked(t *testing.T) model.Pattern {
	t.Helper()
	p := blouse(t)
	p = made(t, p, Style(NarrowerShoulder, 2, graded(t, p)))
	for i, q := range p.Pieces {
		for _, e := range []func(model.Pattern) (model.Pattern, error){
			MovePoint(q.ID, q.Points[0].ID, geom.Vec{X: 1, Y: 2}),
			MovePoint(q.ID, q.Points[2].ID, geom.Vec{X: -1}),
			MoveControl(q.ID, q.Edges[1].ID, 2, geom.Vec{Y: 3}),
			MoveControl(q.ID, q.Edges[i%2].ID, 1, geom.Vec{X: 3}),
			ShiftEdge(q.ID, q.Edges[0].ID, 2), ShiftEdge(q.ID, q.Edges[len(q.Edges)-1].ID, -2),
			KeepCurve(q.ID, q.Edges[0].ID, model.NearestCurve, ""), KeepCurve(q.ID, q.Edges[2].ID, model.StraightCurve, ""),
			SmoothThrough(q.ID, q.Points[1].ID), SmoothThrough(q.ID, q.Points[2].ID),
			LockPoint(q.ID, q.Points[3].ID, true),
		} {
			var err error
			if p, err = e(p); err != nil {
				t.Fatal(err)
			}
		}
	}
	return p
}

// made is the pattern an edit makes.
func made(t *testing.T, p model.Pattern, e func(model.Pattern) (model.Pattern, error)) model.Pattern {
	t.Helper()
	out, err := e(p)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// No edit writes into any part of what it is given, on any piece, whether it
// succeeds or not; one that fails gives back what it was given.
func TestNoEditWritesIntoItsInput(t *testing.T) {
	p := worked(t)
	r := graded(t, p)
	before := copied(t, p)
	done, refused := map[string]int{}, 0
	for _, q := range p.Pieces {
		edits := map[string]func(model.Pattern) (model.Pattern, error){
			"place": Place(3.5), "method": Method(model.BySteps), "wearer": Wearer("an invented player"),
			"unit": Unit(model.Inches), "chart": Chart(p.Chart), "lay": LayPiece(q.ID, geom.Vec{X: 1}),
			"rename": Rename(q.ID, "Other"), "cut": Cut(q.ID, 4), "lining": CutLining(q.ID, 2), "too many": Cut(q.ID, 100),
			"stages": Stages(true), "take back all": TakeBackAll(q.ID),
		}
		for k, kind := range Styles {
			edits[fmt.Sprint("style ", k)] = Style(kind, 1, r)
		}
		for k, c := range Corrections(p) {
			if c.Piece != "" && c.Piece != q.ID {
				continue
			}
			edits[fmt.Sprint("take back one ", k)] = c.TakeBack
		}
		for j := range q.Edges {
			point, edge := q.Points[j].ID, q.Edges[j].ID
			for name, e := range map[string]func(model.Pattern) (model.Pattern, error){
				"move": MovePoint(q.ID, point, geom.Vec{X: 5}), "back": MovePoint(q.ID, point, geom.Vec{X: -1, Y: -2}),
				"control": MoveControl(q.ID, edge, 3, geom.Vec{X: 5}), "edge": MoveEdge(q.ID, edge, geom.Vec{Y: 5}),
				"take back": TakeBackPoint(q.ID, point), "take back edge": TakeBackEdge(q.ID, edge),
				"lock": LockPoint(q.ID, point, true), "free": LockPoint(q.ID, point, false),
				"across": Follow(q.ID, point, false, model.Hip), "along": Follow(q.ID, point, true, model.Steps),
				"add": AddPoint(q.ID, "36", q.Nest[1].Edges[j][0].At(0.5)), "remove": RemovePoint(q.ID, point),
				"mend":  MendPoint(q.ID, point, "36", q.Nest[1].Edges[j][0].At(0.1)),
				"shift": ShiftEdge(q.ID, edge, 3), "shift back": ShiftEdge(q.ID, edge, -2),
				"curve": KeepCurve(q.ID, edge, model.PrintedCurve, "36"), "trend": TrendCurve(q.ID, edge),
				"straight": Straighten(q.ID, point, q.Points[(j+2)%len(q.Points)].ID, r), "smooth": SmoothThrough(q.ID, point),
			} {
				edits[fmt.Sprint(name, " ", j)] = e
			}
		}
		for name, e := range edits {
			out, err := e(p)
			if err != nil {
				refused++
				if !reflect.DeepEqual(out, p) {
					t.Errorf("%s of %s fails (%v) and yet changes the pattern", name, q.Name, err)
				}
			} else {
				done[strings.TrimRight(name, " 0123456789")]++
				if err := out.Validate(); err != nil {
					t.Errorf("%s of %s: %v", name, q.Name, err)
				}
			}
			if !reflect.DeepEqual(p, before) {
				t.Fatalf("%s of %s wrote into what it was given", name, q.Name)
			}
		}
	}
	if len(done) != 32 || refused == 0 {
		t.Errorf("%d kinds of edit succeeded, %d edits were refused: %v", len(done), refused, done)
	}
}

// An edge whose second end is locked moves neither end.
func TestAnEdgeWithALockedEndStays(t *testing.T) {
	p := blouse(t)
	q := p.Pieces[0]
	for _, end := range []int{2, 3} {
		locked := made(t, p, LockPoint(q.ID, q.Points[end].ID, true))
		out, err := MoveEdge(q.ID, q.Edges[2].ID, geom.Vec{Y: 5})(locked)
		if err == nil || !strings.Contains(err.Error(), "is locked") || len(out.Pieces[0].Hand.Moves) != 0 {
			t.Errorf("end %d locked: %v, moves %v", end, err, out.Pieces[0].Hand.Moves)
		}
	}
}

// On the graded line a joint and the handles beside it move as one, so the line
// goes on through it in the direction it did; all else of the edge stays.
func TestAJointStaysSmoothOnTheGradedLine(t *testing.T) {
	p := made(t, blouse(t), Place(8))
	var g grading.Grader
	v := geom.Vec{X: 4, Y: -3}
	joints := 0
	for i, q := range p.Pieces {
		before, err := g.Grade(p)
		if err != nil {
			t.Fatal(err)
		}
		for j, e := range before.Pieces[i].Edges {
			for joint := 3; joint < 3*len(e); joint += 3 {
				joints++
				after, err := g.Grade(made(t, p, MoveControl(q.ID, q.Edges[j].ID, joint, v)))
				if err != nil {
					t.Fatal(err)
				}
				was, is := e.Controls(), after.Pieces[i].Edges[j].Controls()
				for k := range was {
					want := was[k]
					if k >= joint-1 && k <= joint+1 {
						want = want.Add(v)
					}
					if is[k].Dist(want) > 1e-9 {
						t.Errorf("%s of %s: point %d at %v, want %v", q.Edges[j].Name, q.Name, k, is[k], want)
					}
				}
			}
		}
	}
	if joints == 0 {
		t.Error("no edge of the blouse has a joint")
	}
}

// On every edge of every piece: a grade point added and taken out again leaves
// the same edges, names, notches and links, and the line in every size.
func TestAPointAddedAndRemovedLeavesNothingBehind(t *testing.T) {
	p := blouse(t)
	for i, q := range p.Pieces {
		for j, e := range q.Edges {
			name := e.Name + " of " + q.Name
			m, err := geom.Measure(q.Nest[1].Edges[j], 1e-4)
			if err != nil {
				t.Fatal(err)
			}
			more := made(t, p, AddPoint(q.ID, q.Nest[1].Size, m.At(m.Length()/2)))
			added := more.Pieces[i].Points[j+1].ID
			if len(more.Pieces[i].Points) != len(q.Points)+1 || q.PointIndex(added) >= 0 {
				t.Fatalf("%s: the new point is not on its edge", name)
			}
			for k, l := range more.Links {
				// A link that names the edge names both its parts, so it joins as much line as it did.
				for _, s := range [][2]model.Stretch{{p.Links[k].Lead, l.Lead}, {p.Links[k].Follow, l.Follow}} {
					if was, is := stretchLength(t, p, s[0]), stretchLength(t, more, s[1]); was-is > 1e-3 || is-was > 1e-3 {
						t.Errorf("%s: link %s joins %.3f mm, joined %.3f", name, l.ID, is, was)
					}
				}
			}
			less := made(t, more, RemovePoint(q.ID, added))
			got := less.Pieces[i]
			if !reflect.DeepEqual(less.Links, p.Links) || !reflect.DeepEqual(got.Points, q.Points) || !reflect.DeepEqual(got.Edges, q.Edges) {
				t.Errorf("%s: links, points or edges came back changed", name)
			}
			for k, o := range q.Nest {
				for n := range o.Edges {
					if d := offLine(got.Nest[k].Edges[n], o.Edges[n]); d > 1e-6 {
						t.Errorf("%s, size %s: the line came back %g mm off", name, o.Size, d)
					}
				}
			}
			for k, n := range q.Notches {
				for s := range n.Spots {
					if d := got.Notches[k].Spots[s].S - n.Spots[s].S; got.Notches[k].Edge != n.Edge || d > 1e-3 || d < -1e-3 {
						t.Errorf("%s: a notch came back %g mm off", name, d)
					}
				}
			}
		}
	}
}

// stretchLength is how much line of the second printed size a stretch joins, mm.
func stretchLength(t *testing.T, p model.Pattern, s model.Stretch) float64 {
	t.Helper()
	q := p.Pieces[p.PieceIndex(s.Piece)]
	var sum float64
	for _, e := range s.Edges {
		l, err := q.Nest[1].Edges[q.EdgeIndex(e)].Length(1e-5)
		if err != nil {
			t.Fatal(err)
		}
		sum += l
	}
	return sum
}

// offLine is the largest distance of places on a from b and of b's ends from
// a's, mm.
func offLine(a, b geom.Path) float64 {
	most := max(a.Start().Dist(b.Start()), a.End().Dist(b.End()))
	for _, c := range a {
		for k := range 9 {
			_, _, d := b.Nearest(c.At(float64(k)/8), 1e-8)
			most = max(most, d)
		}
	}
	return most
}
