package draft

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
)

// What gives grading an exact truth: before seams are brought together, every
// control point of every piece but the peak of the bust dart is linear in the
// body.
func TestDraftsAreLinearInTheBody(t *testing.T) {
	anyBody := rapid.Custom(func(t *rapid.T) body {
		r := func(lo, hi float64, label string) float64 { return rapid.Float64Range(lo, hi).Draw(t, label) }
		return body{r(-3, 12, "step"), r(-3, 8, "down"), r(190, 380, "bust"), r(150, 340, "waist"), r(210, 380, "hip")}
	})
	fit := [3]float64{1.5, -2, 0.7}
	draw := map[string]func(b body) ([]geom.Path, error){
		"blouse back": func(b body) ([]geom.Path, error) { s, err := drawBlouseBack(b); return s.edges, err },
		"blouse front": func(b body) ([]geom.Path, error) {
			s := drawBlouseFront(b, fit[0], fit[1], fit[2])
			peak := blouseFront().index("upper half of the dart cap")
			return append(s.edges[:peak:peak], s.edges[peak+2:]...), nil
		},
		"sleeve":          func(b body) ([]geom.Path, error) { return drawBlouseSleeve(b, fit[0], fit[1], fit[2]).edges, nil },
		"waistcoat back":  func(b body) ([]geom.Path, error) { s, err := drawWaistcoatBack(b); return s.edges, err },
		"waistcoat front": func(b body) ([]geom.Path, error) { return drawWaistcoatFront(b, fit[0], fit[1], fit[2]).edges, nil },
	}
	for name, at := range draw {
		rapid.Check(t, func(t *rapid.T) {
			a, b, w := anyBody.Draw(t, "a"), anyBody.Draw(t, "b"), rapid.Float64Range(0, 1).Draw(t, "w")
			mix := func(x, y float64) float64 { return x + w*(y-x) }
			mid := body{mix(a.step, b.step), mix(a.down, b.down), mix(a.bust, b.bust), mix(a.waist, b.waist), mix(a.hip, b.hip)}
			pa, errA := at(a)
			pb, errB := at(b)
			pm, errM := at(mid)
			if errA != nil || errB != nil || errM != nil {
				t.Fatal(errA, errB, errM)
			}
			for e := range pm {
				ca, cb, cm := pa[e].Controls(), pb[e].Controls(), pm[e].Controls()
				for k := range cm {
					if want := ca[k].Lerp(cb[k], w); cm[k].Dist(want) > 1e-9 {
						t.Fatal(fmt.Sprintf("%s, edge %d, point %d: %v, want %v", name, e, k, cm[k], want))
					}
				}
			}
		})
	}
}

func BenchmarkBlouseInFourSizes(b *testing.B) {
	bodies := []body{{-2, -2, 200, 160, 220}, {-1, -1, 210, 170, 230}, {0, 0, 220, 180, 240}, {1, 1, 230, 190, 250}}
	for b.Loop() {
		for _, size := range bodies {
			if _, err := draftBlouse(size); err != nil {
				b.Fatal(err)
			}
		}
	}
}
