package app

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// onPaper draws the printed lines of a pattern as a nest, a layer for each size
// or sizes on one line.
func onPaper(t *testing.T, p model.Pattern) string {
	t.Helper()
	var layers []exchange.Graded
	at := map[string]int{}
	for _, q := range p.Pieces {
		for _, o := range q.Nest {
			i, ok := at[o.Size]
			if !ok {
				i = len(layers)
				at[o.Size] = i
				layers = append(layers, exchange.Graded{Size: o.Size, Also: o.Also})
			}
			g := exchange.GradedPiece{Name: q.Name}
			for _, e := range o.Edges {
				g.Edges = append(g.Edges, exchange.NamedEdge{Path: e.Move(q.At)})
			}
			for _, l := range q.Lines {
				for _, d := range l.Drawn {
					if d.Size == o.Size {
						g.Lines = append(g.Lines, exchange.GradedLine{Name: string(l.Kind), Path: d.Path.Move(q.At)})
					}
				}
			}
			layers[i].Pieces = append(layers[i].Pieces, g)
		}
	}
	var b bytes.Buffer
	if err := exchange.WriteSVG(&b, layers...); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "nest.svg")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func broughtIn(t *testing.T, p model.Pattern) Brought {
	t.Helper()
	got, err := BringIn(onPaper(t, p), p.Chart)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// gradedAt is a pattern worked out in a size.
func gradedAt(t *testing.T, p model.Pattern, size string) grading.Result {
	t.Helper()
	p, err := Retarget(p, size, model.ByChart)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// farthest is the largest distance in mm between two outlines, looked for both
// ways.
func farthest(a, b []geom.Path) float64 {
	var most float64
	for _, pair := range [][2]geom.Path{{geom.Join(a...), geom.Join(b...)}, {geom.Join(b...), geom.Join(a...)}} {
		for _, p := range pair[0].Flatten(0.02) {
			_, _, d := pair[1].Nearest(p, 1e-4)
			most = math.Max(most, d)
		}
	}
	return most
}

// exact is the drafted blouse as a chart-exact nest: what is drafted until seams
// meet, which no rule carries on exactly, and the level lines are left out.
func exact(t *testing.T, sizes ...string) model.Pattern {
	t.Helper()
	p, err := draft.Blouse(chartOf(t, "en13402-women"), sizes)
	if err != nil {
		t.Fatal(err)
	}
	var pieces []model.Piece
	for _, q := range p.Pieces {
		if q.ID == "front" || q.ID == "sleeve" {
			continue
		}
		q.Lines = slices.DeleteFunc(slices.Clone(q.Lines), func(l model.Line) bool { return l.Kind != model.Grain })
		q.At = q.At.Add(geom.Vec{X: 100, Y: 100}) // wholly on the sheet, so that places are kept
		pieces = append(pieces, q)
	}
	p.Pieces = pieces
	return p
}

// only keeps of every piece the lines of those sizes.
func only(p model.Pattern, keep func(piece string) []string) model.Pattern {
	pieces := slices.Clone(p.Pieces)
	for i, q := range pieces {
		sizes := keep(q.ID)
		pieces[i].Nest = slices.DeleteFunc(slices.Clone(q.Nest), func(o model.Outline) bool { return !slices.Contains(sizes, o.Size) })
		pieces[i].Lines = slices.Clone(q.Lines)
		for k, l := range q.Lines {
			pieces[i].Lines[k].Drawn = slices.DeleteFunc(slices.Clone(l.Drawn), func(d model.SizedPath) bool { return !slices.Contains(sizes, d.Size) })
		}
	}
	p.Pieces = pieces
	return p
}

var allPrinted = []string{"36", "38", "40", "42", "44", "46", "48"}

// Any printed sizes tell as much as all of them: at 34 and up to 58, five places
// beyond the print, the line is that of the full nest within 0.05 mm, and that
// of the draft itself, drawn anew there. Half way along a gap of six steps the
// waist and the hip have gone unlike shares of it, so the side is a guess.
func TestAnyPrintedSizesWillDo(t *testing.T) {
	full := exact(t, allPrinted...)
	whole := broughtIn(t, full)
	each := func(sizes ...string) func(string) []string { return func(string) []string { return sizes } }
	for name, keep := range map[string]func(string) []string{
		"smallest and largest": each("36", "48"),
		"every third":          each("36", "42", "48"),
		"36, 40 and 48":        each("36", "40", "48"),
		"40, 46 and 48":        each("40", "46", "48"),
		"pieces in sizes unlike": func(id string) []string {
			return map[string][]string{"back": {"36", "48"}, "cuff": {"38", "40", "48"}}[id]
		},
	} {
		p := only(full, func(id string) []string {
			if s := keep(id); s != nil {
				return s
			}
			return allPrinted
		})
		got := broughtIn(t, p)
		if len(got.Remarks) > 0 {
			t.Errorf("%s: %q", name, got.Remarks)
		}
		for size, tol := range map[string]float64{"34": 0.05, "44": 1, "52": 0.05, "58": 0.05} {
			want, r := gradedAt(t, whole.Pattern, size), gradedAt(t, got.Pattern, size)
			place, _ := full.Chart.Place(size)
			truth := draftAt(t, full.Chart, float64(place))
			for i, q := range r.Pieces {
				if d := farthest(q.Edges, want.Pieces[i].Edges); d > tol {
					t.Errorf("%s: %s in size %s is %.3f mm off the full nest's", name, q.Name, size, d)
				}
				if d := farthest(q.Edges, laidOut(full.Pieces[i], truth)); d > tol {
					t.Errorf("%s: %s in size %s is %.3f mm off the draft", name, q.Name, size, d)
				}
			}
		}
	}
}

// laidOut is a piece of the draft where the piece lies on the sheet.
func laidOut(q model.Piece, truth []draft.Drafted) []geom.Path {
	var out []geom.Path
	for _, d := range truth {
		if d.Piece != q.ID {
			continue
		}
		for _, e := range d.Edges {
			out = append(out, e.Move(q.At))
		}
	}
	return out
}

// Sizes that share a line have that line, each of them; the steps between lines
// are counted from half way between the sizes of each. Where the lines are the
// draft's own at those places, the draft is found again beyond the print, and
// beyond a shared line its steps from the last size on it.
func TestSizesOnOneLine(t *testing.T) {
	for _, lines := range [][][]string{
		{{"36"}, {"38", "40"}, {"42", "44"}, {"48"}},
		{{"36", "38"}, {"40", "42"}, {"46", "48"}},
		{{"36", "38", "40"}, {"42"}, {"44"}, {"46", "48"}},
	} {
		p := sharing(t, lines)
		got := broughtIn(t, p)
		if len(got.Remarks) > 0 {
			t.Errorf("%v: %q", lines, got.Remarks)
		}
		for i, sizes := range lines {
			for _, size := range sizes {
				for k, q := range gradedAt(t, got.Pattern, size).Pieces {
					if d := farthest(q.Edges, onSheet(p.Pieces[k], i)); d > 1e-4 || !q.Printed {
						t.Errorf("%v: %s in size %s is %g mm off the line printed for it", lines, q.Name, size, d)
					}
				}
			}
		}
		checkBeyond(t, p, got.Pattern, "34", lines[0][0], 0)
		last := lines[len(lines)-1]
		checkBeyond(t, p, got.Pattern, "56", last[len(last)-1], len(lines)-1)
	}
}

// sharing is the chart-exact nest with lines that sizes share, each the draft
// half way between the first and the last of them.
func sharing(t *testing.T, lines [][]string) model.Pattern {
	var first []string
	for _, sizes := range lines {
		first = append(first, sizes[0])
	}
	p := exact(t, first...)
	for i, sizes := range lines {
		a, _ := p.Chart.Place(sizes[0])
		b, _ := p.Chart.Place(sizes[len(sizes)-1])
		middle := draftAt(t, p.Chart, float64(a+b)/2)
		for k, q := range p.Pieces {
			home := q
			home.At = geom.Vec{}
			p.Pieces[k].Nest = slices.Clone(q.Nest)
			p.Pieces[k].Nest[i] = model.Outline{Size: sizes[0], Also: sizes[1:], Edges: laidOut(home, middle)}
		}
	}
	return p
}

func draftAt(t *testing.T, c model.SizeChart, place float64) []draft.Drafted {
	t.Helper()
	d, err := draft.BlouseAt(c, place)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// checkBeyond fails where the corners of a size beyond printed line i do not
// move from it as the draft's do from the size counted from; the sheet's
// corners are all the draft's.
func checkBeyond(t *testing.T, drawn, got model.Pattern, size, from string, i int) {
	t.Helper()
	a, _ := got.Chart.Place(from)
	b, _ := got.Chart.Place(size)
	before, after := draftAt(t, got.Chart, float64(a)), draftAt(t, got.Chart, float64(b))
	for k, q := range gradedAt(t, got, size).Pieces {
		printed, was, is := onSheet(drawn.Pieces[k], i), laidOut(drawn.Pieces[k], before), laidOut(drawn.Pieces[k], after)
		for _, e := range q.Edges {
			off := math.Inf(1)
			for j := range printed {
				off = math.Min(off, e.Start().Dist(printed[j].Start().Add(is[j].Start().Sub(was[j].Start()))))
			}
			if off > 0.05 {
				t.Errorf("%s in size %s, counted from %s: a corner is %.3f mm off", q.Name, size, from, off)
			}
		}
	}
}

// onSheet is printed line i of a piece where it lies on the sheet.
func onSheet(q model.Piece, i int) []geom.Path {
	var out []geom.Path
	for _, e := range q.Nest[i].Edges {
		out = append(out, e.Move(q.At))
	}
	return out
}

// A nest printed with its sizes meeting at any grade point is graded to the
// same shape as one printed on its centre lines, six steps out.
func TestWhereTheSizesMeetDoesNotCount(t *testing.T) {
	women := chartOf(t, "en13402-women")
	p, err := draft.Blouse(women, []string{"36", "38", "40", "42"})
	if err != nil {
		t.Fatal(err)
	}
	want := gradedAt(t, broughtIn(t, p).Pattern, "54")
	for _, at := range []string{"underarm", "side hem", "shoulder tip"} {
		pieces := slices.Clone(p.Pieces)
		met := 0
		for i, q := range pieces {
			k := slices.IndexFunc(q.Points, func(g model.GradePoint) bool { return g.Name == at })
			if k < 0 {
				k = 1
			} else {
				met++
			}
			pieces[i] = meetingAt(q, k)
		}
		restacked := p
		restacked.Pieces = pieces
		got := broughtIn(t, restacked)
		laid := 0
		for _, s := range got.Remarks {
			if strings.Contains(s, "centre lines on each other") {
				laid++
			}
		}
		if met != 2 || laid < met {
			t.Errorf("meeting at the %s: %d bodices, %d pieces laid on their centre: %q", at, met, laid, got.Remarks)
		}
		for i, q := range gradedAt(t, got.Pattern, "54").Pieces {
			if d := farthest(onto(q.Edges, want.Pieces[i].Edges), want.Pieces[i].Edges); d > 0.01 {
				t.Errorf("meeting at the %s: %s in size 54 is %.4f mm off", at, q.Name, d)
			}
		}
	}
}

// meetingAt is a piece printed with its sizes meeting at grade point k.
func meetingAt(q model.Piece, k int) model.Piece {
	last := q.Nest[len(q.Nest)-1].Edges[k].Start()
	by := map[string]geom.Vec{}
	q.Nest = slices.Clone(q.Nest)
	for i, o := range q.Nest {
		by[o.Size] = last.Sub(o.Edges[k].Start())
		q.Nest[i].Edges = nil
		for _, e := range o.Edges {
			q.Nest[i].Edges = append(q.Nest[i].Edges, e.Move(by[o.Size]))
		}
	}
	q.Lines = slices.Clone(q.Lines)
	for i, l := range q.Lines {
		q.Lines[i].Drawn = slices.Clone(l.Drawn)
		for j, d := range l.Drawn {
			q.Lines[i].Drawn[j].Path = d.Path.Move(by[d.Size])
		}
	}
	return q
}

// crossed is an invented half back whose shoulder goes in and whose side goes
// out from size to size, so that the armholes cross, and whose hem goes up at
// the side and down at the centre, so that the hems cross. Every control point
// is linear in the measures of EN 13402-3 that its place follows, so the true
// line is known at every place.
func crossed(c model.SizeChart, place float64) []geom.Path {
	at := func(m model.Measure) float64 { v, _ := c.Beyond(place, m); return v }
	k := place
	neck, tip := geom.Pt(70+k, 0), geom.Pt(175-3*k, 38+k)
	arm := geom.Pt(30+at(model.Bust)/4, 240+2*k)
	waist := geom.Pt(10+at(model.Waist)/4, 420+2*k)
	side, centre := geom.Pt(20+at(model.Hip)/4, 640-5*k), geom.Pt(0, 610+4*k)
	top := geom.Pt(0, 20)
	curve := func(a, b geom.Point, u, v geom.Vec) geom.Path {
		return geom.Path{{P0: a, P1: a.Add(u), P2: b.Add(v), P3: b}}
	}
	return []geom.Path{
		curve(top, neck, geom.Vec{X: 35}, geom.Vec{X: -8, Y: 14}),
		geom.Polyline(neck, tip),
		curve(tip, arm, geom.Vec{X: -18, Y: 60}, geom.Vec{X: -45}),
		curve(arm, waist, geom.Vec{X: -6, Y: 50}, geom.Vec{X: 24, Y: -60}),
		curve(waist, side, geom.Vec{X: 24, Y: 60}, geom.Vec{X: -5, Y: -60}),
		curve(side, centre, geom.Vec{X: -70, Y: 4}, geom.Vec{X: 80}),
		geom.Polyline(centre, top),
	}
}

// traced is a line as a polygon with a corner each few mm.
func traced(edges []geom.Path) []geom.Path {
	var out []geom.Path
	for _, e := range edges {
		m, err := geom.Measure(e, 1e-6)
		if err != nil {
			panic(err)
		}
		n := int(math.Ceil(m.Length() / 4))
		pts := []geom.Point{e.Start()}
		for i := 1; i < n; i++ {
			pts = append(pts, m.At(m.Length()*float64(i)/float64(n)))
		}
		out = append(out, geom.Polyline(append(pts, e.End())...))
	}
	return out
}

// apartOnPaper is a piece whose sizes are printed 700 mm apart down the sheet,
// so that no line meets another.
func apartOnPaper(q model.Piece) model.Piece {
	q.Nest = slices.Clone(q.Nest)
	for i, o := range q.Nest {
		q.Nest[i].Edges = nil
		for _, e := range o.Edges {
			q.Nest[i].Edges = append(q.Nest[i].Edges, e.Move(geom.Vec{Y: 700 * float64(i)}))
		}
	}
	return q
}

// Corners are found where lines cross as anywhere, and the line graded is the
// true one, and that of the same sizes printed apart. A traced hem that tilts
// from size to size is off by what its curve leaves open.
func TestLinesThatCrossInPrint(t *testing.T) {
	women := chartOf(t, "en13402-women")
	for _, c := range []struct {
		name string
		draw func([]geom.Path) []geom.Path
		tol  map[string]float64
	}{
		{"as curves", func(e []geom.Path) []geom.Path { return e }, map[string]float64{"34": 0.05, "42": 0.05, "52": 0.05, "58": 0.05}},
		{"as polygons", traced, map[string]float64{"34": 0.3, "42": 0.1, "52": 0.6, "58": 1.7}},
	} {
		q := model.Piece{Name: "Back", At: geom.Vec{X: 50, Y: 50}}
		for _, size := range []string{"36", "40", "44", "48"} {
			place, _ := women.Place(size)
			q.Nest = append(q.Nest, model.Outline{Size: size, Edges: c.draw(crossed(women, float64(place)))})
		}
		for _, edge := range []int{2, 5} {
			if len(geom.Intersect(q.Nest[0].Edges[edge], q.Nest[3].Edges[edge], 1e-3)) == 0 {
				t.Fatalf("%s: the lines of edge %d do not cross", c.name, edge)
			}
		}
		got := broughtIn(t, model.Pattern{Chart: women, Pieces: []model.Piece{q}})
		if len(got.Remarks) > 0 {
			t.Errorf("%s: %q", c.name, got.Remarks)
		}
		checkCorners(t, c.name, got.Pattern.Pieces[0], q)
		apart := broughtIn(t, model.Pattern{Chart: women, Pieces: []model.Piece{apartOnPaper(q)}})
		for size, tol := range c.tol {
			place, _ := women.Place(size)
			truth := crossed(women, float64(place))
			for k := range truth {
				truth[k] = truth[k].Move(q.At)
			}
			r, other := gradedAt(t, got.Pattern, size).Pieces[0], gradedAt(t, apart.Pattern, size).Pieces[0]
			if d := farthest(r.Edges, truth); d > tol {
				t.Errorf("%s: size %s is %.3f mm off", c.name, size, d)
			}
			if d := farthest(onto(other.Edges, r.Edges), r.Edges); d > 0.01 {
				t.Errorf("%s: size %s is %.3f mm off that of sizes printed apart", c.name, size, d)
			}
		}
	}
}

// checkCorners fails where the grade points of q are not those drawn.
func checkCorners(t *testing.T, name string, q, drawn model.Piece) {
	t.Helper()
	if len(q.Points) != len(drawn.Nest[0].Edges) {
		t.Fatalf("%s: %d grade points, want %d", name, len(q.Points), len(drawn.Nest[0].Edges))
	}
	for i, o := range q.Nest {
		for k, e := range o.Edges {
			if d := e.Start().Dist(drawn.Nest[i].Edges[k].Start().Add(drawn.At)); d > 1e-4 {
				t.Errorf("%s: size %s: grade point %d is %.2f mm off", name, o.Size, k+1, d)
			}
		}
	}
}

// onto is an outline moved so that it begins where another does.
func onto(edges, where []geom.Path) []geom.Path {
	v := where[0].Start().Sub(edges[0].Start())
	var out []geom.Path
	for _, e := range edges {
		out = append(out, e.Move(v))
	}
	return out
}

// A pocket drawn once beside pieces in several sizes is the same in all of them
// and stays so however far the others grow.
func TestAPieceForAllSizesNeverGrows(t *testing.T) {
	p := exact(t, "36", "40", "48")
	a, b := geom.Pt(900, 900), geom.Pt(1030, 1050)
	pocket := geom.Polyline(a, geom.Pt(b.X, a.Y), b, geom.Pt(a.X, b.Y), a)
	file := onPaper(t, p)
	svg, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const drawn = `<path id="Pocket" d="M900 900H1030V1050H900z"/></svg>`
	if err := os.WriteFile(file, []byte(strings.Replace(string(svg), "</svg>", drawn, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	got, err := BringIn(file, p.Chart)
	if err != nil {
		t.Fatal(err)
	}
	q := got.Pattern.Pieces[len(got.Pattern.Pieces)-1]
	if q.Name != "Pocket" || !q.OneForAll || strings.Join(q.Nest[0].Sizes(), " ") != "36 40 48" {
		t.Fatalf("%s, the same in all %v, in sizes %v", q.Name, q.OneForAll, q.Nest[0].Sizes())
	}
	for _, size := range []string{"32", "36", "44", "62"} {
		r := gradedAt(t, got.Pattern, size)
		if d := farthest(r.Pieces[len(r.Pieces)-1].Edges, []geom.Path{pocket}); d > 1e-9 {
			t.Errorf("the pocket of size %s is %g mm off the one drawn", size, d)
		}
		if first := r.Pieces[0]; size == "62" && farthest(first.Edges, q.Nest[0].Edges) < 10 {
			t.Errorf("%s did not grow", first.Name)
		}
	}
}

// What import understood, in words for every kind of nest.
func TestUnderstood(t *testing.T) {
	line := func(sizes ...string) model.Outline { return model.Outline{Size: sizes[0], Also: sizes[1:]} }
	piece := func(name string, all bool, nest ...model.Outline) model.Piece {
		return model.Piece{Name: name, OneForAll: all, Nest: nest, Points: make([]model.GradePoint, 4)}
	}
	got := Understood(model.Pattern{Pieces: []model.Piece{
		piece("Front", false, line("36"), line("38"), line("40")),
		piece("Back", false, line("36"), line("38", "40")),
		piece("Tie", false, line("38", "40")),
		piece("Cuff", false, line("38")),
		piece("Pocket", true, line("36", "38", "40")),
	}})
	want := []string{
		"Front: printed in sizes 36, 38, 40; 4 grade points.",
		"Back: printed in sizes 36, 38/40 (joined by a stroke: on one line); 4 grade points.",
		"Tie: printed in sizes 38, 40, all on one line; 4 grade points.",
		"Cuff: printed in size 38 only; 4 grade points.",
		"Pocket: the same in all sizes; 4 grade points.",
	}
	if !slices.Equal(got, want) {
		t.Errorf("understood %q\nwant %q", got, want)
	}
}

// A centre line that drifts 1.2 mm at a step is laid on itself and the report
// says so; one that drifts 0.9 mm, as a hand may, is left bit for bit.
func TestOnlyWhatDriftsIsLaidOnItsCentre(t *testing.T) {
	p := exact(t, "36", "38", "42")
	steps := []float64{3, 2, 0} // to the largest
	for _, c := range []struct {
		drift float64
		laid  bool
	}{{0.9, false}, {1.2, true}} {
		moved := p
		moved.Pieces = slices.Clone(p.Pieces)
		for k, q := range p.Pieces {
			moved.Pieces[k].Nest = slices.Clone(q.Nest)
			for i, o := range q.Nest {
				moved.Pieces[k].Nest[i].Edges = nil
				for _, e := range o.Edges {
					moved.Pieces[k].Nest[i].Edges = append(moved.Pieces[k].Nest[i].Edges, e.Move(geom.Vec{X: c.drift * steps[i]}))
				}
			}
		}
		got := broughtIn(t, moved)
		said := 0
		for _, s := range got.Remarks {
			if strings.Contains(s, "1.2 mm off at a step") {
				said++
			}
		}
		if c.laid && said != 3 || !c.laid && len(got.Remarks) > 0 {
			t.Errorf("drifting %g mm: %q", c.drift, got.Remarks)
		}
		for k, q := range got.Pattern.Pieces {
			if p.Pieces[k].ID == "cuff" {
				continue
			}
			want := moved.Pieces[k]
			if c.laid {
				want = p.Pieces[k]
			}
			for i, o := range q.Nest {
				if d := farthest(o.Edges, onSheet(want, i)); d > 1e-4 {
					t.Errorf("drifting %g mm: %s, size %s, is %g mm off", c.drift, q.Name, o.Size, d)
				}
			}
		}
	}
}

// Pieces whose sizes were laid on the underarm and then on the centre line
// again are graded to the same shape, followers and all.
func TestLinksHoldWhenSizesAreLaidAnew(t *testing.T) {
	p, err := draft.Blouse(chartOf(t, "en13402-women"), []string{"36", "38", "40", "42"})
	if err != nil {
		t.Fatal(err)
	}
	want := gradedAt(t, p, "54")
	for _, q := range p.Pieces[:2] {
		k := slices.IndexFunc(q.Points, func(g model.GradePoint) bool { return g.Name == "underarm" })
		for _, on := range []edit.StackOn{edit.OnPoint(q.Points[k].ID), edit.OnCentre} {
			if p, err = edit.Stack(q.ID, on)(p); err != nil {
				t.Fatal(err)
			}
		}
	}
	got := gradedAt(t, p, "54")
	if len(got.Unlinked) > 0 {
		t.Errorf("links were lost: %+v", got.Unlinked)
	}
	for i, q := range got.Pieces {
		if d := farthest(onto(q.Edges, want.Pieces[i].Edges), want.Pieces[i].Edges); d > 1e-6 {
			t.Errorf("%s is %g mm off", q.Name, d)
		}
	}
}

// The order of the size layers in a drawing makes no difference to the line
// graded.
func TestTheOrderOfSizesMakesNoDifference(t *testing.T) {
	women := chartOf(t, "en13402-women")
	p, err := draft.Blouse(women, []string{"36", "38", "40", "42"})
	if err != nil {
		t.Fatal(err)
	}
	other := p
	other.Pieces = slices.Clone(p.Pieces)
	for i, q := range p.Pieces {
		other.Pieces[i].Nest = slices.Clone(q.Nest)
		o := other.Pieces[i].Nest
		o[0], o[1], o[2], o[3] = o[2], o[0], o[3], o[1]
	}
	here := gradedAt(t, broughtIn(t, p).Pattern, "54")
	there := gradedAt(t, broughtIn(t, other).Pattern, "54")
	for i, q := range here.Pieces {
		if d := farthest(q.Edges, there.Pieces[i].Edges); d > 1e-6 {
			t.Errorf("%s is %g mm off", q.Name, d)
		}
	}
}
