package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// When a proposed corner is doubtful, by trial on rendered nests.
const (
	otherPlace = 0.7 // by how much a choice with the corner elsewhere must be worse
	elsewhere  = 1.0 // mm that are another place
	leastOnArm = 0.5 // share of the line beside a corner that is printed
	alongSide  = 1.0 // mm that a corner without a turn may lie further along its line
)

// doubts tells by corner where else it may as well be, whether hardly anything
// is printed where it was found, and whether nothing tells how far along its
// line it lies.
func (s *nextSearch) doubts(c chosen, at settled, known map[int]geom.Point) [][]Doubt {
	out := make([][]Doubt, len(at.corners))
	m := len(s.sides)
	for k := range m {
		d := &s.sides[k]
		i := d.corners[0]
		p, q := s.cross[k][c.at[k]], s.cross[(k+1)%m][c.at[(k+1)%m]]
		if far := s.turnElsewhere(c, k); far > 0 {
			out[i] = append(out[i], Doubt{At: at.corners[i], Say: words.F("This corner may as well be %.0f mm from here.", math.Max(far, 1))})
		}
		in := &s.sides[(k+m-1)%m]
		if in.printed(&in.tracks[p.before], p.ends, p.ends-armReach) < leastOnArm || d.printed(&d.tracks[p.after], p.begins, p.begins+armReach) < leastOnArm {
			out[i] = append(out[i], Doubt{At: at.corners[i], Say: words.T("Hardly any line is printed beside this corner.")})
		}
		other := s.trackElsewhere(c, k)
		for j := 1; j < len(d.corners)-1; j++ {
			i := d.corners[j]
			if off := other[j]; off > 0 {
				out[i] = append(out[i], Doubt{At: at.corners[i], Say: words.F("This corner may as well be %.0f mm from here.", math.Max(off, 1))})
			}
			if s.want == nil && loose(d, j, q.by.Sub(p.by).Len(), known) {
				out[i] = append(out[i], Doubt{At: at.corners[i], Say: words.T("Nothing printed tells how far along the line this corner lies.")})
			}
		}
	}
	for i := range known {
		out[i] = nil
	}
	return out
}

// turnElsewhere is how far away turning corner k may as well be, in mm.
func (s *nextSearch) turnElsewhere(c chosen, k int) float64 {
	worth := c.worth[k]
	here := s.cross[k][c.at[k]].by
	far, least := 0.0, worth[c.at[k]]-otherPlace
	for x, o := range s.cross[k] {
		if away := o.by.Sub(here).Len(); away > elsewhere && worth[x] > least {
			least, far = worth[x], away
		}
	}
	return far
}

// trackElsewhere is by corner of side k how far away another line runs that
// would do nearly as well.
func (s *nextSearch) trackElsewhere(c chosen, k int) []float64 {
	d := &s.sides[k]
	out := make([]float64, len(d.corners))
	mine := &d.tracks[s.cross[k][c.at[k]].after]
	for x, o := range s.cross[k] {
		if c.worth[k][x] < c.worth[k][c.at[k]]-otherPlace {
			continue
		}
		for j := range d.corners {
			at := d.index(d.far[j])
			out[j] = max(out[j], math.Abs(atIndex(d.tracks[o.after].off, at)-atIndex(mine.off, at)))
		}
	}
	for j := range out {
		if out[j] < elsewhere {
			out[j] = 0
		}
	}
	return out
}

// loose reports that corner j of a side whose ends have moved apart by so many
// mm may lie further along it: it is far from both corners that are known.
func loose(d *flank, j int, grown float64, known map[int]geom.Point) bool {
	a, b := j-1, j+1
	for ; a > 0; a-- {
		if _, ok := known[d.corners[a]]; ok {
			break
		}
	}
	for ; b < len(d.corners)-1; b++ {
		if _, ok := known[d.corners[b]]; ok {
			break
		}
	}
	u := (d.far[j] - d.far[a]) / math.Max(d.far[b]-d.far[a], 1e-9)
	return grown*math.Min(u, 1-u) > alongSide
}
