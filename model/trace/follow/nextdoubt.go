package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// When a proposed corner is doubtful, by trial on rendered nests.
const (
	elsewhere  = 1.2  // mm that are another place
	leastOnArm = 0.5  // share of the line beside a corner that is printed
	mostlyOn   = 0.65 // share of an edge carried along that is printed
	alongSide  = 1.0  // mm that a corner without a turn may lie further along its line
)

// differing doubts by corner that the outline carried along puts it elsewhere,
// its edges there lying on print for most of their length.
func (s *carry) differing(at, carried []geom.Point) [][]Doubt {
	n := len(at)
	out := make([][]Doubt, n)
	last := s.coveredTo(n-1, carried)
	for i, p := range at {
		next := s.coveredTo(i, carried)
		if off := p.Dist(carried[i]); off > elsewhere && min(last, next) > mostlyOn {
			out[i] = append(out[i], Doubt{At: p, Say: words.F("This corner may as well be %.0f mm from here.", off)})
		}
		last = next
	}
	return out
}

// addDoubts tells by corner whether hardly anything is printed where it was
// found, and whether nothing tells how far along its line it lies.
func (s *nextSearch) addDoubts(out [][]Doubt, c chosen, at settled, known map[int]geom.Point) {
	m := len(s.sides)
	for k := range m {
		d := &s.sides[k]
		i := d.corners[0]
		p, q := s.cross[k][c[k]], s.cross[(k+1)%m][c[(k+1)%m]]
		in := &s.sides[(k+m-1)%m]
		if in.printed(&in.tracks[p.before], p.ends, p.ends-armReach) < leastOnArm || d.printed(&d.tracks[p.after], p.begins, p.begins+armReach) < leastOnArm {
			out[i] = append(out[i], Doubt{At: at.corners[i], Say: words.T("Hardly any line is printed beside this corner.")})
		}
		for j := 1; j < len(d.corners)-1; j++ {
			if i := d.corners[j]; s.want == nil && loose(d, j, q.by.Sub(p.by).Len(), known) {
				out[i] = append(out[i], Doubt{At: at.corners[i], Say: words.T("Nothing printed tells how far along the line this corner lies.")})
			}
		}
	}
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
