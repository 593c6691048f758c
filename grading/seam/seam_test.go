package seam

import (
	"math"
	"testing"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

func blouse(t testing.TB) model.Pattern {
	t.Helper()
	chart, _ := sizechart.ByID("en13402-women")
	p, err := draft.Blouse(chart, []string{"34", "36", "38", "40"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func linkOf(t testing.TB, p model.Pattern, id string) model.Link {
	t.Helper()
	for _, l := range p.Links {
		if l.ID == id {
			return l
		}
	}
	t.Fatalf("no link %s", id)
	return model.Link{}
}

func read(t testing.TB, p model.Pattern, id string) *Print {
	t.Helper()
	pr, err := Read(p, linkOf(t, p, id))
	if err != nil {
		t.Fatal(err)
	}
	return pr
}

// printed is every piece of p as printed in a size.
func printed(t testing.TB, p model.Pattern, size string) []Sheet {
	t.Helper()
	out := make([]Sheet, len(p.Pieces))
	for i, q := range p.Pieces {
		var ok bool
		if out[i], ok = Printed(q, size); !ok {
			t.Fatalf("%s is not printed in %s", q.Name, size)
		}
	}
	return out
}

// The demo's cap is drafted 12 mm longer than the back armhole and 10 mm longer
// than the front one, its notches as far from the underarm as the armholes'.
func TestCapAlongTheArmhole(t *testing.T) {
	p := blouse(t)
	pr := read(t, p, "cap")
	for _, e := range pr.Eases() {
		if math.Abs(e.Ease-22) > 0.01 {
			t.Errorf("size %s carries %.3f mm of ease, drafted 22", e.Size, e.Ease)
		}
	}
	w, err := pr.Walk(printed(t, p, "38"), 2)
	if err != nil {
		t.Fatal(err)
	}
	if len(w.Parts) != 4 {
		t.Fatalf("the cap has %d parts, want underarm to notch to crown to notch to underarm: %+v", len(w.Parts), w.Parts)
	}
	for i, want := range []float64{0, 12, 10, 0} {
		if got := w.Parts[i].Surplus(); math.Abs(got-want) > 0.02 {
			t.Errorf("part %d eases %.3f mm, want %g", i, got, want)
		}
	}
	crown := w.Parts[1].To
	if crown.Lead.Kind != Join || crown.Follow.Name != "crown" || w.Parts[0].To.Lead.Double != true || w.Parts[2].To.Lead.Double {
		t.Errorf("double notch, crown and single notch should meet: %+v", w.Parts)
	}
	if w.Wanted != (Range{18, 25}) || w.Ease < 21.99 || w.Ease > 22.01 {
		t.Errorf("wanted %v, got %.3f", w.Wanted, w.Ease)
	}
}

// The side seam is walked over the closed dart: its two parts sewn are as long
// as the back's (drafted to 0.001 mm).
func TestSideSeamLeavesTheDartOut(t *testing.T) {
	p := blouse(t)
	pr := read(t, p, "sides")
	for i, e := range pr.Eases() {
		if math.Abs(e.Ease) > 0.01 {
			t.Errorf("size %s: %.4f mm", pr.sizes[i], e.Ease)
		}
	}
}

// oblong is a piece w wide and h high with an allowance all round; its edges
// run clockwise from the top left corner.
func oblong(id string, allowance float64, sizes ...[2]float64) model.Piece {
	q := model.Piece{ID: id, Name: id}
	for _, e := range []string{"top", "right", "bottom", "left"} {
		q.Edges = append(q.Edges, model.Edge{ID: e, Name: e, Allowance: allowance})
		q.Points = append(q.Points, model.GradePoint{ID: "at " + e})
	}
	for i, s := range sizes {
		a, b, c, d := geom.Pt(0, 0), geom.Pt(s[0], 0), geom.Pt(s[0], s[1]), geom.Pt(0, s[1])
		q.Nest = append(q.Nest, model.Outline{
			Size:  []string{"10", "12", "14"}[i],
			Edges: []geom.Path{geom.Polyline(a, b), geom.Polyline(b, c), geom.Polyline(c, d), geom.Polyline(d, a)},
		})
	}
	return q
}

func oblongs(q ...model.Piece) model.Pattern {
	p := model.Pattern{Pieces: q}
	for _, s := range []string{"10", "12", "14", "16"} {
		p.Chart.Sizes = append(p.Chart.Sizes, model.ChartSize{Name: s})
	}
	return p
}

// Oblongs by hand: sides of 100, 110, 120 against 103, 114, 124 less twice the
// allowance each, so 3, 4 and 4 of ease; a notch 40 along the cutting line lies
// 30 along the stitching line.
func TestOblongsByHand(t *testing.T) {
	a := oblong("a", 10, [2]float64{50, 100}, [2]float64{50, 110}, [2]float64{50, 120})
	b := oblong("b", 10, [2]float64{50, 103}, [2]float64{50, 114}, [2]float64{50, 124})
	a.Notches = []model.Notch{{ID: "n", Edge: "right", Spots: []model.Spot{{S: 40}}}}
	b.Notches = []model.Notch{{ID: "n", Edge: "left", Spots: []model.Spot{{Size: "10", S: 62}, {Size: "12", S: 73}, {Size: "14", S: 83}}}}
	p := oblongs(a, b)
	p.Links = []model.Link{{
		ID: "l", Kind: model.Sewn, Lead: model.Stretch{Piece: "a", Edges: []string{"right"}},
		Follow: model.Stretch{Piece: "b", Edges: []string{"left"}, Reverse: true},
	}}
	pr := read(t, p, "l")
	for place, want := range map[float64]float64{-1: 3, 0: 3, 0.5: 3.5, 1: 4, 2: 4, 7: 4} {
		if got := pr.Carried(place); math.Abs(got-want) > 1e-6 {
			t.Errorf("at %g the print carries %.6f, want %g", place, got, want)
		}
	}
	w, err := pr.Walk(printed(t, p, "10"), 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(w.Parts) != 2 || math.Abs(w.Parts[0].Lead-30) > 1e-6 || math.Abs(w.Parts[0].Follow-31) > 1e-6 || math.Abs(w.Parts[1].Surplus()-2) > 1e-6 {
		t.Fatalf("parts %+v", w.Parts)
	}
	// The follower made 6 longer: its notch stays 31 along, where it meets the
	// other, for the part past it eases most.
	sheets := printed(t, p, "10")
	longer := oblong("b", 10, [2]float64{50, 109})
	sheets[1].Tape = NewTape(longer, longer.Nest[0].Edges)
	at, err := pr.NotchPlaces(sheets, 0)
	if err != nil || len(at) != 1 || math.Abs(at[0].S-(109-10-31)) > 2e-3 {
		t.Errorf("the notch belongs at %+v, want %g (%v)", at, 109.0-41, err)
	}
}

func TestWhatIsGone(t *testing.T) {
	p := blouse(t)
	l := linkOf(t, p, "cap")
	l.And = []model.Stretch{{Piece: "front", Edges: []string{"gone"}}}
	if _, err := Read(p, l); err == nil {
		t.Error("a seam along an edge that is not there was read")
	}
	l.And = []model.Stretch{{Piece: "front"}}
	if _, err := Read(p, l); err != ErrGone {
		t.Errorf("a stretch without edges: %v", err)
	}
	l.And = []model.Stretch{{Piece: "gone", Edges: []string{"armhole"}}}
	if _, err := Read(p, l); err != ErrGone {
		t.Errorf("a piece that is not there: %v", err)
	}
}
