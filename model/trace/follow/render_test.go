package follow

import (
	"context"
	"image"
	"math"
	"math/rand"
	"slices"
	"testing"

	"quarterstep/model/geom"
)

// sheetPrint is a sheet that tests draw on, ink by distance from a known line.
type sheetPrint struct {
	perMM float64
	pix   []float64
	w, h  int
}

func newPrint(wMM, hMM, perMM float64) *sheetPrint {
	p := &sheetPrint{perMM: perMM, w: int(wMM * perMM), h: int(hMM * perMM)}
	p.pix = make([]float64, p.w*p.h)
	return p
}

// line draws a path of the given width in mm; dash is ink and gap in turn, in
// mm, none for a solid line; dark is 1 for black.
func (p *sheetPrint) line(path geom.Path, width, dark float64, dash ...float64) {
	pts := dense(path, 0.04)
	var s, whole float64
	for _, d := range dash {
		whole += d
	}
	for i, q := range pts {
		if i > 0 {
			s += q.Dist(pts[i-1])
		}
		if inked(math.Mod(s, max(whole, 1)), dash) {
			p.dab(q, width/2, dark)
		}
	}
}

func inked(s float64, dash []float64) bool {
	for i, d := range dash {
		if s < d {
			return i%2 == 0
		}
		s -= d
	}
	return len(dash) == 0
}

func (p *sheetPrint) dab(q geom.Point, r, dark float64) {
	x, y, rp := q.X*p.perMM, q.Y*p.perMM, r*p.perMM
	for j := int(y - rp - 1); j <= int(y+rp+1); j++ {
		for i := int(x - rp - 1); i <= int(x+rp+1); i++ {
			if i < 0 || j < 0 || i >= p.w || j >= p.h {
				continue
			}
			d := math.Hypot(float64(i)+0.5-x, float64(j)+0.5-y)
			k := j*p.w + i
			p.pix[k] = max(p.pix[k], dark*min(max(rp-d+0.5, 0), 1))
		}
	}
}

// sheet is the picture: paper of brightness 225 with a shadow across and grain
// of 3 levels.
func (p *sheetPrint) sheet(seed int64) Sheet {
	rng := rand.New(rand.NewSource(seed))
	g := image.NewGray(image.Rect(0, 0, p.w, p.h))
	for y := range p.h {
		for x := range p.w {
			light := 225 * (1 - 0.35*float64(x)/float64(p.w))
			v := light*(1-0.88*p.pix[y*p.w+x]) + 3*rng.NormFloat64()
			g.Pix[y*g.Stride+x] = uint8(min(max(v+0.5, 0), 255))
		}
	}
	return Sheet{Gray: g, PerMM: p.perMM}
}

func prepared(t testing.TB, s Sheet) *Field {
	t.Helper()
	f, err := Prepare(context.Background(), s, nil)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// away is how far the path is from the truth: the distance that nineteen of
// twenty places keep, and the greatest, in mm.
func away(path, truth geom.Path) (most, worst float64) {
	line := dense(truth, 0.2)
	var all []float64
	for _, p := range dense(path, 0.5) {
		_, d := nearestOf(line, p)
		all = append(all, d)
	}
	slices.Sort(all)
	return all[len(all)*19/20], all[len(all)-1]
}

// armhole is size k of a nest whose lines lie gap mm apart.
func armhole(k int, gap float64) geom.Path {
	d := float64(k) * gap
	return geom.Path{
		{P0: geom.Pt(30+d, 15), P1: geom.Pt(22+d, 55), P2: geom.Pt(30+d, 80), P3: geom.Pt(45+d, 100)},
		{P0: geom.Pt(45+d, 100), P1: geom.Pt(53+d, 110.667), P2: geom.Pt(62+d, 122), P3: geom.Pt(75+d, 128)},
	}
}

// Printed line styles as nests have them, ink and gap in mm.
var styles = map[string][]float64{
	"solid":        nil,
	"dashed":       {9, 3},
	"short dashes": {3.5, 2},
	"dash and dot": {9, 2, 1, 2},
	"dotted":       {0.7, 1.8},
}
