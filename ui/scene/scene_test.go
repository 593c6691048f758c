package scene_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/scene/scenetest"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func blouse(t testing.TB, n int) scene.Input {
	t.Helper()
	in, err := scenetest.Blouse(n)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

// dump writes a layer one mark a line, places to 0.1 mm.
func dump(l scene.Layer) string {
	var b strings.Builder
	for _, f := range l.Fills {
		fmt.Fprintf(&b, "fill  %v %.3g  %s\n", f.Ink, f.Alpha, way(f.Outline))
	}
	for _, k := range l.Lines {
		fmt.Fprintf(&b, "line  %v %.3g px", k.Ink, k.Width)
		for _, f := range []struct {
			on    bool
			words string
		}{
			{k.Alpha != 1, fmt.Sprintf(" alpha %.3g", k.Alpha)},
			{len(k.Dash) > 0, fmt.Sprintf(" dash %v", k.Dash)},
			{k.Round, " round"},
			{k.Arrow, " arrows"},
			{k.Shift != 0, fmt.Sprintf(" aside %g", k.Shift)},
			{k.Reach != 0, fmt.Sprintf(" tick %g", k.Reach)},
		} {
			if f.on {
				b.WriteString(f.words)
			}
		}
		fmt.Fprintf(&b, "  %s\n", way(k.Path))
	}
	for _, d := range l.Dots {
		fmt.Fprintf(&b, "dot   %v %.3g px mark %d  %s%+.1f%+.1f\n", d.Ink, d.Radius, d.Mark, place(d.At), d.DX, d.DY)
	}
	for _, x := range l.Texts {
		fmt.Fprintf(&b, "text  %q %v %g px bold %v anchor %d turn %.2f halo %v  %s%+.1f%+.1f\n",
			x.Words, x.Ink, x.Size, x.Bold, x.Anchor, x.Turn, x.Halo, place(x.At), x.DX, x.DY)
	}
	for _, h := range l.Handles {
		fmt.Fprintf(&b, "hold  %s %v shape %d state %d", place(h.At), h.Ref, h.Shape, h.State)
		if h.Stemmed {
			fmt.Fprintf(&b, " from %s", place(h.Stem))
		}
		b.WriteString("\n")
	}
	return b.String()
}

func place(p geom.Point) string { return fmt.Sprintf("(%.1f, %.1f)", p.X, p.Y) }

func way(p geom.Path) string {
	length, err := p.Length(1e-3)
	if err != nil {
		return err.Error()
	}
	return fmt.Sprintf("%s in %d to %s, %.1f mm", place(p.Start()), len(p), place(p.End()), length)
}

func TestScenes(t *testing.T) {
	nest := blouse(t, 4)
	hand := nest
	hand.Select = scene.Ref{Piece: "front", Edge: "side seam", Point: "underarm"}
	hand.Look = []scene.Fault{{Ref: scene.Ref{Piece: "front", Edge: "hem"}, At: geom.Pt(120, 500), Number: 1}}
	hand.Seam = true
	hand.Ghost = map[string][]geom.Path{"front": {geom.Polyline(geom.Pt(300, 0), geom.Pt(310, 500))}}
	bend := nest
	bend.Select = scene.Ref{Piece: "front", Edge: "neckline", Control: 2}
	pages := nest
	pages.Nest, pages.Names, pages.Glue, pages.Page = false, true, true, "A2"
	pages.Sheets = []scene.Page{
		{Name: "A1", Box: geom.Box{Max: geom.Pt(200, 287)}},
		{Name: "A2", Box: geom.Box{Min: geom.Pt(190, 0), Max: geom.Pt(390, 287)}},
		{Name: "A3", Box: geom.Box{Min: geom.Pt(380, 0), Max: geom.Pt(580, 287)}, Blank: true},
	}
	pages.Buttons = []geom.Point{geom.Pt(195, 143)}
	pages.Square = geom.Box{Min: geom.Pt(320, 200), Max: geom.Pt(370, 250)}
	pages.Placement = map[string]geom.Affine{"front": geom.Translate(geom.Vec{X: 10, Y: 12})}
	bare := nest
	bare.Result = grading.Result{}
	for name, c := range map[string]struct {
		in     scene.Input
		inHand []string
	}{
		"nest":  {nest, nil},
		"hand":  {hand, []string{"front"}},
		"bend":  {bend, []string{"front", "facing"}},
		"pages": {pages, nil},
		"bare":  {bare, nil},
	} {
		got := "static\n" + dump(scene.Static(c.in, c.inHand)) + "active\n" + dump(scene.Active(c.in, c.inHand))
		golden(t, name, got)
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	a, b := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := range max(len(a), len(b)) {
		var x, y string
		if i < len(a) {
			x = a[i]
		}
		if i < len(b) {
			y = b[i]
		}
		if x != y {
			t.Errorf("%s, line %d:\n have %s\n want %s", name, i+1, y, x)
		}
	}
}

// Each piece is drawn in exactly one of the two layers.
func TestPiecesAreDrawnOnce(t *testing.T) {
	in := blouse(t, 3)
	in.Select.Piece = "facing"
	all := len(scene.Static(in, nil).Lines)
	for _, hand := range [][]string{{"front"}, {"facing"}, {"front", "facing"}} {
		still := scene.Static(in, hand)
		free := in
		free.Select = scene.Ref{}
		moving := scene.Active(free, hand)
		if len(still.Lines)+len(moving.Lines) != all || len(still.Fills)+len(moving.Fills) != 2 {
			t.Errorf("with %v in hand: %d and %d lines of %d", hand, len(still.Lines), len(moving.Lines), all)
		}
	}
}

// What was printed can be told apart without colour: no two of up to eight
// sizes share both dash and weight, and the largest is the heaviest.
func TestSizesDifferByMoreThanColour(t *testing.T) {
	for n := 1; n <= 8; n++ {
		in := blouse(t, n)
		pens := map[string]bool{}
		var last, heaviest float64
		for _, k := range scene.Static(in, nil).Lines {
			if _, of, ok := k.Ink.Nest(); !ok || of != n || len(k.Path) < 9 {
				continue
			}
			if k.Path.Start().X > 300 {
				break // the facing repeats the pens
			}
			pens[fmt.Sprint(k.Width, k.Dash)] = true
			last, heaviest = k.Width, max(heaviest, k.Width)
		}
		if len(pens) != n || last != heaviest {
			t.Errorf("%d sizes are drawn in %d ways, the largest %g wide of %g", n, len(pens), last, heaviest)
		}
	}
}

// Every printed size's number stands on its own line, clear of the others.
func TestSizeNumbersStandOnTheirLines(t *testing.T) {
	for n := 2; n <= 6; n++ {
		in := blouse(t, n)
		in.Scale = 1.2
		front := in.Pattern.Pieces[0]
		var spots []geom.Point
		for _, x := range scene.Static(in, nil).Texts {
			i, _, ok := x.Ink.Nest()
			if !ok || x.At.X > 400 {
				continue
			}
			line := geom.Join(front.Nest[i].Edges...).Move(front.At)
			if x.Words != front.Nest[i].Size {
				t.Errorf("%q is written on size %s", x.Words, front.Nest[i].Size)
			}
			if _, _, d := line.Nearest(x.At, 0.01); d > 1.1 {
				t.Errorf("the number %s of %d lies %.2f mm off its line", x.Words, n, d)
			}
			for _, o := range spots {
				if d := o.Sub(x.At).Scale(in.Scale); math.Abs(d.X) < 16 && math.Abs(d.Y) < 11 {
					t.Errorf("of %d sizes, %s covers its neighbour", n, x.Words)
				}
			}
			spots = append(spots, x.At)
		}
		if len(spots) != n {
			t.Errorf("%d of %d sizes are numbered", len(spots), n)
		}
	}
}

// The stitching line lies inside the cutting line by the allowance.
func TestSeamLineLiesInsideByTheAllowance(t *testing.T) {
	in := blouse(t, 4)
	in.Seam = true
	cut := geom.Join(in.Edges(0)...)
	found := 0
	for _, k := range scene.Static(in, []string{"facing"}).Lines {
		if !slices.Equal(k.Dash, []float64{6, 3}) || k.Ink != scene.InkAccent {
			continue
		}
		found++
		for _, c := range k.Path {
			p := c.At(0.5)
			_, _, d := cut.Nearest(p, 1e-3)
			if !cut.Contains(p, 0.01) || d > 15.5 {
				t.Errorf("%s lies %.2f mm from the cutting line, inside %v", place(p), d, cut.Contains(p, 0.01))
			}
		}
	}
	if found != 8 {
		t.Errorf("%d edges of 8 with an allowance have a stitching line", found)
	}
}

// The ends of an edge in hand go along with it and are drawn so, until one point is
// in hand alone.
func TestEndsOfTheEdgeInHand(t *testing.T) {
	in := blouse(t, 4)
	filled := func() string {
		var out []string
		for _, h := range scene.Handles(in) {
			if h.State == scene.Selected {
				out = append(out, h.Ref.Point)
			}
		}
		return strings.Join(out, " ")
	}
	in.Select = scene.Ref{Piece: "front", Edge: "side seam"}
	if got := filled(); got != "dart-low side-hem" {
		t.Errorf("of the side seam %q are filled", got)
	}
	in.Select.Point = "tip"
	if got := filled(); got != "tip" {
		t.Errorf("of one point in hand %q are filled", got)
	}
}

func TestHandlesSayWhatTheyAre(t *testing.T) {
	in := blouse(t, 4)
	if hs := scene.Handles(in); len(hs) != 0 {
		t.Errorf("%d handles with nothing in hand", len(hs))
	}
	in.Select = scene.Ref{Piece: "front", Edge: "side seam", Point: "underarm"}
	want := map[string]scene.HandleState{"underarm": scene.Selected, "cf-hem": scene.Locked, "hps": scene.Linked, "tip": scene.Idle}
	bends := 0
	for _, h := range scene.Handles(in) {
		if s, ok := want[h.Ref.Point]; ok && s != h.State {
			t.Errorf("%s is in state %d, want %d", h.Ref.Point, h.State, s)
		}
		if h.Ref.Point == "pitch" && h.Shape != scene.Curve || h.Ref.Point == "tip" && h.Shape != scene.Corner {
			t.Errorf("%s has shape %d", h.Ref.Point, h.Shape)
		}
		if h.Ref.Control == 0 {
			continue
		}
		bends++
		ctl := in.Edges(0)[6].Controls()
		if h.At != ctl[h.Ref.Control] {
			t.Errorf("handle %d is not on its control point", h.Ref.Control)
		}
	}
	if bends != 2 {
		t.Errorf("%d handles shape the side seam, want 2", bends)
	}
	in.Select.Edge = "centre"
	for _, h := range scene.Handles(in) {
		if h.Ref.Control > 0 {
			t.Error("the centre front can be bent")
		}
	}
}

// A changed piece is named, and only that; the follower of a changed line too.
func TestChangedNamesWhatMoved(t *testing.T) {
	in := blouse(t, 4)
	if c := scene.Changed(in, in); len(c) != 0 {
		t.Errorf("nothing changed but %v", c)
	}
	move := func(point string) scene.Input {
		p := in.Pattern.WithPiece(0, func(q model.Piece) model.Piece {
			q.Hand.Moves = []model.PointMove{{Point: point, By: geom.Vec{X: 5}}}
			return q
		})
		out, err := scenetest.Graded(p)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	if c := scene.Changed(in, move("underarm")); !slices.Equal(c, []string{"front"}) {
		t.Errorf("moving the underarm changed %v", c)
	}
	if c := scene.Changed(in, move("hps")); !slices.Equal(c, []string{"front", "facing"}) {
		t.Errorf("moving the neck point changed %v", c)
	}
	slid := in
	slid.Placement = map[string]geom.Affine{"facing": geom.Translate(geom.Vec{X: 1})}
	if c := scene.Changed(in, slid); !slices.Equal(c, []string{"facing"}) {
		t.Errorf("sliding the facing changed %v", c)
	}
	other := blouse(t, 3)
	other.Pattern.Pieces[0].ID, other.Result.Pieces[0].ID = "x", "x"
	if c := scene.Changed(in, other); !slices.Contains(c, "x") {
		t.Errorf("another pattern changed %v", c)
	}
}

// All that a layer draws lies within its bounds.
func TestBoundsHoldTheLayer(t *testing.T) {
	in := blouse(t, 4)
	in.Select = scene.Ref{Piece: "front", Edge: "side seam"}
	l := scene.Active(in, []string{"front"})
	b := l.Bounds(in.Scale)
	for _, k := range l.Lines {
		if o := k.Path.Bounds(); !b.Contains(o.Min) || !b.Contains(o.Max) {
			t.Errorf("a line reaches to %v, outside %v", o, b)
		}
	}
	for _, x := range l.Texts {
		if !b.Contains(x.At) {
			t.Errorf("%q stands outside", x.Words)
		}
	}
	if got := (scene.Layer{}).Bounds(1); !got.Empty() {
		t.Errorf("nothing has the bounds %v", got)
	}
}

// Labels keep inside their piece where it is wide enough.
func TestLabelsKeepInside(t *testing.T) {
	in := blouse(t, 4)
	outline := geom.Join(in.Edges(0)...)
	for _, x := range scene.Static(in, []string{"facing"}).Texts {
		if x.Words == "Front bodice" && !outline.Contains(x.At, 0.1) {
			t.Errorf("the name of the front stands at %s", place(x.At))
		}
	}
}

type spot struct {
	at     geom.Point
	anchor scene.Anchor
}

// A piece too small for its label has it beside it, clear of its neighbours.
func TestLabelsBesideKeepClear(t *testing.T) {
	in := blouse(t, 4)
	in.Scale = 0.5
	label := func() spot {
		for _, x := range scene.Static(in, nil).Texts {
			if x.Words == "Front neck facing" {
				return spot{x.At, x.Anchor}
			}
		}
		t.Fatal("the facing has no name")
		return spot{}
	}
	box := geom.Join(in.Edges(1)...).Bounds()
	if s := label(); s.at.X < box.Max.X || s.anchor != scene.Left {
		t.Errorf("alone, its name stands at %s", place(s.at))
	}
	// With another piece to its right, it goes elsewhere.
	crowd := in.Pattern
	q := in.Pattern.Pieces[0]
	q.ID, q.At = "other", geom.Vec{X: box.Max.X + 2, Y: 30}
	crowd.Pieces = append(slices.Clone(crowd.Pieces), q)
	crowded, err := scenetest.Graded(crowd)
	if err != nil {
		t.Fatal(err)
	}
	in.Pattern, in.Result = crowded.Pattern, crowded.Result
	s := label()
	for k, q := range in.Pattern.Pieces {
		if geom.Join(in.Edges(k)...).Bounds().Contains(s.at) {
			t.Errorf("its name stands on %s", q.ID)
		}
	}
}

// Where pieces lie on all sides no name is written over them.
func TestNoNameStandsOnAnotherPiece(t *testing.T) {
	in := blouse(t, 4)
	in.Scale = 0.5
	crowd := in.Pattern
	crowd.Pieces = slices.Clone(crowd.Pieces[:2])
	middle := geom.Join(in.Edges(1)...).Bounds().Centre()
	for i := range 6 {
		q := in.Pattern.Pieces[0]
		wide := geom.Join(in.Edges(0)...).Bounds()
		q.ID = fmt.Sprint("round ", i)
		q.At = q.At.Add(middle.Sub(wide.Centre())).Add(geom.Vec{X: wide.Width() * (float64(i) - 2.5) / 2})
		crowd.Pieces = append(crowd.Pieces, q)
	}
	crowded, err := scenetest.Graded(crowd)
	if err != nil {
		t.Fatal(err)
	}
	in.Pattern, in.Result = crowded.Pattern, crowded.Result
	for _, x := range scene.Static(in, nil).Texts {
		if x.Words == "Front neck facing" {
			t.Errorf("its name stands at %s, over others", place(x.At))
		}
	}
}

func TestCrossingsAlongARuler(t *testing.T) {
	in := blouse(t, 4)
	// Level across the side seam at the waist, from inside to outside.
	y := in.Pattern.Pieces[0].At.Y + 400
	a, b := geom.Pt(150, y), geom.Pt(400, y)
	cs := scene.Crossings(in, a, b, 0.001)
	var sizes []string
	for i, c := range cs {
		sizes = append(sizes, c.Size)
		if i > 0 && c.S < cs[i-1].S {
			t.Error("the crossings are out of order")
		}
		line := in.Edges(0)
		if c.Printed {
			o, _ := in.Pattern.Pieces[0].Printed(c.Size)
			line = []geom.Path{geom.Join(o.Edges...).Move(in.Pattern.Pieces[0].At)}
		}
		at := a.Add(geom.Vec{X: c.S})
		if _, _, d := geom.Join(line...).Nearest(at, 1e-4); d > 0.01 {
			t.Errorf("the crossing with %s is %.3f mm off", c.Size, d)
		}
	}
	if got := strings.Join(sizes, " "); got != "34 36 38 40 48" {
		t.Errorf("crossed %s", got)
	}
	from, to, ok := scene.Reading(cs)
	if !ok || from.Size != "40" || to.Size != "48" {
		t.Errorf("read from %q to %q", from.Size, to.Size)
	}
	if _, _, ok := scene.Reading(cs[:3]); ok {
		t.Error("read a gap without a computed line")
	}
	slices.Reverse(cs)
	if from, _, ok := scene.Reading(cs); !ok || from.Size != "40" {
		t.Errorf("from outside, read from %q", from.Size)
	}
}

// A fold, where print and the new line are the same, does not hide the gap at the
// side; and the lines of two pieces are never read as one pair.
func TestReadingSkipsFolds(t *testing.T) {
	at := func(piece, size string, s float64, printed bool) scene.Crossing {
		return scene.Crossing{Piece: piece, Size: size, S: s, Printed: printed}
	}
	cs := []scene.Crossing{
		at("back", "40", 20, true), at("back", "48", 20, false),
		at("cuff", "48", 90, false), at("back", "40", 100, true), at("cuff", "40", 104, true), at("back", "48", 112, false),
	}
	from, to, ok := scene.Reading(cs)
	if want := (scene.Crossing{Piece: "cuff", Size: "48", S: 90}); !ok || to != want || from.S != 104 {
		t.Errorf("read %v to %v", from, to)
	}
	if from, to, ok = scene.Reading(cs[:2]); !ok || from.S != to.S {
		t.Errorf("of a fold alone, read %v to %v, %v", from, to, ok)
	}
}

func BenchmarkBuild(b *testing.B) {
	in, err := scenetest.Wardrobe(10)
	if err != nil {
		b.Fatal(err)
	}
	for range b.N {
		scene.Static(in, nil)
	}
}
