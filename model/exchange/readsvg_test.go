package exchange

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

func readNest(t testing.TB, name string, chart model.SizeChart) Sheet {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "nests", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s, err := ReadSVG(f, chart)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestNests(t *testing.T) {
	blouse := []string{"Back", "Front", "Front facing", "Sleeve"}
	for _, c := range []struct {
		file   string
		chart  model.SizeChart
		pieces []string
		sizes  string
		cubics int // of the first outline
	}{
		{"blouse-eu-36-42.svg", euChart(), blouse, "36 38 40 42", 8},
		{"blouse-traced-eu-36-42.svg", euChart(), blouse, "36 38 40 42", 0},
		{"blouse-polygons-eu-38-42.svg", euChart(), blouse, "38 40 42", 0},
		{"waistcoat-us-12-18.svg", usChart(), blouse[:3], "12 14 16 18", 8},
	} {
		s := readNest(t, c.file, c.chart)
		if len(s.Warnings) > 0 || len(s.Pieces) != len(c.pieces) {
			t.Fatalf("%s: %d pieces, warnings %q", c.file, len(s.Pieces), s.Warnings)
		}
		for i, p := range s.Pieces {
			var sizes []string
			for _, o := range p.Outlines {
				sizes = append(sizes, o.Size)
				if err := o.Ring.Validate(); err != nil || !o.Ring.Closed(0) {
					t.Errorf("%s: %s size %s: ring open or broken: %v", c.file, p.Name, o.Size, err)
				}
			}
			if p.Name != c.pieces[i] || strings.Join(sizes, " ") != c.sizes {
				t.Errorf("%s: piece %d is %s in %v", c.file, i, p.Name, sizes)
			}
		}
		if n := len(s.Pieces[0].Outlines[0].Ring); c.cubics > 0 && n != c.cubics {
			t.Errorf("%s: first outline has %d curves, want %d as drawn", c.file, n, c.cubics)
		}
	}
}

// TestDrawnScale reads coordinates off the files: the blouse is in mm as
// written, the waistcoat in inches, moved 0.0787402 in (2 mm) by its layers.
func TestDrawnScale(t *testing.T) {
	blouse := readNest(t, "blouse-eu-36-42.svg", euChart())
	if got := blouse.Pieces[0].Outlines[0].Ring[1].P3; got.Dist(geom.Pt(196.378, 65.1812)) > 1e-9 {
		t.Errorf("shoulder tip of the back, size 36, is read at %v", got)
	}
	coat := readNest(t, "waistcoat-us-12-18.svg", usChart())
	want := geom.Pt(25.4*(7.9166+0.0787402), 25.4*2.59713)
	if got := coat.Pieces[0].Outlines[0].Ring[1].P3; got.Dist(want) > 1e-6 {
		t.Errorf("shoulder tip of the waistcoat back is read at %v, want %v", got, want)
	}
}

// drawing wraps body in a sheet of 100 x 100 mm with one layer of size 38.
func drawing(body string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" width="100mm" height="100mm" viewBox="0 0 100 100">` +
		`<g inkscape:label="38">` + body + `</g></svg>`
}

func onlyRing(t *testing.T, svg string) geom.Path {
	t.Helper()
	s, err := ReadSVG(strings.NewReader(svg), euChart())
	if err != nil {
		t.Fatalf("%v\n%s", err, svg)
	}
	if len(s.Pieces) != 1 || len(s.Pieces[0].Outlines) != 1 {
		t.Fatalf("want one ring, got %+v", s)
	}
	return s.Pieces[0].Outlines[0].Ring
}

// TestRings holds shapes to closed forms: area and length of circles,
// ellipses (Ramanujan's second series term is below 1e-9 here) and rectangles.
func TestRings(t *testing.T) {
	const circle = 25 * math.Pi // area of r = 5
	cases := []struct {
		name, body string
		area       float64
		tol        float64 // mm²
	}{
		{"circle", `<circle cx="50" cy="50" r="5"/>`, circle, 0.02},
		{"circle of two arcs", `<path d="M45 50a5 5 0 1 1 10 0a5 5 0 1 1-10 0z"/>`, circle, 0.02},
		{"flags run together", `<path d="M45 50a5 5 0 0110 0a5 5 0 01-10 0z"/>`, circle, 0.02},
		{"radii too small are enlarged", `<path d="M45 50A1 1 0 0 1 55 50A1 1 0 0 1 45 50z"/>`, circle, 0.02},
		{"ellipse", `<ellipse cx="50" cy="50" rx="8" ry="5"/>`, 40 * math.Pi, 0.03},
		{"tilted ellipse by arcs", `<path d="M57,50 A7 3 30 1 1 56.9,50 A7 3 30 0 1 57,50Z"/>`, 21 * math.Pi, 0.5},
		{"rectangle", `<rect x="10" y="10" width="20" height="30"/>`, 600, 1e-9},
		{"rounded rectangle", `<rect x="10" y="10" width="20" height="30" rx="4"/>`, 600 - (4-math.Pi)*16, 0.02},
		{"rectangle of percents", `<rect x="10%" y="10%" width="20%" height="30%"/>`, 600, 1e-9},
		{"rectangle in cm", `<rect width="20mm" height="3cm"/>`, 600 * 96 / 25.4 * 96 / 25.4, 1e-3},
		{"polygon", `<polygon points="10,10 30 10,30,40 10,40"/>`, 600, 1e-9},
		{"polyline that comes back", `<polyline points="10,10 30,10 30,40 10,40 10,10"/>`, 600, 1e-9},
		{"compact numbers", `<path d="M1.5.5.5-3l0 10 10 0z"/>`, areaOf(1.5, 0.5, 0.5, -3, 0.5, 7, 10.5, 7), 1e-9},
		{"all straight commands", `<path d="m10 10h20v30H10V10z"/>`, 600, 1e-9},
		{"exponents", `<path d="M1e1 1E1 3e+1 10 300e-1 40 10 40z"/>`, 600, 1e-9},
		// A quadratic with control point c over a chord cuts off 2/3 of the
		// triangle (Archimedes).
		{"parabola", `<path d="M10 30Q20 0 30 30z"/>`, 2.0 / 3 * 300, 1e-9},
		{"two parabolas", `<path d="M10 30Q20 0 30 30T50 30z"/>`, 0, 1e-9},
		{"smooth cubic mirrors its handle", `<path d="M10 30C10 20 20 20 20 30S30 40 30 30V60H10z"/>`, 600, 1e-9},
	}
	for _, c := range cases {
		if c.area == 0 { // an S of equal lobes has no area, so it counts as a line
			if _, err := ReadSVG(strings.NewReader(drawing(c.body)), euChart()); err == nil {
				t.Errorf("%s: a line without area was taken as a piece", c.name)
			}
			continue
		}
		ring := onlyRing(t, drawing(c.body))
		if got := math.Abs(ring.Area()); math.Abs(got-c.area) > c.tol {
			t.Errorf("%s: area %.6f, want %.6f", c.name, got, c.area)
		}
	}
}

func areaOf(xy ...float64) float64 {
	var sum float64
	for i := 0; i < len(xy); i += 2 {
		j := (i + 2) % len(xy)
		sum += xy[i]*xy[j+1] - xy[j]*xy[i+1]
	}
	return math.Abs(sum) / 2
}

// TestArcsKeepTheirTolerance: every place of an arc lies within 0.001 mm of the
// circle, however large it is on paper.
func TestArcsKeepTheirTolerance(t *testing.T) {
	for _, r := range []float64{0.5, 5, 50, 500, 5000} {
		for _, scale := range []float64{0.1, 1, 7} {
			for _, c := range (ellipse{rx: geom.Vec{X: r}, ry: geom.Vec{Y: r}}).arc(0.3, 2*math.Pi, scale) {
				for k := range 33 {
					p := c.At(float64(k) / 32)
					if off := math.Abs(math.Hypot(p.X, p.Y)-r) * scale; off > 1e-3 {
						t.Fatalf("radius %g at scale %g: %g mm off", r, scale, off)
					}
				}
			}
		}
	}
}

// TestArcEnds checks the four arcs of one chord against SVG 1.1, section 8.3.8:
// large-arc-flag chooses the longer sweep, sweep-flag the rising angle (which
// on paper, y down, is clockwise).
func TestArcEnds(t *testing.T) {
	p, q := geom.Pt(0, 0), geom.Pt(10, 0)
	for _, c := range []struct {
		large, sweep bool
		turn         float64 // of the circle r = 10: 60 or 300 degrees
		above        bool    // the arc passes above the chord on paper
	}{
		{false, false, 60, false},
		{false, true, 60, true},
		{true, false, 300, false},
		{true, true, 300, true},
	} {
		a := endArc(p, q, 10, 10, 0, c.large, c.sweep, 1)
		l, err := a.Length(1e-9)
		if err != nil {
			t.Fatal(err)
		}
		if want := c.turn / 360 * 20 * math.Pi; math.Abs(l-want) > 1e-2 {
			t.Errorf("%+v: length %g, want %g", c, l, want)
		}
		m, _ := geom.Measure(a, 1e-9)
		if mid := m.At(l / 2); (mid.Y < 0) != c.above {
			t.Errorf("%+v: the middle lies at %v", c, mid)
		}
		if a.Start() != p || a.End() != q {
			t.Errorf("%+v: ends moved to %v, %v", c, a.Start(), a.End())
		}
	}
}

func TestTransforms(t *testing.T) {
	// A square of 10 from the origin; want says where its corner (10, 0) goes.
	for _, c := range []struct {
		transform string
		want      geom.Point
	}{
		{"translate(3)", geom.Pt(13, 0)},
		{"translate(3,4)", geom.Pt(13, 4)},
		{"scale(2)", geom.Pt(20, 0)},
		{"scale(2 , 3)translate(1 1)", geom.Pt(22, 3)},
		{"rotate(90)", geom.Pt(0, 10)},
		{"rotate(90 10 0)", geom.Pt(10, 0)},
		{"skewX(45) translate(0,2)", geom.Pt(12, 2)},
		{"skewY(45)", geom.Pt(10, 10)},
		{"matrix(1 2 3 4 5 6)", geom.Pt(15, 26)},
		{" translate(1,2) , rotate(180)\n", geom.Pt(-9, 2)},
	} {
		ring := onlyRing(t, drawing(`<g transform="`+c.transform+`"><path d="M0 0H10V10H0z"/></g>`))
		if got := ring[0].P3; got.Dist(c.want) > 1e-9 {
			t.Errorf("%s takes (10, 0) to %v, want %v", c.transform, got, c.want)
		}
	}
}

// TestUnits: one inch is 96 px, 72 pt, 6 pc, 25.4 mm and 101.6 Q (CSS Values
// and Units 3, section 6.2).
func TestUnits(t *testing.T) {
	for _, width := range []string{"96", "96px", "72pt", "6pc", "25.4mm", "2.54cm", "1in", "101.6Q", "1IN"} {
		svg := `<svg width="` + width + `" viewBox="0 0 10 10"><g id="size-38"><path d="M0 0H10V10H0z"/></g></svg>`
		if got := onlyRing(t, svg)[0].P3; got.Dist(geom.Pt(25.4, 0)) > 1e-9 {
			t.Errorf("width %s: (10, 0) of 10 is read at %v, want 25.4 mm", width, got)
		}
	}
}

func TestWithoutPaperSize(t *testing.T) {
	for _, head := range []string{`<svg>`, `<svg viewBox="0 0 960 960">`, `<svg width="100%" height="100%" viewBox="0 0 960 960">`} {
		s, err := ReadSVG(strings.NewReader(head+`<g id="s"><g id="size38"><path d="M0 0H96V96H0z"/></g></g></svg>`), euChart())
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Pieces[0].Outlines[0].Ring[0].P3.X; math.Abs(got-25.4) > 1e-9 || len(s.Warnings) == 0 || !strings.Contains(s.Warnings[0], "96 of its units") {
			t.Errorf("%s: 96 units are %g mm, warnings %q", head, got, s.Warnings)
		}
	}
}

// TestAspect follows the table of preserveAspectRatio in SVG 1.1, section 7.8,
// for a box of 10 x 10 in an area of 40 x 20.
func TestAspect(t *testing.T) {
	for _, c := range []struct {
		preserve string
		want     geom.Point // of (10, 0)
	}{
		{"", geom.Pt(30, 0)},
		{"xMinYMin", geom.Pt(20, 0)},
		{"xMaxYMid meet", geom.Pt(40, 0)},
		{"xMidYMin slice", geom.Pt(40, 0)},
		{"xMidYMid slice", geom.Pt(40, -10)},
		{"xMinYMax slice", geom.Pt(40, -20)},
		{"none", geom.Pt(40, 0)},
	} {
		svg := `<svg width="40mm" height="20mm" viewBox="0 0 10 10" preserveAspectRatio="` + c.preserve + `"><g id="size-38"><path d="M0 0H10V10H0z"/></g></svg>`
		if got := onlyRing(t, svg)[0].P3; got.Dist(c.want) > 1e-9 {
			t.Errorf("%q: (10, 0) lies at %v, want %v", c.preserve, got, c.want)
		}
	}
}

func TestNestedAndUsed(t *testing.T) {
	for _, c := range []struct {
		name, body string
		want       geom.Point // of (10, 0)
	}{
		{"nested svg", `<svg x="5" y="6" width="20" height="20" viewBox="0 0 10 10"><path d="M0 0H10V10H0z"/></svg>`, geom.Pt(25, 6)},
		{"nested svg without size", `<svg x="5"><path d="M0 0H10V10H0z"/></svg>`, geom.Pt(15, 0)},
		{"use", `<defs><path id="a" d="M0 0H10V10H0z"/></defs><use xlink:href="#a" x="3" y="4" transform="scale(2)"/>`, geom.Pt(26, 8)},
		{"use of use", `<defs><path id="a" d="M0 0H10V10H0z"/><use id="b" href="#a" x="1"/></defs><use href="#b" y="2"/>`, geom.Pt(11, 2)},
		{"symbol", `<symbol id="a" viewBox="0 0 10 10"><path d="M0 0H10V10H0z"/></symbol><use href="#a" x="1" y="1" width="30" height="30"/>`, geom.Pt(31, 1)},
		{"hidden twin", `<path style="fill:red; display : none" d="M0 0H9V9H0z"/><path d="M0 0H10V10H0z"/>`, geom.Pt(10, 0)},
		{"foreign part", `<x:metadata xmlns:x="urn:other"><path d="M0 0H9V9H0z"/></x:metadata><path d="M0 0H10V10H0z"/>`, geom.Pt(10, 0)},
		{"nearly closed", `<path d="M0 0H10V10H0V.009"/>`, geom.Pt(10, 0)},
	} {
		if got := onlyRing(t, drawing(c.body))[0].P3; got.Dist(c.want) > 1e-9 {
			t.Errorf("%s: (10, 0) lies at %v, want %v", c.name, got, c.want)
		}
	}
}

func TestNames(t *testing.T) {
	const d = ` d="M0 0H10V10H0z"`
	for _, c := range []struct{ body, want string }{
		{`<path id="path12"` + d + `><title>Back </title></path>`, "Back"},
		{`<path inkscape:label="Sleeve  head"` + d + `/>`, "Sleeve head"},
		{`<path id="back-38"` + d + `/>`, "back"},
		{`<path id="back_yoke_38"` + d + `/>`, "back yoke"},
		{`<path id="cuff38"` + d + `/>`, "cuff"},
		{`<path id="_38-cuff"` + d + `/>`, "cuff"},
		{`<path id="back-size-38"` + d + `/>`, "back"},
		{`<path id="part138"` + d + `/>`, "part138"},
		{`<g inkscape:label="Collar"><path id="path12"` + d + `/></g>`, "Collar"},
		{`<path` + d + `><title>Back, size 38</title></path>`, "Back"},
		{`<path` + d + `><title>Back (size 38)</title></path>`, "Back"},
		{`<path` + d + `><title>38</title></path>`, "Piece 1"},
		{`<path id="path12-3"` + d + `/>`, "Piece 1"},
		{`<defs><path id="x"` + d + `/></defs><use href="#x"><title>Pocket &amp; flap &eacute;</title></use>`, "Pocket & flap é"},
	} {
		s, err := ReadSVG(strings.NewReader(drawing(c.body)), euChart())
		if err != nil {
			t.Fatalf("%s: %v", c.body, err)
		}
		if got := s.Pieces[0].Name; got != c.want {
			t.Errorf("%s: named %q, want %q", c.body, got, c.want)
		}
	}
}

func TestLayerNames(t *testing.T) {
	for _, label := range []string{"38", " 38 ", "size 38", "Size: 38", "SIZE-38", "88", "size 88"} {
		s, err := ReadSVG(strings.NewReader(strings.Replace(drawing(`<path d="M0 0H10V10H0z"/>`), `label="38"`, `label="`+label+`"`, 1)), euChart())
		if err != nil {
			t.Errorf("layer %q: %v", label, err)
		} else if got := s.Pieces[0].Outlines[0].Size; got != "38" {
			t.Errorf("layer %q is read as size %q", label, got)
		}
	}
}

// TestLines gives open lines to pieces by name and by place.
func TestLines(t *testing.T) {
	s, err := ReadSVG(strings.NewReader(drawing(`
		<path d="M0 0H40V40H0z"><title>Front</title></path>
		<path d="M50 0H90V40H50z"><title>Front facing</title></path>
		<path d="M10 5V35"><title>grain line</title></path>
		<path d="M12 5V35"><title>Front facing grain</title></path>
		<line x1="50" y1="5" x2="50" y2="35" inkscape:label="Place on fold"/>
		<path d="M0 20H40M0 22H40" id="lengthen-38"/>
		<polyline points="88,10 92,10" inkscape:label="Notch 1"/>
		<path d="M10 38L15 20 20 38"><title>Waist dart</title></path>
		<path d="M30 10L33 15 30 30 27 15z"><title>Fisheye dart</title></path>
		<path d="M0 30H40"><title>Waistline</title></path>
		<path d="M5 5H9V9H5z"/>
		<path d="M3 33L9 34"><title>Monogram</title></path>
		<path d="M200 200H210"><title>Hip</title></path>`)), euChart())
	if err != nil {
		t.Fatal(err)
	}
	want := map[string][]model.LineKind{
		"Front":        {model.Grain, model.Lengthen, model.Lengthen, model.DartLine, model.WaistLine, model.Inner, model.DartLine, model.Inner},
		"Front facing": {model.Grain, model.FoldLine, Notch},
	}
	for _, p := range s.Pieces {
		got := map[model.LineKind]int{}
		for _, l := range p.Lines {
			got[l.Kind]++
			if l.Size != "38" {
				t.Errorf("%s: %s belongs to size %q", p.Name, l.Name, l.Size)
			}
		}
		wanted := map[model.LineKind]int{}
		for _, k := range want[p.Name] {
			wanted[k]++
		}
		for k, n := range wanted {
			if got[k] != n {
				t.Errorf("%s has %d lines of kind %q, want %d", p.Name, got[k], k, n)
			}
		}
		if len(p.Lines) != len(want[p.Name]) {
			t.Errorf("%s has %d lines, want %d: %+v", p.Name, len(p.Lines), len(want[p.Name]), p.Lines)
		}
	}
	if len(s.Warnings) != 1 || !strings.Contains(s.Warnings[0], "“Hip” of size 38 lies on no piece") {
		t.Errorf("warnings: %q", s.Warnings)
	}
}

// TestLeftOut: a hidden size and a layer that is no size of the chart are told
// of by name.
func TestLeftOut(t *testing.T) {
	const ring = `<path d="M0 0H40V40H0z"><title>Front</title></path>`
	svg := strings.Replace(drawing(ring), "</svg>",
		`<g inkscape:label="60">`+ring+`</g><g inkscape:label="size 40" style="display:none">`+ring+`</g></svg>`, 1)
	s, err := ReadSVG(strings.NewReader(svg), euChart())
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"One line belongs to no piece and was left out.",
		"The layer of size 40 is hidden and was left out.",
		"The layer “60” is no size of the chart and was left out.",
	}
	if strings.Join(s.Warnings, "|") != strings.Join(want, "|") || len(s.Pieces[0].Outlines) != 1 {
		t.Errorf("warnings %q, pieces %+v", s.Warnings, s.Pieces)
	}
}

func TestLinesForAllSizes(t *testing.T) {
	svg := strings.Replace(drawing(`<path d="M0 0H40V40H0z"><title>Front</title></path>`), "</svg>",
		`<g inkscape:label="marks"><path d="M10 5V35" id="grain"/></g><rect width="90" height="90"/></svg>`, 1)
	s, err := ReadSVG(strings.NewReader(svg), euChart())
	if err != nil {
		t.Fatal(err)
	}
	if l := s.Pieces[0].Lines; len(l) != 1 || l[0].Kind != model.Grain || l[0].Size != "" {
		t.Errorf("lines of the front: %+v", l)
	}
	if len(s.Warnings) != 1 || s.Warnings[0] != "One line belongs to no piece and was left out." {
		t.Errorf("warnings: %q", s.Warnings)
	}
}

func TestCompound(t *testing.T) {
	s, err := ReadSVG(strings.NewReader(drawing(`<path d="M5 5h5v5h-5zM0 0H40V40H0z"><title>Front</title></path>`)), euChart())
	if err != nil {
		t.Fatal(err)
	}
	p := s.Pieces[0]
	if got := p.Outlines[0].Ring.Area(); got != 1600 || len(p.Lines) != 1 || p.Lines[0].Kind != model.Inner {
		t.Errorf("outline of %g mm², lines %+v", got, p.Lines)
	}
}

// TestUnusable holds every refusal to one sentence that says what to do.
func TestUnusable(t *testing.T) {
	deep := strings.Repeat("<g>", mostDepth+1)
	const ok = `<path d="M0 0H10V10H0z"><title>Back</title></path>`
	for _, c := range []struct{ name, svg, say string }{
		{"empty", "", "not an SVG drawing"},
		{"words", "Dear diary", "not an SVG drawing"},
		{"picture", "\x89PNG\r\n\x1a\n\x00\x00", "not an SVG drawing"},
		{"web page", "<html><body/></html>", "begins with “html”"},
		{"cut off", drawing(ok)[:180], "damaged"},
		{"compressed", "\x1f\x8b\x08\x00", "compressed"},
		{"nothing in it", `<svg><title>blouse</title></svg>`, "There are no lines in this drawing"},
		{"no sizes", `<svg><g id="g1"/><g xmlns:inkscape="inkscape" inkscape:label="Layer 1">` + ok + `</g></svg>`, "No group in this drawing is named after a size of the chart EN women: found “g1”, “Layer 1”. Name each size's layer 34, 36, 38"},
		{"no line", drawing(``), "no closed cutting line"},
		{"open line", drawing(`<path d="M0 0H10V10"/>`), "no closed cutting line"},
		{"twice", drawing(ok + ok), "Size 38 has two pieces named “Back”"},
		{"hidden layers", strings.Replace(drawing(ok), `<g `, `<g display="none" `, 1), "layers of this drawing (38) are hidden"},
		{"infinite", drawing(`<path d="M0 0H1e999V10H0z"/>`), "cannot be read near “H1e999"},
		{"not a number", drawing(`<path d="M0 0L NaN 10z"/>`), "cannot be read near"},
		{"far away", drawing(`<path d="M0 0H1e30V10H0z"/>`), "cannot be on paper"},
		{"too far by transform", drawing(`<g transform="scale(1e300) scale(1e300)">` + ok + `</g>`), "cannot be on paper"},
		{"bad command", drawing(`<path d="M0 0 X 10"><title>Back</title></path>`), "The line “Back” cannot be read near “X 10”"},
		{"no moveto", drawing(`<path d="L0 0 10 10"/>`), "cannot be read near"},
		{"bad transform", drawing(`<g transform="turn(3)">` + ok + `</g>`), "transform “turn(3)”"},
		{"short transform", drawing(`<g transform="matrix(1 2)">` + ok + `</g>`), "transform “matrix(1 2)”"},
		{"bad points", drawing(`<polygon points="1,2 3"/>`), "points of the line"},
		{"bad measure", drawing(`<rect width="wide" height="3"/>`), "width=“wide”"},
		{"bad viewBox", `<svg viewBox="0 0 0 10"><g id="size38">` + ok + `</g></svg>`, "viewBox"},
		{"own copy", drawing(`<g id="a"><use href="#a"/></g>`), "copy of itself"},
		{"own copies", drawing(`<g id="a">` + strings.Repeat(`<use href="#a"/>`, 40) + `</g>`), "of itself"},
		{"too deep", "<svg>" + deep, "too many parts"},
		{"strange alphabet", `<?xml version="1.0" encoding="koi8-r"?>` + drawing(ok), "alphabet “koi8-r”"},
	} {
		s, err := ReadSVG(strings.NewReader(c.svg), euChart())
		var u Unusable
		switch {
		case err == nil:
			t.Errorf("%s: read as %+v", c.name, s)
		case !errors.As(err, &u):
			t.Errorf("%s: error of type %T: %v", c.name, err, err)
		case !strings.Contains(err.Error(), c.say):
			t.Errorf("%s: says %q, want %q in it", c.name, err, c.say)
		case len(s.Pieces) > 0 || strings.Contains(err.Error(), "\n"):
			t.Errorf("%s: half read, or more than a sentence: %q", c.name, err)
		}
	}
}

func TestOldAlphabetAndEntities(t *testing.T) {
	svg := "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><!DOCTYPE svg [<!ENTITY ns \"urn:x\">]>" +
		`<svg xmlns:y="&ns;"><g id="size38"><path d="M0 0H10V10H0z"><title>Rock vorn, gro` + "\xdf" + `</title></path></g></svg>`
	s, err := ReadSVG(bytes.NewReader([]byte(svg)), euChart())
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Pieces[0].Name; got != "Rock vorn, groß" {
		t.Errorf("named %q", got)
	}
}
