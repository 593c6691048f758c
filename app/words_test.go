package app

import (
	"math"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"quarterstep/assets"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// The room words take up, in letter heights: from the top of capitals to the
// foot of letters such as p, as the font itself draws them.
const (
	capitals = 0.73
	foot     = 0.2
)

// wide is the width of words in mm, from the font's own widths.
func wide(t *testing.T, l printing.Label) float64 {
	t.Helper()
	data := assets.LatoRegular
	if l.Bold {
		data = assets.LatoBold
	}
	f, err := sfnt.Parse(data)
	if err != nil {
		t.Fatal(err)
	}
	var buf sfnt.Buffer
	const ppem = 1000
	var sum fixed.Int26_6
	for _, r := range l.Text {
		g, err := f.GlyphIndex(&buf, r)
		if err != nil || g == 0 {
			t.Fatalf("no letter %q in the font: %v", r, err)
		}
		adv, err := f.GlyphAdvance(&buf, g, fixed.I(ppem), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		sum += adv
	}
	return float64(sum) / 64 / ppem * l.Size
}

// room is the four corners of the words' box, from the upper left clockwise as
// they read.
func room(t *testing.T, l printing.Label) [4]geom.Point {
	t.Helper()
	half := wide(t, l) / 2
	turn := geom.Rotate(l.Turn)
	at := func(x, y float64) geom.Point { return l.At.Add(turn.ApplyVec(geom.Vec{X: x, Y: y})) }
	return [4]geom.Point{at(-half, -capitals*l.Size), at(half, -capitals*l.Size), at(half, foot*l.Size), at(-half, foot*l.Size)}
}

// holds reports whether p lies in the box.
func holds(box [4]geom.Point, p geom.Point) bool {
	for i, a := range box {
		if box[(i+1)%4].Sub(a).Cross(p.Sub(a)) <= 0 {
			return false
		}
	}
	return true
}

// strokesThrough lists the strokes of p that run through the box.
func strokesThrough(box [4]geom.Point, strokes []printing.Stroke) (hit []geom.Point) {
	for _, s := range strokes {
		pts := s.Path.Flatten(0.02)
		for i := 1; i < len(pts); i++ {
			n := 1 + int(pts[i].Dist(pts[i-1])/0.2)
			for k := range n {
				if p := pts[i-1].Lerp(pts[i], float64(k)/float64(n)); holds(box, p) {
					return append(hit, p)
				}
			}
		}
	}
	return hit
}

func demos(t *testing.T) []model.Pattern {
	t.Helper()
	blouse, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	waistcoat, err := DemoWaistcoat()
	if err != nil {
		t.Fatal(err)
	}
	return []model.Pattern{blouse, waistcoat}
}

func TestWordsLieInTheirPieceClearOfLines(t *testing.T) {
	for _, p := range demos(t) {
		sizes := chartSizes(p, 5)
		for _, c := range []PrintChoice{
			{Stitching: true, Marks: true},
			{Marks: true},
			{},
			{Stitching: true, Marks: true, Date: "29 November 2026"},
			{Marks: true, Sizes: sizes},
			{Stitching: true, Marks: true, Sizes: sizes[1:], WithTarget: true, Nest: true},
		} {
			d, err := Drawing(p, c)
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range d.Pieces {
				if len(q.Labels) < 4 {
					t.Errorf("%s has %d lines of words", q.Name, len(q.Labels))
				}
				for i, l := range q.Labels {
					box := room(t, l)
					for _, corner := range box {
						if !q.Outline.Contains(corner, 1e-3) {
							t.Errorf("%+v: %q of %s (%.1f mm) reaches out of the piece at %v", c, l.Text, q.Name, l.Size, corner)
							break
						}
					}
					if hit := strokesThrough(box, q.Strokes); len(hit) > 0 {
						t.Errorf("%+v: a line of %s runs through %q (%.1f mm) at %v", c, q.Name, l.Text, l.Size, hit[0])
					}
					for _, other := range q.Labels[:i] {
						if overlap(box, room(t, other)) {
							t.Errorf("%q of %s lies on %q", l.Text, q.Name, other.Text)
						}
					}
				}
			}
		}
	}
}

// chartSizes is n sizes of the chart about the size wanted, which is the last
// but one.
func chartSizes(p model.Pattern, n int) []string {
	var out []string
	last := int(p.Target.Place) + 1
	for _, s := range p.Chart.Sizes[last-n+1 : last+1] {
		out = append(out, s.Name)
	}
	return out
}

// overlap reports whether two boxes of words share any place: whether, of every
// side of either, the other lies beyond it (the separating axis theorem).
func overlap(a, b [4]geom.Point) bool {
	for _, pair := range [2][2][4]geom.Point{{a, b}, {b, a}} {
		for i, from := range pair[0] {
			side := pair[0][(i+1)%4].Sub(from)
			apart := true
			for _, p := range pair[1] {
				apart = apart && side.Cross(p.Sub(from)) <= 0
			}
			if apart {
				return false
			}
		}
	}
	return true
}

// On a piece laid the other way up, words take up the room they took and read
// the right way.
func TestWordsOfTurnedPiecesKeepTheirRoom(t *testing.T) {
	labels := []printing.Label{
		{Text: "Lengthen or shorten here", At: geom.Pt(30, 200), Size: 3.5},
		{Text: "Place on the fold", At: geom.Pt(7, 90), Size: 3.5, Turn: math.Pi / 2},
		{Text: "Back", At: geom.Pt(60, 100), Size: 7, Bold: true},
		{Text: "Size 48", At: geom.Pt(60, 107.2), Size: 4.5},
		{Text: "Cut 1 on the fold", At: geom.Pt(60, 114.4), Size: 4.5},
	}
	before := append([]printing.Label(nil), labels...)
	turned := upright(labels)
	for i := range labels {
		if labels[i] != before[i] {
			t.Error("the labels given were changed")
		}
		// Half a turn of the whole piece: words must read as they did.
		if d := math.Mod(turned[i].Turn+math.Pi-labels[i].Turn, 2*math.Pi); math.Abs(d) > 1e-12 {
			t.Errorf("%q is %.3f out of its direction", labels[i].Text, d)
		}
	}
	// A word by itself: from the baseline to the top of capitals, the same box.
	for i := range 2 {
		l, u := labels[i], turned[i]
		up := geom.Rotate(l.Turn).ApplyVec(geom.Vec{Y: -0.7 * l.Size})
		if d := u.At.Dist(l.At.Add(up)); d > 1e-9 {
			t.Errorf("%q moved %.3f mm", l.Text, d)
		}
	}
	// The block: from the top of its first line to the foot of its last.
	top, low := 100-0.7*7, 114.4
	if got := turned[4].At.Y; math.Abs(got-top) > 1e-9 {
		t.Errorf("the block's last line begins at %.3f, want %.3f", got, top)
	}
	if got := turned[2].At.Y + 0.7*7; math.Abs(got-low) > 1e-9 {
		t.Errorf("the block's first line ends at %.3f, want %.3f", got, low)
	}
	if !(turned[2].At.Y > turned[3].At.Y && turned[3].At.Y > turned[4].At.Y) {
		t.Error("the lines of the block do not read from the top")
	}
	for _, u := range turned[2:] {
		if u.At.X != 60 {
			t.Errorf("%q went aside to %.3f", u.Text, u.At.X)
		}
	}
	if len(upright(nil)) != 0 {
		t.Error("no words made words")
	}
}

// On the sheets every word of both demos reads from the left or from below and
// lies in its piece.
func TestWordsOnSheetsReadTheRightWay(t *testing.T) {
	turned := 0
	for _, p := range demos(t) {
		for _, paper := range []string{"a4", "a0", "914x3000mm"} {
			setup, err := PrintSetup(paper, "", "")
			if err != nil {
				t.Fatal(err)
			}
			job, err := Plan(p, PrintChoice{Stitching: true, Marks: true}, setup)
			if err != nil {
				t.Fatal(err)
			}
			for _, placed := range job.Plan.Pieces {
				if placed.At.A < 0 {
					turned++
				}
				for _, l := range placed.Piece.Labels {
					dir := placed.At.ApplyVec(geom.Rotate(l.Turn).ApplyVec(geom.Vec{X: 1}))
					// Standing words read upwards or downwards.
					if dir.X < -1e-9 {
						t.Errorf("%s on %s: %q reads backwards", placed.Piece.Name, paper, l.Text)
					}
					for _, corner := range room(t, l) {
						if !placed.Piece.Outline.Contains(corner, 1e-3) {
							t.Errorf("%s on %s: %q reaches out of the piece", placed.Piece.Name, paper, l.Text)
							break
						}
					}
				}
			}
		}
	}
	if turned == 0 {
		t.Error("no piece was laid the other way up: this test shows nothing")
	}
}
