package match

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
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
				if x := geom.SelfCrossings(geom.Join(o.Edges...), 0.001); len(x) > 0 {
					t.Errorf("%s: %s, size %s crosses itself: %+v", file, q.Name, o.Size, x)
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

// wanted is where a piece's corners truly are: by size and point.
type wanted struct {
	raw exchange.RawPiece
	at  [][]geom.Point
}

// blouseCorners is the drawn blouse with its corners as read off the file.
func blouseCorners(t *testing.T) []wanted {
	var out []wanted
	for _, raw := range readSheet(t, "blouse-eu-36-42.svg", euChart()).Pieces {
		w := wanted{raw: raw}
		for _, o := range raw.Outlines {
			var at []geom.Point
			for _, k := range jointsOf[raw.Name] {
				at = append(at, o.Ring[k].P0)
			}
			w.at = append(w.at, at)
		}
		out = append(out, w)
	}
	return out
}

// draftCorners is a drafted pattern of package draft, whose corners are where
// its own grade points are, leaving out match points and what turns
// by less than least.
func draftCorners(t *testing.T, p model.Pattern, err error, least float64) []wanted {
	if err != nil {
		t.Fatal(err)
	}
	var out []wanted
	for _, q := range p.Pieces {
		w := wanted{raw: exchange.RawPiece{Name: q.Name}}
		var corner []int
		for k, e := range q.Nest[0].Edges {
			in := q.Nest[0].Edges[(k+len(q.Edges)-1)%len(q.Edges)].EndDir()
			crown := q.Points[k].Smooth && strings.Contains(q.Name, "Sleeve")
			if math.Abs(turnOf(in, e.StartDir())) > least || crown {
				corner = append(corner, k)
			}
		}
		for _, o := range q.Nest {
			w.raw.Outlines = append(w.raw.Outlines, exchange.RawOutline{Size: o.Size, Ring: geom.Join(o.Edges...)})
			var at []geom.Point
			for _, k := range corner {
				at = append(at, o.Edges[k].Start())
			}
			w.at = append(w.at, at)
		}
		out = append(out, w)
	}
	return out
}

func allCorners(t *testing.T, least float64) []wanted {
	eu, _ := sizechart.ByID("en13402-women")
	us, _ := sizechart.ByID("us-misses")
	blouse, err1 := draft.Blouse(eu, []string{"34", "36", "38", "40"})
	coat, err2 := draft.Waistcoat(us, []string{"8", "10", "12"})
	return slices.Concat(blouseCorners(t), draftCorners(t, blouse, err1, least), draftCorners(t, coat, err2, least))
}

// findPoints is how far the corners found lie from those wanted; false where
// their number is wrong.
func findPoints(t *testing.T, raw exchange.RawPiece, want [][]geom.Point) ([]float64, bool) {
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
	if len(n.tracks) != len(want[0]) {
		return nil, false
	}
	var off []float64
	for i := range n.rings {
		for k, tr := range n.tracks {
			off = append(off, n.at(tr, i).Dist(want[i][k]))
		}
	}
	return off, true
}

// TestDraftedCorners: on patterns drafted by package draft, of which this
// package knows nothing, the corners are exactly the drafted ones.
func TestDraftedCorners(t *testing.T) {
	for _, w := range allCorners(t, 3*degree) {
		off, ok := findPoints(t, w.raw, w.at)
		if !ok || slices.Max(off) > 1e-9 {
			t.Errorf("%s: number of points right: %v, distances %v", w.raw.Name, ok, off)
		}
	}
}

// TestShakyHands traces drawn pieces many times over. Truth is the drawn joints
// themselves. The wobble of hand-traced nests is 0.3 mm rms.
func TestShakyHands(t *testing.T) {
	seed := uint64(1)
	draw := func() float64 { // a linear congruential generator (Knuth's for MMIX)
		seed = seed*6364136223846793005 + 1442695040888963407
		return float64(seed>>11) / (1 << 53)
	}
	all := allCorners(t, 11*degree)
	for _, c := range []struct {
		rms, gap float64
		p95      float64
		wrong    int // pieces in 100 that may have a wrong number of points
	}{
		{0.3, 2, 1.5, 2},
		{0.3, 5, 1.5, 2},
		{0.3, 9, 1.5, 5},
		{0.45, 4, 2.5, 10},
	} {
		var off []float64
		wrong, tried := 0, 0
		for range 3 {
			for _, w := range all {
				hand := wobbled(exchange.Sheet{Pieces: []exchange.RawPiece{w.raw}}, c.rms, c.gap, draw)
				d, ok := findPoints(t, hand.Pieces[0], w.at)
				if tried++; !ok {
					wrong++
				}
				off = append(off, d...)
			}
		}
		sort.Float64s(off)
		p95, worst := off[len(off)*95/100], off[len(off)-1]
		t.Logf("%.2f mm rms, a point every %g mm: %d of %d pieces wrong, %d corners, p95 %.2f mm, worst %.2f mm", c.rms, c.gap, wrong, tried, len(off), p95, worst)
		if wrong*100 > c.wrong*tried || p95 > c.p95 {
			t.Errorf("%.2f mm rms, a point every %g mm: %d of %d pieces wrong, corners %.2f mm off (p95)", c.rms, c.gap, wrong, tried, p95)
		}
	}
}
