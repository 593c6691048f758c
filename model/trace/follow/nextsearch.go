package follow

import (
	"context"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// nextSearch is what is known when another size is looked for.
type nextSearch struct {
	ink   *inkMap
	web   *web
	from  outline     // of the traced size nearest to the wanted one
	guide []geom.Path // its edges
	place int         // of the size looked for, the next one to it
	side  float64     // 1 where it is larger, -1 where smaller
	want  []geom.Vec  // how far each corner is expected to move; nil with one size traced
	sides []flank
	cross [][]crossing // by turning corner: where it may go
}

func (f *Field) newNextSearch(ctx context.Context, traced []Traced, at int) (*nextSearch, error) {
	if len(traced) == 0 {
		return nil, words.Errorf("no size is traced yet; trace one first")
	}
	byNearness := slices.Clone(traced)
	slices.SortStableFunc(byNearness, func(a, b Traced) int { return abs(a.Place-at) - abs(b.Place-at) })
	near := byNearness[0]
	if near.Place == at {
		return nil, words.Errorf("this size is traced already")
	}
	s := &nextSearch{ink: &f.ink, web: f.web, side: 1, guide: near.Edges}
	if at < near.Place {
		s.side = -1
	}
	s.place = near.Place + int(s.side)
	for _, t := range byNearness {
		if len(t.Edges) != len(near.Edges) {
			return nil, words.Errorf("the traced sizes have different numbers of corners (%d and %d); mend one of them", len(near.Edges), len(t.Edges))
		}
	}
	var err error
	if s.from, err = newOutline(near.Edges); err != nil {
		return nil, err
	}
	s.expect(byNearness)
	s.sides = s.from.sides()
	for k := range s.sides {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		d := &s.sides[k]
		d.tracks = s.tracksOf(d)
		s.favour(d)
	}
	for k := range s.sides {
		s.cross = append(s.cross, s.crossings(k))
	}
	return s, nil
}

// favour speaks for the tracks on which the corners that a side passes come to
// lie where two traced sizes let expect them.
func (s *nextSearch) favour(d *flank) {
	if s.want == nil {
		return
	}
	for _, c := range d.corners[1 : len(d.corners)-1] {
		for i := range d.tracks {
			_, off := d.nearest(&d.tracks[i], s.from.corner(c).Add(s.want[c]))
			d.tracks[i].prior -= offWanted(off, s.want[c])
		}
	}
}

// expect says from two traced sizes how far each corner moves.
func (s *nextSearch) expect(byNearness []Traced) {
	if len(byNearness) < 2 || byNearness[1].Place == byNearness[0].Place {
		return
	}
	near, other := byNearness[0], byNearness[1]
	share := s.side / float64(other.Place-near.Place)
	for i, e := range other.Edges {
		s.want = append(s.want, e.Start().Sub(near.Edges[i].Start()).Scale(share))
	}
}

func abs(i int) int { return max(i, -i) }

func within(v float64, lo, hi float64) float64 { return math.Min(math.Max(v, lo), hi) }

// mostOutward is how much being outside may count for where all of a larger
// size was found within a smaller one.
const mostOutward = 6.4

// choose takes the best crossing for every turning corner. Where a larger size
// comes out smaller, lying outside counts for more.
func (s *nextSearch) choose() chosen {
	c := s.together(s.cross, 0)
	for outward := 0.4; outward <= mostOutward && s.outside(c) < 0; outward *= 2 {
		c = s.together(s.cross, outward)
	}
	return c
}

// outside is the area in mm² by which a choice is larger than the traced size
// where it is to be larger, and smaller where it is to be smaller.
func (s *nextSearch) outside(c chosen) float64 {
	var area float64
	for k := range s.sides {
		d := &s.sides[k]
		t := &d.tracks[s.cross[k][c[k]].after]
		for i, p := range d.places {
			if p.far >= 0 && p.far <= d.length() {
				area += t.off[i]
			}
		}
	}
	return s.side * area
}

// given is the search with some corners' places known.
func (s *nextSearch) given(known map[int]geom.Point) *nextSearch {
	if len(known) == 0 {
		return s
	}
	out := *s
	out.sides, out.cross = slices.Clone(s.sides), slices.Clone(s.cross)
	for k := range out.sides {
		out.sides[k] = out.sides[k].by(known)
	}
	for k := range out.sides {
		if at, ok := known[out.sides[k].corners[0]]; ok {
			out.cross[k] = out.crossingsAt(k, at)
		}
	}
	return &out
}

// What a track off a corner that is known costs.
const (
	offKnown  = 4.0 // a mm² off
	mostKnown = 6.0
)

func offCost(d float64) float64 { return math.Min(offKnown*d*d, mostKnown) }

// by is the side whose tracks lie on the known corners that it passes.
func (d flank) by(known map[int]geom.Point) flank {
	d.tracks = slices.Clone(d.tracks)
	for _, c := range d.corners[1 : len(d.corners)-1] {
		at, ok := known[c]
		if !ok {
			continue
		}
		for i := range d.tracks {
			_, off := nearestOf(d.tracks[i].pts, at)
			d.tracks[i].prior -= offCost(off)
		}
	}
	return d
}

// crossingsAt are the ways of a turning corner to a place that is known, by
// every pair of tracks.
func (s *nextSearch) crossingsAt(k int, at geom.Point) []crossing {
	m := len(s.sides)
	in, on := &s.sides[(k+m-1)%m], &s.sides[k]
	by := at.Sub(s.from.corner(on.corners[0]))
	var out []crossing
	for a := range in.tracks {
		ends, offA := in.nearest(&in.tracks[a], at)
		for b := range on.tracks {
			begins, offB := on.nearest(&on.tracks[b], at)
			out = append(out, crossing{by: by, before: a, after: b, ends: ends, begins: begins, score: -offCost(offA) - offCost(offB)})
		}
	}
	return out
}

// nearest is the place of a track nearest to a point, in mm along the side, and
// their distance.
func (d *flank) nearest(t *track, at geom.Point) (far, dist float64) {
	k, dist := nearestOf(t.pts, at)
	p := d.places[k]
	return p.far + at.Sub(t.pts[k]).Dot(p.dir), dist
}
