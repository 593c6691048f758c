package straight

import (
	"context"
	"fmt"
	"image"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// Paper is a rectangle of known size laid beside a piece.
type Paper struct {
	Name          string
	Width, Height float64 // mm, upright
	corner        float64 // mm at each corner that are no straight edge
	rough         bool
}

// The papers that are known: ISO 216, ANSI/ASME Y14.1 (8 1/2 by 11 in) and
// ISO/IEC 7810 ID-1 (radius of its corners 3.18 mm). A page is cut to within
// 2 mm of its size (ISO 216, clause 5), in a packet far better.
// words: none
var (
	A4     = Paper{Name: "A4 page", Width: 210, Height: 297, corner: 4}
	Letter = Paper{Name: "Letter page", Width: 215.9, Height: 279.4, corner: 4}
	Card   = Paper{Name: "bank card", Width: 53.98, Height: 85.60, corner: 5, rough: true}
)

// paperWords are what the papers are called, by their names.
var paperWords = map[string]words.Text{A4.Name: "A4 page", Letter.Name: "Letter page", Card.Name: "bank card"}

// said is what the paper is called in the language in use.
func (p Paper) said() string {
	if t, ok := paperWords[p.Name]; ok {
		return t.String()
	}
	return p.Name
}

// Shot is what is known of the photo beforehand.
type Shot struct {
	Focal35 float64 // mm on the 35 mm frame, 0 unknown
	Lens    *Lens   // known from an earlier photo, nil to find it where the paper allows
	// Color is the photo in colours, looked at where the paper is as bright as
	// what it lies on; nil does without.
	Color *image.RGBA
}

// Sheet is a photo straightened by a paper laid beside the piece.
type Sheet struct {
	Map     Map
	Misfit  Misfit        // of the paper's edges
	Corners [4]geom.Point // where the paper's corners lie in the photo, clockwise from its top left
	Far     float64       // mm the far corners of the photo may be off, as sure as two in three
	Rough   bool          // good for a check, not to trace from
}

// The far corners may be this much off, as sure as two in three, for a page to
// trace by: the piece lies between it and them, and came out better in nineteen
// of twenty rendered photos.
const (
	goodFar = 0.8
	fairFar = 1.5
)

// Say is what the paper is good for; small amounts are in mm in every unit, as
// in Misfit.Say.
func (s Sheet) Say(measure.Unit) string {
	far := words.F("far from it the photo may be %s mm off", words.Figure(max(s.Far, 0.1), 1))
	switch {
	case s.Rough:
		return words.F("A card is too small to trace by: far from it the photo may be %.0f mm off. Use it as a rough check only.", math.Ceil(max(2*s.Far, 1)))
	case s.Misfit.RMS > goodWorst:
		return words.F("The paper's edges are up to %s mm off: lay it flat and take the photo again.", words.Figure(s.Misfit.Worst, 1))
	case s.Far <= goodFar:
		return words.F("Its edges agree and %s, good enough to trace.", far)
	case s.Far <= fairFar:
		return words.F("Its edges agree and %s: you can trace it, but the paper nearer to the piece would do better.", far)
	}
	return words.F("Its edges agree, but %s: take it again with the paper nearer to the piece, and both larger.", far)
}

// FromSheet straightens a photo by the four clicked corners of a paper, in any
// order. The clicks say only where to look: the paper's four edges are found in
// the picture to a part of a pixel, and the pose of the camera, its focal length
// and the bend of its lens are settled so that they come out straight and at
// their true places. Millimetres count from the corner of the paper that is
// nearest to the top left of the photo.
func FromSheet(ctx context.Context, g *image.Gray, clicks [4]geom.Point, paper Paper, shot Shot) (Sheet, error) {
	doing := words.F("straightening by the %s", paper.said())
	corners, err := clockwise(g, clicks)
	if err != nil {
		return Sheet{}, fmt.Errorf("%s: %w", doing, err)
	}
	size := g.Rect.Size()
	c := newCamera(size, shot, !paper.rough)
	w, h, err := c.lie(corners, paper)
	if err != nil {
		return Sheet{}, fmt.Errorf("%s: %w", doing, err)
	}
	edges, err := seekEdges(ctx, append([]*image.Gray{g}, planes(shot.Color)...), corners, paper.corner/w, paper.corner/h)
	if err != nil {
		return Sheet{}, fmt.Errorf("%s: %w", doing, err)
	}
	page := [4]geom.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}
	var places []beside
	for i, e := range edges {
		along := page[(i+1)%4].Sub(page[i]).Unit()
		for _, p := range e.at {
			places = append(places, beside{p, page[i], along.Perp()})
		}
	}
	start, err := fourPoints(corners, page, c.lens)
	if err != nil {
		return Sheet{}, fmt.Errorf("%s: %w", doing, err)
	}
	p := poseOf(inverse3(start.H), c.focal, middle(size))
	p.lens = c.lens
	far := rim(size)
	parts := math.Sqrt(float64(len(places)) / edgeParts)
	p, _ = c.settled(p, places, edgeNoise*parts, far)
	noise := max(edgesMisfit(p.full(), places).RMS, leastNoise)
	p, doubt := c.settled(p, places, noise*parts, far)
	s := Sheet{Map: p.full(), Far: doubt, Rough: paper.rough}
	for i := range page {
		s.Corners[i] = s.Map.Pixel(page[i])
	}
	s.Misfit = edgesMisfit(s.Map, places)
	return s, nil
}

// An edge of a page is taken as straight and found to edgeNoise mm until the
// edges themselves tell, and never as better than leastNoise. What is off at
// one place of an edge is off beside it as well, so that all four edges count
// as edgeParts looks that are free of each other (by trial).
const (
	edgeNoise  = 0.06
	leastNoise = 0.012
	edgeParts  = 32
)

func newCamera(size image.Point, shot Shot, findLens bool) camera {
	c := camera{size: size, focal: focalPx(usualFocal35, size), doubt: focalDoubt}
	if shot.Focal35 > 0 {
		c.focal, c.doubt = focalPx(shot.Focal35, size), statedDoubt
	}
	c.lens = Lens{Centre: middle(size), Scale: math.Hypot(float64(size.X), float64(size.Y)) / 2}
	if shot.Lens != nil {
		c.lens = *shot.Lens
	}
	c.bent = findLens && shot.Lens == nil
	return c
}

// clockwise sorts four clicked corners clockwise from the one nearest to the
// photo's top left.
func clockwise(g *image.Gray, clicks [4]geom.Point) ([4]geom.Point, error) {
	var mid geom.Vec
	for i, p := range clicks {
		if !p.Finite() || !inside(g, p, 0) {
			return clicks, words.Errorf("corner %d lies outside the photo, click it again", i+1)
		}
		mid = mid.Add(geom.Vec(p).Scale(0.25))
	}
	first := 0
	for i, p := range clicks {
		if p.X+p.Y < clicks[first].X+clicks[first].Y {
			first = i
		}
	}
	angle := func(p geom.Point) float64 {
		a, b := clicks[first].Sub(geom.Point(mid)), p.Sub(geom.Point(mid))
		t := math.Atan2(a.Cross(b), a.Dot(b))
		if t < -1e-9 {
			t += 2 * math.Pi
		}
		return t
	}
	out := clicks
	for i := range out {
		for j := i; j > 0 && angle(out[j]) < angle(out[j-1]); j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	for i := range out {
		a, b := out[(i+1)%4].Sub(out[i]), out[(i+2)%4].Sub(out[(i+1)%4])
		if a.Len() < 30 || a.Unit().Cross(b.Unit()) < 0.2 {
			return clicks, words.Errorf("the four places do not make a rectangle, click each corner once")
		}
	}
	return out, nil
}

// lie tells whether the paper lies upright or sideways, by what its sides would
// measure for the camera, and refuses what cannot be that paper.
func (c camera) lie(corners [4]geom.Point, paper Paper) (w, h float64, err error) {
	unit := [4]geom.Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 1}}
	m, err := fourPoints(corners, unit, c.lens)
	if err != nil {
		return 0, 0, err
	}
	f, eye := c.focal, middle(c.size)
	k := times3([9]float64{1 / f, 0, -eye.X / f, 0, 1 / f, -eye.Y / f, 0, 0, 1}, inverse3(m.H))
	shape := norm3([3]float64{k[0], k[3], k[6]}) / norm3([3]float64{k[1], k[4], k[7]})
	want := paper.Width / paper.Height
	upright, sideways := math.Abs(math.Log(shape/want)), math.Abs(math.Log(shape*want))
	if min(upright, sideways) > math.Log(1.2) {
		return 0, 0, words.Errorf("the four places do not have the shape of one, click its corners again or choose another paper")
	}
	if upright <= sideways {
		return paper.Width, paper.Height, nil
	}
	return paper.Height, paper.Width, nil
}

// fourPoints is the perspective through four places.
func fourPoints(px, mm [4]geom.Point, l Lens) (Map, error) {
	pairs := make([]Pair, 4)
	for i := range pairs {
		pairs[i] = Pair{px[i], mm[i]}
	}
	h, err := direct(pairs, l)
	return Map{Lens: l, H: h}, err
}

// sideNames are the edges clockwise from the one after the first corner.
var sideNames = []words.Text{"top edge", "right edge", "bottom edge", "left edge"}

// leastShare is how much of each edge must be made out.
const leastShare = 0.4

// seekEdges finds a paper's four edges in one of the pictures, all stepping the
// same way: it is lighter than what it lies on, or darker. The first picture
// that shows all four decides. skipW and skipH are the shares of its sides at
// each corner that are left out.
func seekEdges(ctx context.Context, pictures []*image.Gray, corners [4]geom.Point, skipW, skipH float64) ([4]edgeFound, error) {
	var missing string
	for _, g := range pictures {
		var best [4]edgeFound
		weakest, most := 0, -1.0
		for _, sign := range []float64{-1, 1} {
			if err := ctx.Err(); err != nil {
				return best, words.Errorf("finding its edges: %w", err)
			}
			edges := oneWay(g, corners, skipW, skipH, sign)
			w := 0
			for i := range edges {
				if edges[i].clear() < edges[w].clear() {
					w = i
				}
			}
			if edges[w].clear() > most {
				most, best, weakest = edges[w].clear(), edges, w
			}
		}
		if best[weakest].share >= leastShare {
			return best, nil
		}
		if missing == "" {
			missing = sideNames[weakest].String()
		}
	}
	return [4]edgeFound{}, words.Errorf("its %s cannot be made out, click the corners again in the close-up, or lay it on another colour", missing)
}

// clear is how plainly an edge is seen.
func (e edgeFound) clear() float64 { return e.share * min(e.step, 30) }

// oneWay finds a paper's four edges stepping outward by sign.
func oneWay(g *image.Gray, corners [4]geom.Point, skipW, skipH, sign float64) [4]edgeFound {
	var edges [4]edgeFound
	for i := range edges {
		a, b := corners[i], corners[(i+1)%4]
		skip := skipW
		if i%2 == 1 {
			skip = skipH
		}
		skip = max(skip, 4/a.Dist(b))
		outward := b.Sub(a).Unit().Perp().Scale(-1) // the corners go clockwise
		reach := min(max(12, 0.012*a.Dist(b)), 24)
		edges[i] = seekEdge(g, a, b, outward, skip, 1-skip, reach, sign)
	}
	return edges
}

// planes are the red, green and blue of c, each as a picture in grey.
func planes(c *image.RGBA) []*image.Gray {
	if c == nil {
		return nil
	}
	out := make([]*image.Gray, 3)
	for k := range out {
		g := image.NewGray(c.Rect)
		for y := range c.Rect.Dy() {
			row := c.Pix[y*c.Stride:]
			for x := range c.Rect.Dx() {
				g.Pix[y*g.Stride+x] = row[4*x+k]
			}
		}
		out[k] = g
	}
	return out
}

// edgesMisfit is how far m takes places from their edges, the worst hundredth
// left out as specks.
func edgesMisfit(m Map, places []beside) Misfit {
	off := make([]float64, len(places))
	f := Misfit{Points: len(places)}
	for i, b := range places {
		off[i] = math.Abs(b.off(m))
		f.RMS += off[i] * off[i]
	}
	f.RMS = math.Sqrt(f.RMS / float64(max(len(places), 1)))
	f.Worst = quantile(off, 0.99)
	return f
}
