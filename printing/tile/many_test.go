package tile_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/tile"
)

// ragged is a set of invented pieces, small and large, round and square.
func ragged(seed uint64) []printing.Piece {
	rng := rand.New(rand.NewPCG(7, seed))
	var out []printing.Piece
	for range 3 + rng.IntN(8) {
		w, h := 60+rng.Float64()*340, 60+rng.Float64()*600
		pts := []geom.Point{{}, {X: w}, {X: w * (0.6 + 0.4*rng.Float64()), Y: h}, {Y: h}}
		if rng.IntN(3) > 0 {
			pts = pts[:0]
			for k := range 12 {
				a, r := 2*math.Pi*float64(k)/12, 0.75+0.25*rng.Float64()
				pts = append(pts, geom.Pt(w/2*r*math.Cos(a), h/2*r*math.Sin(a)))
			}
		}
		out = append(out, pieceOf("Patch", geom.Polyline(append(pts, pts[0])...)))
	}
	return out
}

// shownBy is the box of what a sheet shows between its joins, seen at points
// near mm apart; empty where it shows nothing.
func shownBy(s tile.Sheet, placed []tile.Placed, near float64) geom.Box {
	var outlines []geom.Path
	for _, q := range placed {
		if o := q.Piece.Outline.Transform(q.At); o.Bounds().Intersects(s.Own) {
			outlines = append(outlines, o)
		}
	}
	var box geom.Box
	for x := s.Own.Min.X + near/2; x < s.Own.Max.X; x += near {
		for y := s.Own.Min.Y + near/2; y < s.Own.Max.Y; y += near {
			for _, o := range outlines {
				if q := geom.Pt(x, y); o.Bounds().Contains(q) && o.Contains(q, 0.1) {
					box = box.Union(geom.BoxOf(q))
					break
				}
			}
		}
	}
	return box
}

// On many sets of pieces: never fewer sheets than their area takes, not many
// more, and no sheet that shows a mere sliver. The most allowed in all is what
// was measured; placing each piece where it opens the fewest sheets, once,
// took 95.
func TestPagesOfManySets(t *testing.T) {
	const sets, most = 8, 90
	total, least := 0, 0
	for seed := range uint64(sets) {
		s := a4()
		s.Margin = 8
		pieces := ragged(seed)
		placed := arranged(t, pieces, s)
		plan := layout(t, placed, s)
		area := 0.0
		for _, p := range pieces {
			area += math.Abs(p.Outline.Area())
		}
		need := int(math.Ceil(area / (194 * 281)))
		if len(plan.Sheets) < need {
			t.Fatalf("set %d: %d sheets hold what takes %d", seed, len(plan.Sheets), need)
		}
		for _, sh := range plan.Sheets {
			const near = 4
			if b := shownBy(sh, placed, near); math.Min(b.Width(), b.Height())+2*near < 10 || b.Empty() {
				t.Errorf("set %d: %s shows only %.0f x %.0f mm", seed, sh.Name, b.Width(), b.Height())
			}
		}
		total, least = total+len(plan.Sheets), least+need
	}
	t.Logf("%d sheets for %d sets, at least %d by area", total, sets, least)
	if total > most {
		t.Errorf("%d sheets for %d sets, want at most %d", total, sets, most)
	}
}

// A piece a little wider than two sheets takes three, and shows more than a
// sliver on each: windows are 190 wide and share 10 mm, so that 376 mm reach 6
// mm into the third.
func TestSliversAreAvoided(t *testing.T) {
	for _, wide := range []float64{371, 376, 388} {
		placed := arranged(t, []printing.Piece{oblong("Panel", wide, 250)}, a4())
		plan := layout(t, placed, a4())
		if len(plan.Sheets) != 3 {
			t.Fatalf("%g mm: %d sheets", wide, len(plan.Sheets))
		}
		for _, sh := range plan.Sheets {
			if b := shownBy(sh, placed, 1); b.Width() < 11 {
				t.Errorf("%g mm: %s shows %.1f mm", wide, sh.Name, b.Width())
			}
		}
	}
}

// A piece on one sheet is not trimmed where there is room beside the joins.
func TestSmallPiecesAreNotTrimmed(t *testing.T) {
	pieces := []printing.Piece{oblong("Panel", 360, 500), oblong("Pocket", 60, 60)}
	placed := arranged(t, pieces, a4())
	plan := layout(t, placed, a4())
	b := placed[1].Piece.Outline.Transform(placed[1].At).Bounds()
	for _, sh := range plan.Sheets {
		if sh.Own.Contains(b.Min) && sh.Own.Contains(b.Max) {
			return
		}
	}
	t.Errorf("the pocket at %v lies over a join", b)
}
