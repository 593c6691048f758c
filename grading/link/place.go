package link

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

const (
	arcTol = 1e-4
	// stillWithin is how far, in mm, printed sizes may differ in where the
	// follower lies by its leader before the difference is carried on.
	stillWithin = 0.05
	// noTurn is the angle in radians below which a printed turn between leader
	// and follower is taken for drawing noise: 0.2 degrees.
	noTurn = 0.2 * math.Pi / 180
)

// ErrGone says that a link names a piece or an edge that is not there.
var ErrGone = words.Fault("names a piece or an edge that is not there")

// Placing is where a follower's stretch lies by its leader's, read from the
// printed sizes they share.
type Placing struct {
	Link         model.Link
	lead, follow int // piece indices
	leadEdges    []int
	followEdges  []int
	places       []float64 // chart places of the shared printed sizes
	lay          []geom.Affine
	from, to     [][]geom.Point // places along both lines, by size
	// Misfit is how far the two lines are apart in print at worst, mm.
	Misfit float64
}

// Read works out the placing of a same-line link of p.
func Read(p model.Pattern, l model.Link) (*Placing, error) {
	out := &Placing{Link: l, lead: p.PieceIndex(l.Lead.Piece), follow: p.PieceIndex(l.Follow.Piece)}
	if out.lead < 0 || out.follow < 0 {
		return nil, ErrGone
	}
	var err error
	if out.leadEdges, err = edgesOf(p.Pieces[out.lead], l.Lead); err != nil {
		return nil, err
	}
	if out.followEdges, err = edgesOf(p.Pieces[out.follow], l.Follow); err != nil {
		return nil, err
	}
	for _, o := range p.Pieces[out.lead].Nest {
		f, ok := p.Pieces[out.follow].Printed(o.Size)
		place, known := p.Chart.Place(o.Size)
		if !ok || !known {
			continue
		}
		if err := out.add(float64(place), o, f); err != nil {
			return nil, words.Errorf("laying %s along %s in size %s: %w",
				p.Pieces[out.follow].Name, p.Pieces[out.lead].Name, o.Size, err)
		}
	}
	if len(out.lay) == 0 {
		return nil, words.Errorf("%s and %s have no printed size in common",
			p.Pieces[out.lead].Name, p.Pieces[out.follow].Name)
	}
	return out, nil
}

func edgesOf(q model.Piece, s model.Stretch) ([]int, error) {
	out := make([]int, len(s.Edges))
	for i, id := range s.Edges {
		if out[i] = q.EdgeIndex(id); out[i] < 0 {
			return nil, ErrGone
		}
	}
	if len(out) == 0 {
		return nil, ErrGone
	}
	return out, nil
}

// add reads one printed size.
func (pl *Placing) add(place float64, lead, follow model.Outline) error {
	const samples = 24
	a, err := geom.Measure(walk(lead.Edges, pl.leadEdges, pl.Link.Lead.Reverse), arcTol)
	if err != nil {
		return err
	}
	b, err := geom.Measure(walk(follow.Edges, pl.followEdges, pl.Link.Follow.Reverse), arcTol)
	if err != nil {
		return err
	}
	from, to := make([]geom.Point, samples+1), make([]geom.Point, samples+1)
	for i := range from {
		u := float64(i) / samples
		from[i], to[i] = a.At(u*a.Length()), b.At(u*b.Length())
	}
	lay := fitted(from, to)
	for i := range from {
		pl.Misfit = math.Max(pl.Misfit, lay.Apply(from[i]).Dist(to[i]))
	}
	pl.places = append(pl.places, place)
	pl.lay, pl.from, pl.to = append(pl.lay, lay), append(pl.from, from), append(pl.to, to)
	return nil
}

// fitted lays from on to as a stiff sheet, turned only where that is no noise.
func fitted(from, to []geom.Point) geom.Affine {
	lay, _ := geom.RigidFit(from, to)
	if math.Abs(math.Atan2(lay.B, lay.A)) < noTurn {
		lay, _ = geom.TranslateFit(from, to)
	}
	return lay
}

// beside is pl laid together with the other placings of its leader, so that
// lines that meet on the leader meet on the follower.
func beside(pls []*Placing, pl *Placing) *Placing {
	out := &Placing{places: pl.places, lay: append([]geom.Affine(nil), pl.lay...)}
	for k, place := range pl.places {
		var from, to []geom.Point
		for _, other := range pls {
			if i := slices.Index(other.places, place); other.lead == pl.lead && i >= 0 {
				from, to = append(from, other.from[i]...), append(to, other.to[i]...)
			}
		}
		if len(from) > len(pl.from[k]) {
			out.lay[k] = fitted(from, to)
		}
	}
	return out
}

// walk joins the named edges of an outline in the order they are walked.
func walk(edges []geom.Path, which []int, reverse bool) geom.Path {
	var out geom.Path
	for _, j := range which {
		e := edges[j]
		if reverse {
			e = e.Reverse()
		}
		out = append(out, e...)
	}
	return out
}

// at is where the leader's line goes for place t of the chart. Where printed
// sizes lie alike, as they lie on the mean; else as the nearest size lies,
// shifted on by the mean printed shift per step.
func (pl *Placing) at(t float64) geom.Affine {
	near := 0
	var e, f float64
	for i, lay := range pl.lay {
		if math.Abs(pl.places[i]-t) <= math.Abs(pl.places[near]-t) {
			near = i
		}
		e += lay.E / float64(len(pl.lay))
		f += lay.F / float64(len(pl.lay))
	}
	out := pl.lay[near]
	spread := 0.0
	for _, lay := range pl.lay {
		spread = math.Max(spread, math.Hypot(lay.E-e, lay.F-f))
	}
	last := len(pl.lay) - 1
	if spread <= stillWithin {
		out.E, out.F = e, f
		return out
	}
	if steps := pl.places[last] - pl.places[0]; steps != 0 {
		k := (t - pl.places[near]) / steps
		out.E += k * (pl.lay[last].E - pl.lay[0].E)
		out.F += k * (pl.lay[last].F - pl.lay[0].F)
	}
	return out
}
