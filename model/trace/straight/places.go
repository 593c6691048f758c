package straight

import (
	"image"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Placed is a photo straightened by places of known mm.
type Placed struct {
	Map    Map
	Misfit Misfit
	Within float64 // mm the paper between the places may be off, as sure as two in three
	Far    float64 // mm the photo may be off but for a tenth at its sides, likewise
	Bend   float64 // how unsure Map.Lens.K1 is, likewise; 0 where the lens was known
}

// Group is places that keep their shape among each other, such as the targets of
// one printed strip; where it lies on the paper is not known. MM counts within
// the group.
type Group []Pair

// FromGroups straightens a photo by groups of places, each known to about
// noise mm within its group. The pose of the camera and the bend of its lens are settled
// so that every group keeps its shape, with what is usual of cameras as weak
// evidence (pose); where a group lies needs no finding of its own, as its best
// place follows from the map by a rigid fit. One group of four places or more
// will do: then its shape says all. Millimetres of the map count from what the
// photo shows in its middle, upright as displayed. Rounds may be none.
//
// It is an error where the places are too few or lie too nearly on one line.
func FromGroups(groups []Group, rounds []Round, size image.Point, shot Shot, noise float64) (Placed, error) {
	g := grouped{camera: newCamera(size, shot, true), groups: groups, rounds: rounds}
	for i, all := range groups {
		for _, p := range all {
			if !p.Pixel.Finite() || !p.MM.Finite() {
				return Placed{}, words.Errorf("straightening: group %d has a place that is no ordinary one", i+1)
			}
		}
		g.places += len(all)
	}
	if g.places < leastPlaces {
		return Placed{}, words.Errorf("straightening: %d places are found, at least %d are needed", g.places, leastPlaces)
	}
	if shot.Focal35 <= 0 && len(groups) > 1 {
		g.doubt = anyFocalDoubt
	}
	var ok bool
	if g.dist, ok = g.distance(); !ok {
		return Placed{}, errOneLine
	}
	x := g.settle(g.start(), noise)
	said := noise
	for range 2 {
		noise = g.told(said, g.off(g.with(x)))
		x = g.settle(x, noise)
	}
	p := g.with(x)
	out := Placed{Map: p.full(), Misfit: g.off(p)}
	g.doubts(&out, x, noise)
	if !(out.Within <= mostWithin) {
		return Placed{}, errOneLine
	}
	return out, nil
}

const (
	leastPlaces = 4    // are needed to tell how the camera was held
	mostWithin  = 25.0 // mm: more unsure than that, nothing is decided
	startNoise  = 0.1  // mm, until the places tell
	sides       = 0.1  // of a photo, where no piece lies
	// anyFocalDoubt is focalDoubt where groups on several sides tell the
	// perspective themselves: any of a phone's cameras may be meant.
	anyFocalDoubt = 0.4
)

// told is how far places are off, by what was said beforehand, which counts as
// beforehand looks, and by what the places say of each other: few that agree by
// chance make little surer.
func (g grouped) told(said float64, f Misfit) float64 {
	const beforehand = 4.0
	free := max(2*g.places-3*len(g.groups)-poseUnknowns, 0)
	sum := beforehand*said*said + f.RMS*f.RMS*float64(g.places)
	return max(math.Sqrt(sum/(beforehand+float64(free))), leastNoise)
}

// grouped is the finding of a camera by groups of known shape. Its unknowns are
// the tilt two ways and the distance, all in hundredths, then what is doubted of
// the camera: focal length, middle, and bend where it is not known.
type grouped struct {
	camera
	groups []Group
	rounds []Round
	places int
	dist   float64 // mm, about
}

// poseUnknowns come first of the unknowns; what follows is held by the camera's
// usual values.
const poseUnknowns = 3

func (g grouped) unknowns() int {
	if g.bent {
		return poseUnknowns + 4
	}
	return poseUnknowns + 3
}

func (g grouped) rows() int {
	n := 2*g.places + g.unknowns() - poseUnknowns
	for _, r := range g.rounds {
		n += len(r.Edge)
	}
	return n
}

// distance is about how far the camera was, by the longest distance in a group.
func (g grouped) distance() (float64, bool) {
	px, mm := 0.0, 0.0
	for _, all := range g.groups {
		for i, a := range all {
			for _, b := range all[:i] {
				if d := a.MM.Dist(b.MM); d > mm {
					mm, px = d, a.Pixel.Dist(b.Pixel)
				}
			}
		}
	}
	return g.focal * mm / px, mm > 0 && px > 0
}

// with is the camera of the unknowns x.
func (g grouped) with(x []float64) pose {
	p := pose{focal: g.focal * math.Exp(x[3]*g.doubt), lens: g.lens, turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}
	p = p.turned(x[0]*1e-2, x[1]*1e-2, 0)
	p.move = [3]float64{0, 0, g.dist * math.Exp(x[2]*1e-2)}
	p.eye = middle(g.size).Add(geom.Vec{X: x[4], Y: x[5]}.Scale(eyeDoubt * longSide(g.size)))
	if g.bent {
		p.lens.K1 = x[6] * bendDoubt
	}
	return p
}

// start settles the camera from looking straight down, and from tilts all round
// where that does not come out right, and gives the best.
func (g grouped) start() []float64 {
	const tilt = 0.45 * 100 // 26 degrees
	var best []float64
	least := math.Inf(1)
	for _, way := range []geom.Vec{{}, {X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
		x := make([]float64, g.unknowns())
		x[0], x[1] = tilt*way.X, tilt*way.Y
		x = g.settle(x, startNoise)
		if off := sumSquares(g.residuals(x, startNoise)); off < least {
			best, least = x, off
		}
		if least < 3*float64(g.rows()) {
			break
		}
	}
	return best
}

func (g grouped) settle(x []float64, noise float64) []float64 {
	return leastSquares(func(x, out []float64) { copy(out, g.residuals(x, noise)) }, x, g.rows())
}

// residuals are what the places are off, in noise, what the rounds are out of
// round, and what the camera is off the usual, both in their doubts.
func (g grouped) residuals(x []float64, noise float64) []float64 {
	out := make([]float64, 0, g.rows())
	m := g.with(x).full()
	g.each(m, func(d geom.Vec) { out = append(out, d.X/noise, d.Y/noise) })
	for _, r := range g.rounds {
		r.outOfRound(m, func(d float64) { out = append(out, d) })
	}
	return append(out, x[poseUnknowns:]...)
}

// each tells of every place how far m takes it from where its group has it.
func (g grouped) each(m Map, tell func(geom.Vec)) {
	for _, all := range g.groups {
		from, to := make([]geom.Point, len(all)), make([]geom.Point, len(all))
		for i, p := range all {
			from[i], to[i] = p.MM, m.MM(p.Pixel)
		}
		t, _ := geom.RigidFit(from, to)
		for i := range all {
			tell(to[i].Sub(t.Apply(from[i])))
		}
	}
}

// off is the misfit of a camera.
func (g grouped) off(p pose) Misfit {
	f := Misfit{Points: g.places}
	g.each(p.full(), func(d geom.Vec) {
		f.RMS += d.Dot(d)
		f.Worst = max(f.Worst, d.Len())
	})
	f.RMS = math.Sqrt(f.RMS / float64(g.places))
	return f
}

// doubts tells in out how unsure the unknowns x leave the photo, by how far the
// places are off.
func (g grouped) doubts(out *Placed, x []float64, noise float64) {
	residuals := func(x, out []float64) { copy(out, g.residuals(x, noise)) }
	out.Within, out.Far = math.Inf(1), math.Inf(1)
	cov, ok := covariance(residuals, x, g.rows())
	if !ok {
		return
	}
	if g.bent {
		out.Bend = math.Sqrt(cov.At(6, 6)) * bendDoubt
	}
	var px []geom.Point
	for _, all := range g.groups {
		for _, p := range all {
			px = append(px, p.Pixel)
		}
	}
	still := inMM(g.with(x).full(), px)
	// The paper's frame hangs on the camera here: what moves all is no error.
	to := func(x []float64) func(geom.Point) geom.Point {
		m := g.with(x).full()
		back, _ := geom.RigidFit(inMM(m, px), still)
		return func(p geom.Point) geom.Point { return back.Apply(m.MM(p)) }
	}
	out.Within = carried(cov, x, boxAlong(px), to)
	var far []geom.Point
	for _, p := range rim(g.size) {
		far = append(far, p.Lerp(middle(g.size), 2*sides))
	}
	out.Far = max(out.Within, carried(cov, x, far, to))
}

func inMM(m Map, px []geom.Point) []geom.Point {
	out := make([]geom.Point, len(px))
	for i, p := range px {
		out[i] = m.MM(p)
	}
	return out
}
