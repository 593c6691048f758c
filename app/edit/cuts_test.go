package edit

import (
	"math"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// oneSize is the demo blouse printed in one size only.
func oneSize(t *testing.T) model.Pattern {
	t.Helper()
	c, ok := sizechart.ByID("us-misses")
	if !ok {
		t.Fatal("no chart")
	}
	p, err := draft.Blouse(c, []string{"12"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// done makes an edit of the back and gives the back, valid and the old one as
// it was.
func done(t *testing.T, p model.Pattern, e func(model.Pattern) (model.Pattern, error)) model.Pattern {
	t.Helper()
	cuts, gaps := append([]model.Cut{}, p.Pieces[1].Cuts...), append([]model.Gap{}, p.Pieces[1].Gaps...)
	out, err := e(p)
	if err != nil {
		t.Fatal(err)
	}
	if err := out.Validate(); err != nil {
		t.Fatal(err)
	}
	for i := range cuts {
		if p.Pieces[1].Cuts[i] != cuts[i] {
			t.Error("the edit wrote into the cuts it was given")
		}
	}
	for i := range gaps {
		if p.Pieces[1].Gaps[i] != gaps[i] {
			t.Error("the edit wrote into the gaps it was given")
		}
	}
	return out
}

// refused makes an edit that must fail with those words and leave the pattern.
func refused(t *testing.T, p model.Pattern, e func(model.Pattern) (model.Pattern, error), words string) {
	t.Helper()
	out, err := e(p)
	if err == nil || !strings.Contains(err.Error(), words) {
		t.Errorf("got %v, want an error that says %q", err, words)
	}
	if len(out.Pieces[1].Cuts) != len(p.Pieces[1].Cuts) || len(out.Pieces[1].Gaps) != len(p.Pieces[1].Gaps) {
		t.Error("a refused edit changed the pattern")
	}
}

func TestCutsAreAddedMovedSetAndRemoved(t *testing.T) {
	p := oneSize(t)
	id := p.Pieces[1].ID
	a := done(t, p, AddCut(id, geom.Pt(40, 300), geom.Pt(40, 400), model.Bust, 1.0/16))
	b := done(t, a, AddCut(id, geom.Pt(20, 330), geom.Pt(60, 330), model.BackWaist, 0.5))
	cuts := b.Pieces[1].Cuts
	if len(cuts) != 2 || cuts[0].ID == cuts[1].ID || cuts[1].Share != 0.5 || cuts[1].Measure != model.BackWaist {
		t.Fatalf("cuts %v", cuts)
	}
	c := done(t, b, MoveCut(id, cuts[0].ID, geom.Pt(50, 300), geom.Pt(50, 400)))
	if got := c.Pieces[1].Cuts[0]; !reaches(b, got, 50) || got.Share != 1.0/16 {
		t.Errorf("moved to %v", got)
	}
	d := done(t, c, SetCut(id, cuts[0].ID, model.Steps, 3))
	if got := d.Pieces[1].Cuts[0]; got.Measure != model.Steps || got.Share != 3 || !reaches(b, got, 50) {
		t.Errorf("set to %v", got)
	}
	e := done(t, d, RemoveCut(id, cuts[0].ID))
	if got := e.Pieces[1].Cuts; len(got) != 1 || got[0].ID != cuts[1].ID || got[0].Share != 0.5 {
		t.Errorf("left %v", got)
	}
	f := done(t, e, AddCut(id, geom.Pt(40, 300), geom.Pt(40, 400), model.Bust, 0.1))
	if got := f.Pieces[1].Cuts; got[0].ID == got[1].ID {
		t.Errorf("two cuts are called %s", got[0].ID)
	}
}

// reaches reports that a lengthwise cut of the back lies at x, its ends on the
// outline, the upper one first.
func reaches(p model.Pattern, c model.Cut, x float64) bool {
	outline := geom.Join(p.Pieces[1].Nest[0].Edges...)
	_, _, top := outline.Nearest(c.From, 1e-6)
	_, _, bottom := outline.Nearest(c.To, 1e-6)
	return math.Abs(c.From.X-x) < 1e-6 && math.Abs(c.To.X-x) < 1e-6 && c.From.Y < 100 && c.To.Y > 500 && top < 1e-5 && bottom < 1e-5
}

// The proposed lines of the back open together by a quarter of the bust (T.
// Horlamus, Threads no. 101).
func TestProposedCuts(t *testing.T) {
	p := oneSize(t)
	id := p.Pieces[1].ID
	own := done(t, p, AddCut(id, geom.Pt(40, 300), geom.Pt(40, 400), model.Waist, 1))
	var sum float64
	for _, c := range done(t, own, DefaultCuts(id)).Pieces[1].Cuts {
		if c.Measure == model.Bust {
			sum += c.Share
		}
		if c.Measure == model.Waist {
			t.Error("the line that was there is kept")
		}
	}
	if math.Abs(sum-0.25) > 1e-12 {
		t.Errorf("a share of %g of the bust, want 1/4", sum)
	}
}

func TestCutsThatCannotBe(t *testing.T) {
	p := oneSize(t)
	id := p.Pieces[1].ID
	upright := func(x, share float64, m model.Measure) func(model.Pattern) (model.Pattern, error) {
		return AddCut(id, geom.Pt(x, 300), geom.Pt(x, 400), m, share)
	}
	refused(t, p, upright(900, 0.1, model.Bust), "does not run across")
	refused(t, p, upright(40, 1.1, model.Bust), "share of 0 to 1")
	refused(t, p, upright(40, -0.1, model.Bust), "share of 0 to 1")
	refused(t, p, upright(40, math.NaN(), model.Bust), "share of 0 to 1")
	refused(t, p, upright(40, 101, model.Steps), "0 to 100 mm")
	refused(t, p, upright(40, 0.1, "tail"), "has no tail")
	refused(t, p, MoveCut(id, "gone", geom.Pt(0, 0), geom.Pt(1, 1)), "no such cut line")
	refused(t, p, SetCut(id, "gone", model.Bust, 0.1), "no such cut line")
	refused(t, p, RemoveCut(id, "gone"), "no such cut line")
	refused(t, p, DefaultCuts(p.Pieces[5].ID), "proposing cut lines")
	refused(t, p, AddCut("gone", geom.Pt(0, 0), geom.Pt(1, 1), model.Bust, 0.1), "no piece")
	cut := done(t, p, upright(40, 0.1, model.Bust))
	refused(t, cut, MoveCut(id, cut.Pieces[1].Cuts[0].ID, geom.Pt(900, 0), geom.Pt(900, 9)), "does not run across")
	refused(t, cut, SetCut(id, cut.Pieces[1].Cuts[0].ID, model.Bust, 2), "share of 0 to 1")

	several := blouse(t)
	for _, e := range []func(model.Pattern) (model.Pattern, error){
		upright(40, 0.1, model.Bust), DefaultCuts(id), SetGap(id, "underarm", false, 3),
	} {
		refused(t, several, e, "printed in several sizes")
		refused(t, done(t, p, OneForAll(id, true)), e, "the same in all sizes")
	}
}

func TestTypedGaps(t *testing.T) {
	p := oneSize(t)
	id := p.Pieces[1].ID
	a := done(t, p, SetGap(id, "underarm", false, 9.525))
	b := done(t, a, SetGap(id, "underarm", true, 3))
	c := done(t, b, SetGap(id, "side-waist", false, 9.525))
	if got := c.Pieces[1].Gaps; len(got) != 2 || got[0] != (model.Gap{Point: "underarm", Across: 9.525, Along: 3}) {
		t.Fatalf("gaps %v", got)
	}
	d := done(t, c, SetGap(id, "underarm", false, 0))
	if got := d.Pieces[1].Gaps; len(got) != 2 || got[0].Across != 0 || got[0].Along != 3 {
		t.Errorf("gaps %v", got)
	}
	if got := done(t, d, SetGap(id, "underarm", true, 0)).Pieces[1].Gaps; len(got) != 1 || got[0].Point != "side-waist" {
		t.Errorf("a gap of nought is kept: %v", got)
	}
	if got := done(t, p, SetGap(id, "underarm", true, 0)).Pieces[1].Gaps; len(got) != 0 {
		t.Errorf("a gap of nought was added: %v", got)
	}
}

func TestGapsThatCannotBe(t *testing.T) {
	p := oneSize(t)
	id := p.Pieces[1].ID
	refused(t, p, SetGap(id, "gone", true, 1), "no such grade point")
	refused(t, p, SetGap("gone", "underarm", true, 1), "no piece")
	refused(t, p, SetGap(id, "underarm", true, 101), "at most 100 mm")
	refused(t, p, SetGap(id, "underarm", true, math.NaN()), "at most 100 mm")
	refused(t, p, SetGap(id, "centre-back-neck", false, 1), "fold or centre")
	refused(t, p, SetGap(id, "centre-back-hem", false, 1), "fold or centre")
	done(t, p, SetGap(id, "centre-back-hem", true, 6))
}
