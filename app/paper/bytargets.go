package paper

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
	"quarterstep/model/trace/target"
)

const (
	// targetNoise is how far, in mm, a target may lie from where its own strip or
	// card has it: what a home printer is off over 24 cm, beside which the finding
	// is nothing (common practice).
	targetNoise = 0.05
	// typedNoise is how far, in mm, a card may lie from the rectangle that was
	// typed: a tape measure, and corners squared by eye (common practice).
	typedNoise = 1.0
	// sureBend is how unsure the bend of a lens may be to be kept for later
	// photos: it moves what lies 30 cm from the middle of a photo of a metre by less
	// than a fifth of a millimetre.
	sureBend = 1.5e-3
	// mostLaidOff is how far, in mm, cards laid as a rectangle may be off it.
	mostLaidOff = 3.0
)

// byTargets straightens by our own targets. Each strip or card keeps its shape,
// so that they may lie anywhere; of cards of which only the middles are seen the
// two typed distances are needed, and that they lie square.
func (p *Photo) byTargets(ctx context.Context, r Request) (Straight, error) {
	s := r.Seen
	if len(s.Found) == 0 {
		var err error
		if s, err = p.FindTargets(ctx); err != nil {
			return Straight{}, err
		}
	}
	all := printed(s.Found)
	if two := twice(s.Found); len(two) > 0 {
		return Straight{}, words.Errorf("%s: take one of each away", s.twice(two))
	}
	switch {
	case len(all) == 0:
		return Straight{}, errNoTargets
	case s.Layout == Sheet:
		g, _ := onSheet(all)
		return p.byParts(r, s, []part{{set: all[0].Set, sheet: true, group: g}})
	case middlesOnly(all):
		return p.byRectangle(r, s)
	case len(all) == target.Parts && r.Apart != [2]float64{}:
		return p.byRectangle(r, singly(all, s.Found))
	}
	parts := partsOf(all)
	if len(parts) < 2 {
		return Straight{}, words.Errorf("only a part of the targets is found; %s: see that two at least lie on different sides of the piece, whole, flat, sharp and in even light", s.lacks())
	}
	return p.byParts(r, s, parts)
}

var errNoTargets = words.Fault("no targets are found in the photo: they must lie whole in it, flat, sharp and in even light, and not be too small: go nearer")

// byParts goes by the shapes of strips and cards. Where they tell how the lens
// bends they are believed before an earlier photo, and teach later ones.
func (p *Photo) byParts(r Request, s Sighting, parts []part) (Straight, error) {
	own := p.shot(r)
	known := own.Lens
	own.Lens = nil
	f, bent, err := flatParts(parts, p.Picture.Size(), own)
	sure := err == nil && f.Bend <= sureBend && s.Layout != Sheet
	if known != nil && !sure {
		own.Lens = known
		f, bent, err = flatParts(parts, p.Picture.Size(), own)
	}
	if err != nil {
		return Straight{}, err
	}
	out := Straight{Map: f.Map, Points: f.Misfit.Points, Say: s.say(f, bent) + s.sayFar(f), Covers: coversOf(f.Map, parts)}
	if sure {
		out.learn(p)
	}
	err = out.checkPrinted(r, r.Known, apart(r, s))
	return out.Turned(s.quarters(out.Map)), err
}

// byRectangle goes by the middles of four cards that lie as the corners of a
// rectangle.
func (p *Photo) byRectangle(r Request, s Sighting) (Straight, error) {
	if len(s.Missing) > 0 {
		return Straight{}, words.Errorf("%s: see that all four lie whole in the photo, flat, sharp and in even light", s.lacks())
	}
	if !(r.Apart[0] >= leastApart && r.Apart[1] >= leastApart) {
		return Straight{}, errApart
	}
	var g straight.Group
	for i, at := range [target.Parts]geom.Point{{}, {X: r.Apart[0]}, {X: r.Apart[0], Y: r.Apart[1]}, {Y: r.Apart[1]}} {
		g = append(g, straight.Pair{Pixel: s.Middles[i], MM: at})
	}
	f, err := straight.FromGroups([]straight.Group{g}, rounds(s), p.Picture.Size(), p.shot(r), typedNoise)
	if err != nil || f.Misfit.Worst > mostLaidOff {
		return Straight{}, errNotAsTyped
	}
	out := Straight{Map: f.Map, Points: f.Misfit.Points, Covers: singleCovers(f.Map, s), Say: words.F(
		"The four targets and your distances agree to within %s mm. If they lie square, the picture is right to about %.0f mm; strips or whole cards do better.",
		words.Figure(max(f.Misfit.Worst, 0.1), 1), max(math.Ceil(f.Within), 1))}
	err = out.checkPrinted(r, r.Known, nil)
	return out.Turned(s.quarters(out.Map)), err
}

// rounds are the rings of all targets found: of a few they tell how the lens
// bends where their places cannot.
func rounds(s Sighting) []straight.Round {
	var out []straight.Round
	for _, f := range s.Found {
		if f.Rim != [target.RimPlaces]geom.Point{} {
			out = append(out, straight.Round{Middle: f.Centre, Edge: slices.Clone(f.Rim[:])})
		}
	}
	return out
}

// quarters is by how many quarter turns to the right the cards come to lie as
// they are numbered, 1 at the upper left: a photo from straight above often does
// not know which way up it is. 0 where fewer than three are seen.
func (s Sighting) quarters(m straight.Map) int {
	var as, are []geom.Point
	for i, px := range s.Middles {
		if px != (geom.Point{}) {
			as, are = append(as, target.Corner(i)), append(are, m.MM(px))
		}
	}
	if s.Layout != Corners || len(as) < 3 {
		return 0
	}
	t, _ := geom.RigidFit(are, as)
	return int(math.Round(math.Atan2(t.B, t.A) / (math.Pi / 2)))
}

// singly are four targets cut out one by one and laid as the corners of a
// rectangle, in the order of their codes.
func singly(all []seen, found []target.Found) Sighting {
	slices.SortFunc(all, func(a, b seen) int { return a.code - b.code })
	s := Sighting{Found: found, Layout: Corners}
	for i, t := range all {
		s.Middles[i] = t.px
	}
	return s
}

// leastApart is the least distance of two cards that can be typed, in mm.
const leastApart = 50

var errApart = words.Fault("type how far apart the targets lie, from middle to middle: 1 to 2, across, and 2 to 3, down")

var errNotAsTyped = words.Fault("the targets do not lie as you typed: measure 1 to 2 and 2 to 3 again, from middle to middle, and see that they lie square, in the order of a clock")

// apart are the typed distances of the cards, as lengths known in the photo.
func apart(r Request, s Sighting) []straight.Known {
	var out []straight.Known
	for i, mm := range r.Apart {
		if a, b := s.Middles[i], s.Middles[i+1]; mm > 0 && a != (geom.Point{}) && b != (geom.Point{}) {
			out = append(out, straight.Known{From: a, To: b, MM: mm})
		}
	}
	return out
}

// checkPrinted holds the map to lengths that were measured, as a printer may
// have made the targets smaller.
func (s *Straight) checkPrinted(r Request, drawn, between []straight.Known) error {
	known := append(append([]straight.Known(nil), drawn...), between...)
	if len(known) == 0 {
		return nil
	}
	d, err := straight.Measure(s.Map, known)
	if err != nil {
		return err
	}
	s.Map, s.Off, s.Say = d.Map, d.Off, s.Say+" "+d.SayPrinted(r.Unit)
	return nil
}

// The picture may be this unsure between the targets, in mm, to be traced from
// without a thought, and at all; and the targets this far off their places.
const (
	goodWithin = 0.5
	fairWithin = 1.2
	goodOff    = 0.6
	// A piece beside a whole sheet lies nearer to it than the far corners of the
	// photo: it came out better than this share of what they may be off in all of
	// twenty rendered photos.
	besideShare = 0.5
)

// say is how far a photo straightened by targets is to be trusted.
func (s Sighting) say(f straight.Placed, bent *part) string {
	told := words.F("the %d targets agree to within %s mm", f.Misfit.Points, words.Figure(max(f.Misfit.Worst, 0.1), 1))
	if bent != nil {
		told = words.F("%s does not lie flat and is left out; %s", bent, told)
	}
	if len(s.Missing) > 0 {
		told = s.lacks() + "; " + told
	}
	told = upper(told)
	right, sure := words.T("between them the picture is right to about %s mm"), f.Within
	if s.Layout == Sheet {
		right, sure = words.T("beside them the picture is right to about %s mm"), f.Far*besideShare
	}
	sureWords := fmt.Sprintf(right, words.Figure(max(sure, 0.1), 1))
	switch {
	case f.Misfit.Worst > goodOff:
		return words.F("%s: lay them flat, each strip or card in one piece, and take the photo again.", told)
	case sure <= goodWithin:
		return words.F("%s and %s, good enough to trace.", told, sureWords)
	case sure <= fairWithin:
		return words.F("%s and %s: you can trace it, but %s.", told, sureWords, s.better())
	}
	return words.F("%s, but %s: %s.", told, sureWords, s.better())
}

// sayFar warns of what lies in the photo far from all strips and cards; empty
// where that is as good.
func (s Sighting) sayFar(f straight.Placed) string {
	if s.Layout == Sheet || f.Far <= goodWithin || f.Far < 2*f.Within || f.Misfit.Worst > goodOff {
		return ""
	}
	return words.F(" Far from them it may be off by %s mm: lay one on that side too, or trace nothing there.", words.Figure(f.Far, 1))
}

func (s Sighting) better() string {
	if s.Layout == Sheet {
		return words.T("cut apart and laid round the piece they would do better")
	}
	return words.T("one on each side of the piece would do better")
}

// lacks names the strips or cards that are not found.
func (s Sighting) lacks() string {
	which := numbers(s.Missing)
	if s.Layout == Corners {
		return words.N(len(s.Missing), "card %s is not found", "cards %s are not found", which)
	}
	return words.N(len(s.Missing), "strip %s is not found", "strips %s are not found", which)
}

// twice names strips or cards that are seen twice.
func (s Sighting) twice(all []int) string {
	if s.Layout == Corners {
		return words.N(len(all), "card %s is in the photo twice", "cards %s are in the photo twice", numbers(all))
	}
	return words.N(len(all), "strip %s is in the photo twice", "strips %s are in the photo twice", numbers(all))
}

// numbers are numbers in a sentence: "1, 2 and 4".
func numbers(all []int) string {
	said := make([]string, len(all))
	for i, n := range all {
		said[i] = strconv.Itoa(n)
	}
	last := len(said) - 1
	if last < 1 {
		return strings.Join(said, "")
	}
	return words.F("%s and %s", strings.Join(said[:last], ", "), said[last])
}

func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
