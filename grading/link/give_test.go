package link

import (
	"math"
	"testing"

	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// ring is a piece of straight edges between corners, without allowances,
// printed once; arch replaces its first edge where it is given.
func ringPiece(id string, arch geom.Path, corners ...geom.Point) model.Piece {
	return piece(id, len(corners), func(int) []geom.Path {
		out := make([]geom.Path, len(corners))
		for i, c := range corners {
			out[i] = geom.Polyline(c, corners[(i+1)%len(corners)])
		}
		if arch != nil {
			out[0] = arch
		}
		return out
	})
}

// seamOf is the seam of q's first edge with a straight leader of that length.
func seamOf(t *testing.T, q model.Piece, r model.Refit, lead float64) Seam {
	t.Helper()
	leader := ringPiece("leader", nil, geom.Pt(0, 0), geom.Pt(lead, 0), geom.Pt(lead, 50), geom.Pt(0, 50))
	p := model.Pattern{Chart: chart(), Pieces: []model.Piece{leader, q}}
	pr, err := seam.Read(p, model.Link{
		ID: "l", Kind: model.Sewn, EaseFixed: true, Refit: r,
		Lead: model.Stretch{Piece: "leader", Edges: []string{"e0"}}, Follow: model.Stretch{Piece: q.ID, Edges: []string{"e0"}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return Seam{Print: pr, Lead: lead}
}

// halfEllipse is the upper half of an ellipse from left to right, in n cubics.
func halfEllipse(a, b float64, n int) geom.Path {
	var out geom.Path
	for k := range n {
		t0, t1 := math.Pi-math.Pi*float64(k)/float64(n), math.Pi-math.Pi*float64(k+1)/float64(n)
		h := 4.0 / 3 * math.Tan((t1-t0)/4)
		p, q := geom.Pt(a*math.Cos(t0), -b*math.Sin(t0)), geom.Pt(a*math.Cos(t1), -b*math.Sin(t1))
		u, v := geom.Vec{X: -a * math.Sin(t0), Y: -b * math.Cos(t0)}, geom.Vec{X: -a * math.Sin(t1), Y: -b * math.Cos(t1)}
		out = append(out, geom.Cubic{P0: p, P1: p.Add(u.Scale(h)), P2: q.Add(v.Scale(-h)), P3: q})
	}
	return out
}

// halfPerimeter is half the way round an ellipse, 2 a E(e), the complete
// elliptic integral by the arithmetic-geometric mean: Abramowitz and Stegun,
// Handbook of Mathematical Functions, 17.6.
func halfPerimeter(a, b float64) float64 {
	x, y := 1.0, b/a
	sum, two := (1-y*y)/2, 0.5 // of 2^(n-1) c_n², from n = 0
	for x-y > 1e-15 {
		x, y = (x+y)/2, math.Sqrt(x*y)
		two *= 2
		sum += two * (x*x - y*y)
	}
	return 2 * a * math.Pi / (2 * x) * (1 - sum)
}

// A cap drawn as half an ellipse 100 wide each way and 80 high, raised until it
// is as long as one 90 high, is that ellipse: k is 10 (closed form). Wider
// instead, it is the ellipse of that width.
func TestCapOfAnEllipse(t *testing.T) {
	if got := halfPerimeter(100, 100); math.Abs(got-100*math.Pi) > 1e-9 {
		t.Fatalf("the integral is off: half a circle is %.6f", got)
	}
	if got := halfPerimeter(100, 50); math.Abs(got-242.2112055) > 1e-5 { // scipy.special.ellipe: 2*100*1.2110560276
		t.Fatalf("the integral is off: %.7f", got)
	}
	cap := ringPiece("cap", halfEllipse(100, 80, 8), geom.Pt(-100, 0), geom.Pt(100, 0), geom.Pt(80, 200), geom.Pt(-80, 200))
	for _, c := range []struct {
		refit model.Refit
		a, b  float64
		want  float64
	}{
		{model.CapHeight, 100, 90, 10},
		{model.CapHeight, 100, 72, -8},
		{model.CapWidth, 106, 80, 12},
		{model.CapBoth, 110, 88, 8},
	} {
		f := Piece{Piece: cap, Edges: cap.Nest[0].Edges}
		gave := f.Give([]Seam{seamOf(t, cap, c.refit, halfPerimeter(c.a, c.b))})
		if gave[0].Why != nil || math.Abs(gave[0].By-c.want) > 0.01 {
			t.Errorf("%s: gave %.4f, want %g (%v)", c.refit, gave[0].By, c.want, gave[0].Why)
			continue
		}
		for _, p := range f.Edges[0].Flatten(0.01) {
			if d := math.Hypot(p.X/c.a, p.Y/c.b); math.Abs(d-1) > 2e-4 {
				t.Errorf("%s: %v lies off the ellipse of %g and %g by %.5f", c.refit, p, c.a, c.b, d-1)
				break
			}
		}
		for j := range f.Edges {
			if d := f.Edges[j].End().Dist(f.Edges[(j+1)%4].Start()); d > 1e-9 {
				t.Errorf("%s: edge %d ends %g mm from the next", c.refit, j, d)
			}
		}
		if f.Edges[2].Start().Dist(geom.Pt(80, 200)) > 1e-9 {
			t.Errorf("%s: the hem moved", c.refit)
		}
	}
}

// A straight seam 100 long, made 97: by one end that moves along it, or by the
// whole piece, from its fold where there is one, else from its middle.
func TestStraightSeams(t *testing.T) {
	band := ringPiece("band", nil, geom.Pt(0, 0), geom.Pt(0, 100), geom.Pt(-60, 100), geom.Pt(-60, 0))
	for _, c := range []struct {
		refit      model.Refit
		fold       int // edge that is a fold; -1 for none
		by         float64
		start, end float64 // where the seam's ends lie then
	}{
		{model.EndAlong, -1, -3, 0, 97},
		{model.StartAlong, -1, 3, 3, 100},
		{model.WholePiece, -1, -3, 1.5, 98.5},
		{model.WholePiece, 3, -3, 0, 97},
		{model.WholePiece, 1, -3, 3, 100},
	} {
		q := band
		q.Edges = append([]model.Edge(nil), band.Edges...)
		if c.fold >= 0 {
			q.Edges[c.fold].Kind = model.Fold
		}
		f := Piece{Piece: q, Edges: q.Nest[0].Edges}
		gave := f.Give([]Seam{seamOf(t, q, c.refit, 97)})
		e := f.Edges[0]
		if gave[0].Why != nil || math.Abs(gave[0].By-c.by) > 0.01 || math.Abs(e.Start().Y-c.start) > 0.01 || math.Abs(e.End().Y-c.end) > 0.01 {
			t.Errorf("%s, fold %d: gave %.3f, from %v to %v (%v)", c.refit, c.fold, gave[0].By, e.Start(), e.End(), gave[0].Why)
		}
		if c.refit != model.WholePiece {
			continue
		}
		if d := f.Edges[2].End().Y - f.Edges[2].Start().Y; math.Abs(d+97) > 0.01 {
			t.Errorf("fold %d: the far side is %.3f long, want 97", c.fold, -d)
		}
		mark := f.Mark(geom.Polyline(geom.Pt(-30, 0), geom.Pt(-30, 100)))
		if math.Abs(mark.Start().Y-c.start) > 0.01 || math.Abs(mark.End().Y-c.end) > 0.01 {
			t.Errorf("fold %d: a line across the piece runs from %v to %v", c.fold, mark.Start(), mark.End())
		}
	}
}

// What may not move is said, and then nothing moves.
func TestWhatMayNotMove(t *testing.T) {
	cap := ringPiece("cap", halfEllipse(100, 80, 8), geom.Pt(-100, 0), geom.Pt(100, 0), geom.Pt(80, 200), geom.Pt(-80, 200))
	for name, c := range map[string]struct {
		refit  model.Refit
		lead   float64
		spoil  func(*model.Piece)
		shared []bool
	}{
		"a fold":             {model.CapWidth, 270, func(q *model.Piece) { q.Edges[1].Kind = model.Fold }, nil},
		"a shared line":      {model.CapWidth, 270, func(*model.Piece) {}, []bool{false, true, false, false}},
		"far too long":       {model.CapHeight, 900, func(*model.Piece) {}, nil},
		"far too short":      {model.CapHeight, 190, func(*model.Piece) {}, nil},
		"the followed line":  {model.CapHeight, 270, func(*model.Piece) {}, []bool{true, false, false, false}},
		"an end on the side": {model.EndAcross, 900, func(*model.Piece) {}, nil},
	} {
		q := cap
		q.Edges = append([]model.Edge(nil), cap.Edges...)
		c.spoil(&q)
		f := Piece{Piece: q, Edges: q.Nest[0].Edges, Shared: c.shared}
		gave := f.Give([]Seam{seamOf(t, q, c.refit, c.lead)})
		if gave[0].Why == nil || gave[0].By != 0 || &f.Edges[0][0] != &q.Nest[0].Edges[0][0] {
			t.Errorf("%s: gave %.3f, %v", name, gave[0].By, gave[0].Why)
		}
	}
}

// Two seams of one piece that ask for the same edge: the one is kept, and it is
// said of the other that it cannot be, too.
func TestSeamsThatContradict(t *testing.T) {
	band := ringPiece("band", nil, geom.Pt(0, 0), geom.Pt(0, 100), geom.Pt(-60, 100), geom.Pt(-60, 0))
	f := Piece{Piece: band, Edges: band.Nest[0].Edges}
	gave := f.Give([]Seam{seamOf(t, band, model.EndAlong, 97), seamOf(t, band, model.EndAlong, 94)})
	kept := 0
	for _, g := range gave {
		if g.Why == nil {
			kept++
		}
	}
	if kept != 1 {
		t.Errorf("%d of two contradictory seams are kept: %+v", kept, gave)
	}
}
