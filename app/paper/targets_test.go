package paper

import (
	"context"
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/trace/picture"
	"quarterstep/model/trace/straight"
	"quarterstep/model/trace/target"
)

// overhead is a 26 mm camera (on the 35 mm frame) of 3000 by 4000 pixels, 780 mm
// over the paper's origin, tilted by 11 degrees, its lens bending by 2 % at
// the corners.
func overhead(p geom.Point) geom.Point {
	const high, k1 = 780, 0.02
	half := math.Hypot(1500, 2000)
	s, c := math.Sincos(11 * math.Pi / 180)
	x, y, z := p.X, c*p.Y, high+s*p.Y
	f := 26 / math.Hypot(36, 24) * 2 * half
	v := geom.Vec{X: f * x / z, Y: f * y / z}
	r := v.Len() / half
	return geom.Pt(1500, 2000).Add(v.Scale(1 + k1*r*r))
}

// laidPart is a strip or card where it lies.
type laidPart struct {
	set  target.Set
	part int
	at   geom.Affine
}

func lying(x, y, degrees float64) geom.Affine {
	return geom.Translate(geom.Vec{X: x, Y: y}).Mul(geom.Rotate(degrees * math.Pi / 180))
}

var (
	fourStrips = []laidPart{
		{target.Strips, 0, lying(230, 10, 2)},
		{target.Strips, 1, lying(-15, 300, 88)},
		{target.Strips, 2, lying(-225, -40, -179)},
		{target.Strips, 3, lying(20, -295, 93)},
	}
	fourCards = []laidPart{
		{target.Corners, 0, lying(-200, -285, 4)},
		{target.Corners, 1, lying(200, -285, -12)},
		{target.Corners, 2, lying(200, 285, 100)},
		{target.Corners, 3, lying(-200, 285, 0)},
	}
)

// found are the targets of parts as the camera sees them, printed at a share of
// their size.
func found(parts []laidPart, scale float64) []target.Found {
	var out []target.Found
	for _, l := range parts {
		for k := range target.PerPart {
			code := l.set.Code(l.part, k)
			spot, _ := target.SpotOf(code)
			at := l.at.Apply(geom.Point(geom.Vec(spot.On).Scale(scale)))
			out = append(out, target.Found{Centre: overhead(at), Code: code, Size: 40})
		}
	}
	slices.SortFunc(out, func(a, b target.Found) int { return a.Code - b.Code })
	return out
}

// uncut is the whole sheet of a set, its middle at a place.
func uncut(set target.Set, at geom.Affine) []laidPart {
	var out []laidPart
	for part := range target.Parts {
		spot, _ := target.SpotOf(set.Code(part, 0))
		to := at.Apply(geom.Point(spot.Sheet.Sub(spot.On)))
		one := at
		one.E, one.F = to.X, to.Y
		out = append(out, laidPart{set, part, one})
	}
	return out
}

func photoOf(size image.Point) *Photo {
	return &Photo{Name: "fennel.jpg", Picture: picture.Picture{
		Gray: image.NewGray(image.Rectangle{Max: size}), Camera: "Fennel F4", Focal35: 26,
	}}
}

func wide() *Photo { return photoOf(image.Pt(3000, 4000)) }

// offOn is how far, in mm, s takes places of the paper 460 by 600 mm about the
// origin from where they are, once both lie together.
func offOn(s Straight) float64 {
	var from, to []geom.Point
	for i := range 81 {
		p := geom.Pt(460*(float64(i%9)/8-0.5), 600*(float64(i/9)/8-0.5))
		from, to = append(from, s.Map.MM(overhead(p))), append(to, p)
	}
	t, _ := geom.RigidFit(from, to)
	worst := 0.0
	for i := range from {
		worst = max(worst, t.Apply(from[i]).Dist(to[i]))
	}
	return worst
}

// middlesOf leaves only the middles of cards.
func middlesOf(all []target.Found) []target.Found {
	return slices.DeleteFunc(all, func(f target.Found) bool { s, _ := target.SpotOf(f.Code); return !s.Middle() })
}

// bent moves one target by 20 pixels, as a strip that curls up at its end does.
func bent(all []target.Found, i int) []target.Found {
	out := slices.Clone(all)
	out[i].Centre = out[i].Centre.Add(geom.Vec{X: 16, Y: -12})
	return out
}

// How the targets lie is told from what is seen of them, what is missing is
// named, and the photo is flat to a fraction of a millimetre, or not at all.
func TestTargetsHoweverTheyLie(t *testing.T) {
	strips, cards := found(fourStrips, 1), found(fourCards, 1)
	sheet := found(uncut(target.Corners, lying(60, -20, 30)), 1)
	without := func(all []target.Found, codes ...int) []target.Found {
		return slices.DeleteFunc(slices.Clone(all), func(f target.Found) bool { return slices.Contains(codes, f.Code) })
	}
	for _, c := range []struct {
		name    string
		found   []target.Found
		ask     Request
		layout  Layout
		missing []int
		off     float64 // mm; 0: refused
		says    string
	}{
		{"strips", strips, Request{}, Strips, nil, 0.02, "The 20 targets agree to within 0.1 mm and between them the picture is right to about 0."},
		{"a strip in part", without(strips, 0, 3), Request{}, Strips, nil, 0.02, "The 18 targets"},
		{"a strip missing", without(strips, 5, 6, 7, 8), Request{}, Strips, []int{2}, 0.02, "Strip 2 is not found; the 15 targets"},
		{"two strips only", strips[:10], Request{}, Strips, []int{3, 4}, 0.02, "Strips 3 and 4 are not found; the 10 targets"},
		{"one strip only", strips[:5], Request{}, Strips, []int{2, 3, 4}, 0, "strips 2, 3 and 4 are not found: see that two"},
		{"a strip twice", append(strips, strips[7]), Request{}, Strips, nil, 0, "strip 2 is in the photo twice"},
		{"cards", cards, Request{}, Corners, nil, 0.02, "The 20 targets agree"},
		{"a card missing", without(cards, 35, 36, 37, 38), Request{}, Corners, []int{4}, 0.02, "Card 4 is not found"},
		{"cards, measured", cards, Request{Apart: [2]float64{400, 570}}, Corners, nil, 0.02, "Your distance agrees"},
		{"a bent strip", bent(strips, 9), Request{}, Strips, nil, 0.02, "Strip 2 does not lie flat and is left out; the 15 targets"},
		{"two bent strips", bent(bent(strips, 9), 19), Request{}, Strips, nil, 5, "lay them flat"},
		{"strips and cards", append(slices.Clone(strips), cards...), Request{}, Strips, nil, 0.02, "The 40 targets"},
		{"sheet of cards", sheet, Request{}, Sheet, nil, 0.3, "beside them the picture is right to about"},
		{"sheet in part", without(sheet, 20, 21, 22, 23, 24, 25, 30), Request{}, Sheet, nil, 0.7, "The 13 targets"},
		{"sheet of strips", found(uncut(target.Strips, lying(90, 0, -80)), 1), Request{}, Sheet, nil, 0.1, "beside them"},
		{"middles of cards", middlesOf(slices.Clone(cards)), Request{Apart: [2]float64{400, 570}}, Corners, nil, 1, "The four targets and your distances agree to within 0.1 mm. If they lie square"},
		{"middles, nothing typed", middlesOf(slices.Clone(cards)), Request{}, Corners, nil, 0, "1 to 2, across, and 2 to 3, down"},
		{"middles, typed wrong", middlesOf(slices.Clone(cards)), Request{Apart: [2]float64{400, 400}}, Corners, nil, 0, "do not lie as you typed"},
		{"three middles", middlesOf(slices.Clone(cards))[1:], Request{Apart: [2]float64{400, 570}}, Corners, []int{1}, 0, "card 1 is not found"},
		{"none", nil, Request{}, NoTargets, nil, 0, "no targets are found"},
		{"of no set", []target.Found{{Code: target.Codes - 1}}, Request{}, NoTargets, nil, 0, "no targets are found"},
	} {
		photo := wide()
		s := photo.sight(c.found)
		if s.Layout != c.layout || !slices.Equal(s.Missing, c.missing) {
			t.Errorf("%s: %q, missing %v", c.name, s.Layout, s.Missing)
		}
		c.ask.Reference, c.ask.Seen = Targets, s
		got, err := photo.Straighten(context.Background(), c.ask)
		if c.off == 0 {
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%s: %v", c.name, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if off := offOn(got); off > c.off {
			t.Errorf("%s: off by up to %.3f mm", c.name, off)
		}
		if !strings.Contains(got.Say, c.says) {
			t.Errorf("%s: says %q", c.name, got.Say)
		}
	}
}

// Strips teach the lens, which serves later photos of the same camera; a sheet
// beside the piece does not.
func TestStripsTeachTheLens(t *testing.T) {
	photo := wide()
	s, err := photo.Straighten(context.Background(), Request{Reference: Targets, Seen: photo.sight(found(fourStrips, 1))})
	if err != nil {
		t.Fatal(err)
	}
	if s.Learnt == nil || s.Learnt.Camera != "Fennel F4" || math.Abs(s.Learnt.K1-0.02) > 0.0005 {
		t.Fatalf("learnt %+v", s.Learnt)
	}
	sheet := photo.sight(found(uncut(target.Corners, lying(60, -20, 30)), 1))
	later, err := photo.Straighten(context.Background(), Request{Reference: Targets, Seen: sheet, Lenses: []straight.KnownLens{*s.Learnt}})
	if err != nil || later.Learnt != nil || later.Map.Lens.K1 != s.Learnt.K1 {
		t.Errorf("with the lens known: %+v, %v", later, err)
	}
	if own, _ := photo.Straighten(context.Background(), Request{Reference: Targets, Seen: sheet}); own.Learnt != nil {
		t.Error("a sheet beside the piece teaches a lens")
	}
	wrong := *s.Learnt
	wrong.K1 = -0.03
	again, err := photo.Straighten(context.Background(), Request{Reference: Targets, Seen: photo.sight(found(fourStrips, 1)), Lenses: []straight.KnownLens{wrong}})
	if err != nil || again.Learnt == nil || math.Abs(again.Map.Lens.K1-0.02) > 0.0005 {
		t.Errorf("a lens known wrongly is believed before the strips: %+v, %v", again, err)
	}
	photo.Picture.Camera = ""
	if s, _ = photo.Straighten(context.Background(), Request{Reference: Targets, Seen: photo.sight(found(fourStrips, 1))}); s.Learnt != nil {
		t.Error("a camera without a name teaches a lens")
	}
}

// Cards printed at 97 % are noticed by a distance that was measured, whether
// between two cards or drawn in the photo, and put right by it.
func TestTargetsPrintedTooSmallAreNoticed(t *testing.T) {
	const want = "printed at about 97 %: print them again at 100 %"
	for name, c := range map[string]struct {
		parts []laidPart
		ask   Request
	}{
		"cards, one distance":  {fourCards, Request{Apart: [2]float64{400, 0}}},
		"cards, two distances": {fourCards, Request{Apart: [2]float64{400, 570}}},
		"strips, a drawn line": {fourStrips, Request{Known: []straight.Known{{
			From: overhead(geom.Pt(-100, -150)), To: overhead(geom.Pt(80, 90)), MM: 300, // 180, 240, 300
		}}}},
	} {
		photo := wide()
		c.ask.Reference, c.ask.Seen = Targets, photo.sight(found(c.parts, 0.97))
		s, err := photo.Straighten(context.Background(), c.ask)
		if err != nil || !strings.Contains(s.Say, want) || !strings.Contains(s.Say, "3.0 % too large") {
			t.Errorf("%s: says %q, %v", name, s.Say, err)
			continue
		}
		if off := offOn(s); off > 0.05 {
			t.Errorf("%s: put right, off by up to %.3f mm", name, off)
		}
	}
}

// However the camera was turned, the paper comes to lie as the cards are numbered,
// to the nearest quarter turn; strips leave it as the photo was taken.
func TestCardsTellWhichWayIsUp(t *testing.T) {
	for _, degrees := range []float64{0, 38, 90, 95, 180, 215, 270, -35} {
		var parts []laidPart
		for _, l := range fourCards {
			l.at = lying(0, 0, degrees).Mul(l.at)
			parts = append(parts, l)
		}
		all := found(parts, 1)
		for name, c := range map[string]struct {
			found []target.Found
			ask   Request
		}{"cards": {all, Request{}}, "middles": {middlesOf(slices.Clone(all)), Request{Apart: [2]float64{400, 570}}}} {
			photo := wide()
			c.ask.Reference, c.ask.Seen = Targets, photo.sight(c.found)
			s, err := photo.Straighten(context.Background(), c.ask)
			if err != nil {
				t.Fatalf("%s turned by %g degrees: %v", name, degrees, err)
			}
			v := s.Map.MM(c.ask.Seen.Middles[1]).Sub(s.Map.MM(c.ask.Seen.Middles[0]))
			if math.Abs(v.Len()-400) > 2 || math.Abs(math.Atan2(v.Y, v.X)) > 46*math.Pi/180 {
				t.Errorf("%s turned by %g degrees: from 1 to 2 it goes %.0f right, %.0f down", name, degrees, v.X, v.Y)
			}
			if !s.Bounds.Contains(s.Map.MM(geom.Pt(1500, 2000))) {
				t.Errorf("%s turned by %g degrees: the middle of the photo is not on the paper %v", name, degrees, s.Bounds)
			}
		}
	}
}

// In a photo of four strips all targets are found by themselves, and the paper
// between them is flat to 0.2 mm.
func TestTargetsOfAPhoto(t *testing.T) {
	var pairs []straight.Pair
	for i := range 25 {
		mm := geom.Pt(120*float64(i%5-2), 160*float64(i/5-2))
		pairs = append(pairs, straight.Pair{Pixel: overhead(mm), MM: mm})
	}
	half := math.Hypot(1500, 2000)
	m, off, err := straight.Solve(pairs, straight.Options{FitLens: true, Lens: straight.Lens{Centre: geom.Pt(1500, 2000), Scale: half}})
	if err != nil || off.Worst > 1e-3 {
		t.Fatalf("the test's own camera: %v, %v", off, err)
	}
	photo := wide()
	photo.Picture.Color = rgba(image.NewGray(image.Rect(0, 0, 1, 1)))
	drawTargets(photo.Picture.Gray, m, fourStrips)
	s, err := photo.Straighten(context.Background(), Request{Reference: Targets})
	if err != nil || s.Points != 20 {
		t.Fatalf("%d targets: %v", s.Points, err)
	}
	if off := offOn(s); off > 0.2 {
		t.Errorf("off by up to %.2f mm; it says %q", off, s.Say)
	} else {
		t.Logf("off by up to %.3f mm; it says %q", off, s.Say)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := photo.Straighten(ctx, Request{Reference: Targets}); err == nil {
		t.Error("went on after it was called off")
	}
}

// drawTargets draws a grey table with parts on it: each pixel the mean of three
// by three looks.
func drawTargets(g *image.Gray, m straight.Map, parts []laidPart) {
	for i := range g.Pix {
		g.Pix[i] = 110
	}
	for _, f := range found(parts, 1) {
		spot, _ := target.SpotOf(f.Code)
		back := geom.Identity()
		for _, l := range parts {
			if l.set == spot.Set && l.part == spot.Part {
				back, _ = l.at.Inverse()
			}
		}
		const reach = 80 // px
		for y := int(f.Centre.Y) - reach; y < int(f.Centre.Y)+reach; y++ {
			for x := int(f.Centre.X) - reach; x < int(f.Centre.X)+reach; x++ {
				if x < 0 || y < 0 || x >= g.Rect.Dx() || y >= g.Rect.Dy() {
					continue
				}
				sum := 0
				for k := range 9 {
					px := geom.Pt(float64(x)+(float64(k%3)+0.5)/3, float64(y)+(float64(k/3)+0.5)/3)
					v := back.Apply(m.MM(px)).Sub(spot.On)
					switch {
					case v.Len() > target.White*spot.Radius:
						sum += 110
					case target.Dark(f.Code, geom.Point(v.Scale(1/spot.Radius))):
						sum += 30
					default:
						sum += 215
					}
				}
				g.Pix[y*g.Stride+x] = uint8(sum / 9)
			}
		}
	}
}
