package match

import (
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// chartOf is a chart of those sizes. Matching uses the order of sizes only.
func chartOf(names ...string) model.SizeChart {
	c := model.SizeChart{Name: "test", Measures: []model.Measure{model.Bust}}
	for i, n := range names {
		c.Sizes = append(c.Sizes, model.ChartSize{Name: n, Body: map[model.Measure]float64{model.Bust: 800 + 40*float64(i)}})
	}
	return c
}

func euChart() model.SizeChart { return chartOf("34", "36", "38", "40", "42") }
func usChart() model.SizeChart { return chartOf("12", "14", "16", "18") }

func readSheet(t testing.TB, name string, chart model.SizeChart) exchange.Sheet {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "nests", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s, err := exchange.ReadSVG(f, chart)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func matched(t testing.TB, s exchange.Sheet, chart model.SizeChart) ([]model.Piece, []Doubt) {
	t.Helper()
	pieces, doubts, err := Pieces(s, chart)
	if err != nil {
		t.Fatal(err)
	}
	if err := (model.Pattern{Chart: chart, Pieces: pieces}).Validate(); err != nil {
		t.Fatal(err)
	}
	return pieces, doubts
}

// jointsOf says which joints of the drawn nests are grade points. A person read
// them off the files: each body has eight curves of which the third and fourth
// are one armhole, each sleeve five of which the first two meet at the crown.
// The traced files have 24 curves for each of these.
var jointsOf = map[string][]int{
	"Back":         {0, 1, 2, 4, 5, 6, 7},
	"Front":        {0, 1, 2, 4, 5, 6, 7},
	"Front facing": {0, 1, 2, 3},
	"Sleeve":       {0, 1, 2, 3, 4},
}

var bodyPoints = []string{"centre neck", "neck point", "shoulder tip", "underarm", "waist", "side hem", "centre hem"}

var pointNames = map[string][]string{
	"Back":         bodyPoints,
	"Front":        bodyPoints,
	"Front facing": {"centre neck", "neck point", "shoulder end", "centre edge"},
	"Sleeve":       {"left underarm", "crown", "right underarm", "right wrist", "left wrist"},
}

var edgeNames = map[string]string{
	"Back":         "neckline, shoulder, armhole, side seam above waist, side seam below waist, hem (hem), centre back (centre)",
	"Front":        "neckline, shoulder, armhole, side seam above waist, side seam below waist, hem (hem), centre front (centre)",
	"Front facing": "neckline, shoulder, inner edge, centre front (centre)",
	"Sleeve":       "left cap, right cap, right underarm seam, sleeve hem (hem), left underarm seam",
}

func namesOf(q model.Piece) (points []string, edges string) {
	var e []string
	for k := range q.Edges {
		points = append(points, q.Points[k].Name)
		name := q.Edges[k].Name
		if q.Edges[k].Kind != "" {
			name += " (" + string(q.Edges[k].Kind) + ")"
		}
		e = append(e, name)
	}
	return points, strings.Join(e, ", ")
}

func checkNames(t *testing.T, file string, q model.Piece) {
	t.Helper()
	points, edges := namesOf(q)
	if strings.Join(points, ", ") != strings.Join(pointNames[q.Name], ", ") {
		t.Errorf("%s: points of %s are %q", file, q.Name, points)
	}
	if edges != edgeNames[q.Name] {
		t.Errorf("%s: edges of %s are %s", file, q.Name, edges)
	}
}

// TestDrawnNests: corners are exactly the drawn joints and the curves exactly
// those drawn.
func TestDrawnNests(t *testing.T) {
	for _, c := range []struct {
		file  string
		chart model.SizeChart
	}{{"blouse-eu-36-42.svg", euChart()}, {"waistcoat-us-12-18.svg", usChart()}} {
		s := readSheet(t, c.file, c.chart)
		pieces, doubts := matched(t, s, c.chart)
		if len(doubts) > 0 {
			t.Errorf("%s: doubts %+v", c.file, doubts)
		}
		for i, q := range pieces {
			checkNames(t, c.file, q)
			joints := jointsOf[q.Name]
			for j, o := range q.Nest {
				ring := s.Pieces[i].Outlines[j].Ring
				if len(o.Edges) != len(joints) {
					t.Fatalf("%s: %s, size %s has %d edges, want %d", c.file, q.Name, o.Size, len(o.Edges), len(joints))
				}
				var drawn geom.Path
				for k, e := range o.Edges {
					if e.Start() != ring[joints[k]].P0 {
						t.Errorf("%s: %s, size %s: point %d at %v, drawn at %v", c.file, q.Name, o.Size, k+1, e.Start(), ring[joints[k]].P0)
					}
					drawn = append(drawn, e...)
				}
				for k := range ring {
					if drawn[k] != ring[k] {
						t.Errorf("%s: %s, size %s: curve %d was changed", c.file, q.Name, o.Size, k+1)
					}
				}
			}
		}
	}
}

// TestTracedNests: the traced files' corners lie at every 24th joint; they must
// be found within 2.5 mm, 95 in 100 within 1.5 mm, and the redrawn edges must
// keep to the traced line.
func TestTracedNests(t *testing.T) {
	var off []float64
	var edges, before, after, kept int
	for _, file := range []string{"blouse-traced-eu-36-42.svg", "blouse-polygons-eu-38-42.svg"} {
		s := readSheet(t, file, euChart())
		pieces, doubts := matched(t, s, euChart())
		if len(doubts) > 0 {
			t.Errorf("%s: doubts %+v", file, doubts)
		}
		for i, q := range pieces {
			checkNames(t, file, q)
			joints := jointsOf[q.Name]
			for j, o := range q.Nest {
				ring := s.Pieces[i].Outlines[j].Ring
				before += len(ring)
				if len(o.Edges) != len(joints) {
					t.Fatalf("%s: %s, size %s has %d edges, want %d", file, q.Name, o.Size, len(o.Edges), len(joints))
				}
				for k, e := range o.Edges {
					edges, after = edges+1, after+len(e)
					if len(e) >= 23 {
						kept++
					}
					d := e.Start().Dist(ring[24*joints[k]].P0)
					off = append(off, d)
					if d > 2.5 {
						t.Errorf("%s: %s, size %s: point %d is %.1f mm off", file, q.Name, o.Size, k+1, d)
					}
					for _, p := range e.Flatten(0.02) {
						if _, _, d := ring.Nearest(p, 0.001); d > 0.35 {
							t.Fatalf("%s: %s, size %s: edge %d was redrawn %.2f mm off at %v", file, q.Name, o.Size, k+1, d, p)
						}
					}
				}
			}
		}
	}
	sort.Float64s(off)
	p95 := off[len(off)*95/100]
	t.Logf("%d edges redrawn from %d curves to %d, %d kept", edges, before, after, kept)
	t.Logf("%d traced corners: p95 %.2f mm, worst %.2f mm", len(off), p95, off[len(off)-1])
	if p95 > 1.5 {
		t.Errorf("traced corners are %.2f mm off (p95)", p95)
	}
}

// wobbled traces a drawn sheet anew as a shaky hand would: each size its own
// waves of 30 to 130 mm, rms mm in all, along the whole ring; a point every
// gap mm; straight between.
func wobbled(s exchange.Sheet, rms, gap float64, draw func() float64) exchange.Sheet {
	var out exchange.Sheet
	for _, p := range s.Pieces {
		q := exchange.RawPiece{Name: p.Name}
		for _, o := range p.Outlines {
			q.Outlines = append(q.Outlines, exchange.RawOutline{Size: o.Size, Ring: wobbledRing(o.Ring, rms, gap, draw)})
		}
		out.Pieces = append(out.Pieces, q)
	}
	return out
}

func wobbledRing(ring geom.Path, rms, gap float64, draw func() float64) geom.Path {
	m, err := geom.Measure(ring, 1e-6)
	if err != nil {
		panic(err)
	}
	l := m.Length()
	const waves = 6
	var across, along [waves][2]float64 // waves per ring, phase
	for i := range waves {
		for _, w := range []*[waves][2]float64{&across, &along} {
			w[i] = [2]float64{math.Round(l / (30 + 100*draw())), 2 * math.Pi * draw()}
		}
	}
	shift := func(w [waves][2]float64, s float64) float64 {
		var sum float64
		for _, v := range w {
			sum += math.Sin(2*math.Pi*v[0]*s/l + v[1])
		}
		return rms * sum / math.Sqrt(waves) // each direction rms/sqrt 2
	}
	var pts []geom.Point
	for i := range ring { // a hand puts a point at each drawn joint
		a, b := m.To(i, 0), m.To(i, 1)
		n := math.Max(1, math.Round((b-a)/gap))
		for k := range int(n) {
			s := a + (b-a)*float64(k)/n
			pts = append(pts, m.At(s).Add(geom.Vec{X: shift(across, s), Y: shift(along, s)}))
		}
	}
	return geom.Polyline(append(pts, pts[0])...)
}

// TestShakyHands traces the drawn blouse many times over. Truth is the drawn
// joints themselves. The wobble is that of hand-traced nests: 0.3 mm rms.
func TestShakyHands(t *testing.T) {
	s := readSheet(t, "blouse-eu-36-42.svg", euChart())
	seed := uint64(1)
	draw := func() float64 { // a small linear congruential generator (Knuth, MMIX)
		seed = seed*6364136223846793005 + 1442695040888963407
		return float64(seed>>11) / (1 << 53)
	}
	var off []float64
	wrong, all := 0, 0
	for range 6 {
		for _, gap := range []float64{2, 5} {
			hand := wobbled(s, 0.3, gap, draw)
			for i, raw := range hand.Pieces {
				n := &nest{piece: raw.Name}
				for _, o := range raw.Outlines {
					r, err := newRing(o)
					if err != nil {
						t.Fatal(err)
					}
					n.rings = append(n.rings, r)
				}
				n.findTracks()
				n.crown(geom.Vec{Y: 1})
				n.startNear()
				all++
				joints := jointsOf[raw.Name]
				if len(n.tracks) != len(joints) {
					wrong++
					continue
				}
				for j := range n.rings {
					ring := s.Pieces[i].Outlines[j].Ring
					for k, tr := range n.tracks {
						off = append(off, n.at(tr, j).Dist(ring[joints[k]].P0))
					}
				}
			}
		}
	}
	sort.Float64s(off)
	p95, worst := off[len(off)*95/100], off[len(off)-1]
	t.Logf("%d pieces, %d with a wrong number of points; p95 %.2f mm, worst %.2f mm", all, wrong, p95, worst)
	if wrong*20 > all || p95 > 1.5 {
		t.Errorf("%d of %d pieces with a wrong number of points; corners %.2f mm off (p95)", wrong, all, p95)
	}
}
