package edit

import (
	"math"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// A correction made at a target shows there in full, also beside the size it
// belongs to, and leaves the printed sizes as printed.
func TestACorrectionInStagesShowsInFull(t *testing.T) {
	base := made(t, blouse(t), Stages(true))
	q, id := front(t, base)
	i := base.PieceIndex(q.ID)
	k := q.PointIndex(id("underarm"))
	v := geom.Vec{X: 4, Y: -3}
	for _, c := range []struct {
		place float64
		stage string
	}{{0.6, ""}, {6, "44"}, {6.4, "44"}, {5.6, "44"}, {0, "32"}, {0.4, "32"}, {2.5, ""}, {2, ""}, {3.6, "40"}} {
		p := made(t, base, Place(c.place))
		after := made(t, p, MovePoint(q.ID, id("underarm"), v))
		if got := after.Pieces[i].Hand.Moves[0].Stage; got != c.stage {
			t.Errorf("at %g the move belongs to %q, want %q", c.place, got, c.stage)
		}
		was, is := graded(t, p).Pieces[i], graded(t, after).Pieces[i]
		if d := is.Edges[k].Start().Sub(was.Edges[k].Start()).Sub(v).Len(); d > 1e-9 {
			t.Errorf("at %g the point went %g mm wrong", c.place, d)
		}
		if c.stage == "" {
			continue
		}
		for place := 1.0; place <= 3; place++ {
			if !graded(t, made(t, after, Place(place))).Pieces[i].Printed {
				t.Errorf("a correction at %s changed a printed size", c.stage)
			}
		}
	}
}

// Straightening one edge, and over a point, makes the line straight on the
// graded piece; the point between goes square to the line.
func TestStraightenMakesTheLineStraight(t *testing.T) {
	p := made(t, blouse(t), Place(8))
	i := p.PieceIndex("back")
	q := p.Pieces[i]
	point := func(name string) string {
		for _, g := range q.Points {
			if g.Name == name {
				return g.ID
			}
		}
		t.Fatalf("the back has no %s", name)
		return ""
	}
	r := graded(t, p)
	for _, c := range [][2]string{{"centre back neck", "neck point"}, {"underarm", "side hem"}, {"side hem", "underarm"}, {"shoulder tip", "underarm"}} {
		after := made(t, p, Straighten(q.ID, point(c[0]), point(c[1]), r))
		got := graded(t, after).Pieces[i].Edges
		a, b := q.PointIndex(point(c[0])), q.PointIndex(point(c[1]))
		if a > b {
			a, b = b, a
		}
		line := geom.Join(got[a:b]...)
		if !line.IsStraight(1e-6) {
			t.Errorf("from %s to %s the line is not straight", c[0], c[1])
		}
		chord := line.End().Sub(line.Start())
		for k := range got {
			v := got[k].Start().Sub(r.Pieces[i].Edges[k].Start())
			if inside := k > a && k < b; !inside && v.Len() > 1e-9 || math.Abs(v.Dot(chord.Unit())) > 1e-9 {
				t.Errorf("from %s to %s: %s went %v", c[0], c[1], pointName(q, k), v)
			}
		}
	}
}

func TestStraightensThatCannotBe(t *testing.T) {
	p := made(t, blouse(t), Place(8))
	r := graded(t, p)
	i := p.PieceIndex("back")
	q := p.Pieces[i]
	ids := map[string]string{}
	for k, g := range q.Points {
		ids[g.Name], ids[q.Edges[k].Name] = g.ID, q.Edges[k].ID
	}
	over := Straighten(q.ID, ids["underarm"], ids["side hem"], r)
	for says, c := range map[string]struct {
		p model.Pattern
		e func(model.Pattern) (model.Pattern, error)
	}{
		"two grade points": {p, Straighten(q.ID, ids["underarm"], ids["underarm"], r)},
		"no piece":         {p, Straighten("gone", ids["underarm"], ids["side hem"], r)},
		"not graded":       {p, Straighten(q.ID, ids["underarm"], ids["side hem"], graded(t, model.Pattern{}))},
		"is locked":        {made(t, p, LockPoint(q.ID, ids["side waist"], true)), over},
		"as a whole":       {made(t, p, ShiftEdge(q.ID, ids["side seam"], 3)), over},
		"turns back":       {p, Straighten(q.ID, ids["neck point"], ids["underarm"], zigzag(q, ids["neck point"], ids["underarm"]))},
	} {
		out, err := c.e(c.p)
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("want %q, got %v", says, err)
		}
		if len(Corrections(out)) != len(Corrections(c.p)) {
			t.Errorf("%s: half of it was done", says)
		}
	}
}

// Kept curves, shifts and smooth points add up and go as they should.
func TestCurvesShiftsAndSmoothPoints(t *testing.T) {
	p := made(t, blouse(t), Place(8))
	q, id := front(t, p)
	i := p.PieceIndex(q.ID)
	hand := func(p model.Pattern) model.Hand { return p.Pieces[i].Hand }
	bent := made(t, p, MoveControl(q.ID, id("armhole"), 1, geom.Vec{X: 3}))
	near := made(t, bent, KeepCurve(q.ID, id("armhole"), model.NearestCurve, "ignored"))
	if h := hand(near); len(h.Shapes) != 0 || len(h.Curves) != 1 || h.Curves[0].Size != "" {
		t.Errorf("the nearest curve after bending: %+v", h)
	}
	straight := made(t, near, KeepCurve(q.ID, id("armhole"), model.StraightCurve, ""))
	if h := hand(straight); len(h.Curves) != 1 || h.Curves[0].Kind != model.StraightCurve {
		t.Errorf("straight after the nearest curve: %+v", h)
	}
	if h := hand(made(t, straight, TrendCurve(q.ID, id("armhole")))); !h.IsZero() {
		t.Errorf("back to the trend: %+v", h)
	}
	twice := made(t, made(t, p, ShiftEdge(q.ID, id("hem"), 5)), ShiftEdge(q.ID, id("hem"), 2))
	if h := hand(twice); len(h.Shifts) != 1 || h.Shifts[0].Out != 7 {
		t.Errorf("shifted twice: %+v", h)
	}
	if h := hand(made(t, twice, ShiftEdge(q.ID, id("hem"), -7))); !h.IsZero() {
		t.Errorf("shifted back: %+v", h)
	}
	smooth := made(t, made(t, p, SmoothThrough(q.ID, id("underarm"))), SmoothThrough(q.ID, id("underarm")))
	if h := hand(smooth); len(h.Through) != 1 {
		t.Errorf("smoothed twice: %+v", h)
	}
	for says, e := range map[string]func(model.Pattern) (model.Pattern, error){
		"no such edge": KeepCurve(q.ID, "gone", model.NearestCurve, ""), "not printed": KeepCurve(q.ID, id("armhole"), model.PrintedCurve, "50"),
		"choose": KeepCurve(q.ID, id("armhole"), "wavy", ""), "has no such": ShiftEdge(q.ID, "gone", 1),
		"grade point": SmoothThrough(q.ID, "gone"),
	} {
		if _, err := e(p); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("want %q, got %v", says, err)
		}
	}
	locked := made(t, p, LockPoint(q.ID, q.Points[q.EdgeIndex(id("hem"))].ID, true))
	if _, err := ShiftEdge(q.ID, id("hem"), 5)(locked); err == nil || !strings.Contains(err.Error(), "is locked") {
		t.Errorf("an edge with a locked end was shifted: %v", err)
	}
}

// zigzag is q graded to a line that turns back on its way from one point to
// another, the other way round being far longer.
func zigzag(q model.Piece, from, to string) grading.Result {
	at := make([]geom.Point, len(q.Points))
	a, b := q.PointIndex(from), q.PointIndex(to)
	for k := range at {
		at[k] = geom.Pt(50, 5000+1000*float64(k))
	}
	for k := a; k <= b; k++ {
		at[k] = geom.Pt([]float64{0, 50, 20, 100}[k-a], 0)
	}
	g := grading.Piece{ID: q.ID}
	for k := range at {
		g.Edges = append(g.Edges, geom.Polyline(at[k], at[(k+1)%len(at)]))
	}
	return grading.Result{Pieces: []grading.Piece{g}}
}

// A chart without the size a correction belongs to is refused, by what is in its
// way; without the correction it is taken.
func TestAChartMustHaveTheStages(t *testing.T) {
	p := made(t, made(t, blouse(t), Place(8)), Stages(true))
	q, id := front(t, p)
	staged := made(t, p, MovePoint(q.ID, id("underarm"), geom.Vec{X: 4}))
	short := p.Chart
	short.Name, short.Sizes = "Short", p.Chart.Sizes[:6]
	_, err := Chart(short)(staged)
	if err == nil || !strings.Contains(err.Error(), "Underarm") || !strings.Contains(err.Error(), "no size "+p.Chart.Sizes[8].Name) {
		t.Errorf("said %v", err)
	}
	made(t, made(t, staged, Corrections(staged)[0].TakeBack), Chart(short))
}
