package edit

import (
	"math"
	"reflect"
	"testing"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

func blouse(t *testing.T) model.Pattern {
	t.Helper()
	c, ok := sizechart.ByID("en13402-women")
	if !ok {
		t.Fatal("no chart")
	}
	p, err := draft.Blouse(c, []string{"34", "36", "38"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// mustEdit makes an edit and holds it to leaving its input alone.
func mustEdit(t *testing.T, p model.Pattern, e func(model.Pattern) (model.Pattern, error)) model.Pattern {
	t.Helper()
	before := blouse(t)
	before.Pieces[0].Hand = p.Pieces[0].Hand
	same := reflect.DeepEqual(p.Pieces[0].Nest, before.Pieces[0].Nest)
	moves := append([]model.PointMove{}, p.Pieces[0].Hand.Moves...)
	points := append([]model.GradePoint{}, p.Pieces[0].Points...)
	out, err := e(p)
	if err != nil {
		t.Fatal(err)
	}
	if err := out.Validate(); err != nil {
		t.Fatal(err)
	}
	if same && !reflect.DeepEqual(p.Pieces[0].Nest, before.Pieces[0].Nest) {
		t.Error("the edit wrote into the printed nest")
	}
	if len(moves) != len(p.Pieces[0].Hand.Moves) || !reflect.DeepEqual(points, p.Pieces[0].Points) {
		t.Error("the edit wrote into what it was given")
	}
	for i := range moves {
		if moves[i] != p.Pieces[0].Hand.Moves[i] {
			t.Error("the edit wrote into the corrections it was given")
		}
	}
	return out
}

func TestMovesAddUpAndCanBeTakenBack(t *testing.T) {
	p := blouse(t)
	q := p.Pieces[0]
	a := mustEdit(t, p, MovePoint(q.ID, q.Points[1].ID, geom.Vec{X: 3}))
	b := mustEdit(t, a, MovePoint(q.ID, q.Points[1].ID, geom.Vec{X: 1, Y: 2}))
	if got := b.Pieces[0].Hand.Moves; len(got) != 1 || got[0].By != (geom.Vec{X: 4, Y: 2}) {
		t.Errorf("moves %v", got)
	}
	if got := a.Pieces[0].Hand.Moves[0].By; got != (geom.Vec{X: 3}) {
		t.Errorf("the first move became %v", got)
	}
	if c := mustEdit(t, b, MovePoint(q.ID, q.Points[1].ID, geom.Vec{X: -4, Y: -2})); len(c.Pieces[0].Hand.Moves) != 0 {
		t.Error("a move that comes back to nothing is kept")
	}
	if c := mustEdit(t, b, TakeBackPoint(q.ID, q.Points[1].ID)); len(c.Pieces[0].Hand.Moves) != 0 {
		t.Error("the move was not taken back")
	}
	e := mustEdit(t, p, MoveEdge(q.ID, q.Edges[2].ID, geom.Vec{Y: 5}))
	if got := e.Pieces[0].Hand.Moves; len(got) != 2 || got[0].By != got[1].By {
		t.Errorf("moving an edge gives %v", got)
	}
}

// At a joint of two curves the handles on both sides go along, so that the line
// stays smooth there.
func TestAJointBringsItsHandlesAlong(t *testing.T) {
	p := blouse(t)
	q := p.Pieces[0]
	v := geom.Vec{X: 2, Y: -1}
	got := mustEdit(t, p, MoveControl(q.ID, q.Edges[0].ID, 3, v)).Pieces[0].Hand.Shapes[0].By
	if len(got) != 4 || got[0] != (geom.Vec{}) || got[1] != v || got[2] != v || got[3] != v {
		t.Errorf("shifts %v", got)
	}
	one := mustEdit(t, p, MoveControl(q.ID, q.Edges[0].ID, 1, v))
	if got := one.Pieces[0].Hand.Shapes[0].By; len(got) != 1 || got[0] != v {
		t.Errorf("shifts %v", got)
	}
	if back := mustEdit(t, one, TakeBackEdge(q.ID, q.Edges[0].ID)); len(back.Pieces[0].Hand.Shapes) != 0 {
		t.Error("the shape was not taken back")
	}
}

func TestLockedPointsAndThingsThatAreNotThere(t *testing.T) {
	p := blouse(t)
	q := p.Pieces[0]
	locked := mustEdit(t, p, LockPoint(q.ID, q.Points[0].ID, true))
	if _, err := MovePoint(q.ID, q.Points[0].ID, geom.Vec{X: 1})(locked); err == nil {
		t.Error("a locked point was moved")
	}
	free := mustEdit(t, locked, LockPoint(q.ID, q.Points[0].ID, false))
	if _, err := MovePoint(q.ID, q.Points[0].ID, geom.Vec{X: 1})(free); err != nil {
		t.Error(err)
	}
	for name, e := range map[string]func(model.Pattern) (model.Pattern, error){
		"piece": MovePoint("gone", "p", geom.Vec{}), "point": MovePoint(q.ID, "gone", geom.Vec{}),
		"edge": MoveEdge(q.ID, "gone", geom.Vec{}), "control": MoveControl(q.ID, q.Edges[0].ID, 0, geom.Vec{}),
		"shape": MoveControl(q.ID, "gone", 1, geom.Vec{}), "follow": Follow(q.ID, "gone", false, model.Bust),
		"lock": LockPoint(q.ID, "gone", true),
		"name": Rename(q.ID, "  "), "cut": Cut(q.ID, 0), "lining": CutLining(q.ID, -1), "linings": CutLining(q.ID, 100), "lay": LayPiece("gone", geom.Vec{}),
		"add": AddPoint("gone", "34", geom.Point{}), "size": AddPoint(q.ID, "99", geom.Point{}),
		"remove": RemovePoint(q.ID, "gone"), "mend": MendPoint(q.ID, "gone", "34", geom.Point{}),
		"chart": Chart(model.SizeChart{Name: "empty"}),
	} {
		if _, err := e(p); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestTargetAndHabits(t *testing.T) {
	p := blouse(t)
	q := p.Pieces[0]
	if got := mustEdit(t, p, Place(99)).Target.Place; got != float64(len(p.Chart.Sizes)-1) {
		t.Errorf("beyond the chart the place is %g", got)
	}
	if got := mustEdit(t, p, Method(model.BySteps)).Target.Method; got != model.BySteps {
		t.Errorf("method %s", got)
	}
	if got := mustEdit(t, p, Wearer(" Ada ")).Target.Wearer; got != "Ada" {
		t.Errorf("wearer %q", got)
	}
	if got := mustEdit(t, p, Unit(model.Inches)).Unit; got != model.Inches {
		t.Errorf("unit %s", got)
	}
	if got := mustEdit(t, p, Rename(q.ID, "Left front")).Pieces[0].Name; got != "Left front" {
		t.Errorf("name %q", got)
	}
	if got := mustEdit(t, p, Cut(q.ID, 3)).Pieces[0].Cut; got != 3 {
		t.Errorf("cut %d", got)
	}
	if got := mustEdit(t, p, CutLining(q.ID, 2)).Pieces[0].Lining; got != 2 {
		t.Errorf("cut %d in lining", got)
	}
	if got := mustEdit(t, p, LayPiece(q.ID, geom.Vec{X: 7})).Pieces[0].At.Sub(q.At); got != (geom.Vec{X: 7}) {
		t.Errorf("laid %v on", got)
	}
	if got := mustEdit(t, p, Follow(q.ID, q.Points[0].ID, true, model.Steps)).Pieces[0].Points[0].Along; got != model.Steps {
		t.Errorf("follows %s", got)
	}
	other := p.Chart
	other.ID, other.Name, other.Sizes = "own", "Own", p.Chart.Sizes[1:]
	wanted := mustEdit(t, p, Place(4))
	if got := mustEdit(t, wanted, Chart(other)); got.Chart.NameAt(got.Target.Place) != p.Chart.NameAt(4) {
		t.Errorf("on another chart the size became %s", got.Chart.NameAt(got.Target.Place))
	}
}

// A grade point added and taken out again leaves the line as it was, in every
// size, and the links hold all the while.
func TestAddAndRemoveAPoint(t *testing.T) {
	p := blouse(t)
	last := len(p.Pieces) - 1
	q := p.Pieces[last]
	mid := q.Nest[1].Edges[0][0].At(0.5)
	more := mustEdit(t, p, AddPoint(q.ID, q.Nest[1].Size, mid))
	got := more.Pieces[last]
	if len(got.Points) != len(q.Points)+1 || len(more.Links) != len(p.Links) {
		t.Fatalf("%d points, %d links", len(got.Points), len(more.Links))
	}
	added := ""
	for _, g := range got.Points {
		if q.PointIndex(g.ID) < 0 {
			added = g.ID
		}
	}
	less := mustEdit(t, more, RemovePoint(q.ID, added)).Pieces[last]
	for i, o := range q.Nest {
		want, line := geom.Join(o.Edges...), geom.Join(less.Nest[i].Edges...)
		for _, at := range line.Flatten(0.5) {
			if _, _, d := want.Nearest(at, 1e-6); d > 1e-4 {
				t.Fatalf("size %s came back %.5f mm off", o.Size, d)
			}
		}
	}
	moved := mustEdit(t, more, MendPoint(q.ID, added, q.Nest[1].Size, mid.Add(geom.Vec{X: 3})))
	k := got.PointIndex(added)
	if d := moved.Pieces[last].Nest[1].Edges[k].Start().Dist(got.Nest[1].Edges[k].Start()); math.Abs(d-3) > 0.2 {
		t.Errorf("mending moved the corner %.3f mm, want about 3", d)
	}
	if moved.Pieces[last].Nest[0].Edges[k].Start() != got.Nest[0].Edges[k].Start() {
		t.Error("mending one size moved another")
	}
}
