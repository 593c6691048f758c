package target

import (
	"testing"

	"quarterstep/model/geom"
)

// Every code of a set is one target, and it has room: its white reaches no other
// target's ring, nor over the edge of its part.
func TestSpotsHaveRoom(t *testing.T) {
	seen := map[int]bool{}
	for _, set := range []Set{Strips, Corners} {
		half := geom.Vec{X: StripWidth / 2, Y: 2*stripStep + 2*smallRadius}
		if set == Corners {
			half = geom.Vec{X: CardSide / 2, Y: CardSide / 2}
		}
		var all []Spot
		for part := range Parts {
			for k := range PerPart {
				code := set.Code(part, k)
				s, ok := SpotOf(code)
				if !ok || seen[code] || code >= Codes || s.Set != set || s.Part != part {
					t.Fatalf("target %d of part %d of the %s has code %d: %+v", k, part, set, code, s)
				}
				seen[code] = true
				if s.On.X-White*s.Radius < -half.X || s.On.X+White*s.Radius > half.X ||
					s.On.Y-White*s.Radius < -half.Y || s.On.Y+White*s.Radius > half.Y {
					t.Errorf("code %d has no white about it on its part", code)
				}
				if s.Middle() != (set == Corners && k == 0) {
					t.Errorf("code %d: in the middle of a card: %v", code, s.Middle())
				}
				for _, o := range all {
					if d := s.Sheet.Dist(o.Sheet); d < White*s.Radius+o.Radius {
						t.Errorf("code %d lies %.1f mm from another", code, d)
					}
				}
				all = append(all, s)
			}
		}
	}
	for _, code := range []int{-1, len(seen), Codes} {
		if s, ok := SpotOf(code); ok {
			t.Errorf("code %d is printed: %+v", code, s)
		}
	}
}

// The sheet is not larger than a printer can print on A4 and Letter: 8 mm in
// from the edges of 210 by 279.4 mm.
func TestSheetsFitBothPapers(t *testing.T) {
	for code := range 2 * firstCard {
		s, _ := SpotOf(code)
		box := geom.BoxOf(s.Sheet).Grow(s.Radius)
		for _, o := range []geom.Point{box.Min, box.Max} {
			if max(o.X, -o.X) > 105-8 || max(o.Y, -o.Y) > 139.7-8 {
				t.Errorf("code %d reaches %v", code, o)
			}
		}
	}
}

// Parts keep their shape: on the sheet they are moved, not turned or stretched.
func TestPartsAreMovedOnly(t *testing.T) {
	for _, set := range []Set{Strips, Corners} {
		for part := range Parts {
			first, _ := SpotOf(set.Code(part, 0))
			for k := range PerPart {
				s, _ := SpotOf(set.Code(part, k))
				if d := s.Sheet.Sub(first.Sheet).Sub(s.On.Sub(first.On)).Len(); d > 1e-9 {
					t.Errorf("%s, part %d, target %d: moved by another %.3f mm", set, part, k, d)
				}
			}
		}
	}
}
