package check

import (
	"maps"
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// printedLines remembers the stitching lines of printed sizes, and how long
// their edges are, by the storage of the nest and of the edges' allowances:
// edits replace slices and never write into them.
type printedLines map[printedLine]stitched

// printedLine names the line of one printed size of one piece.
type printedLine struct {
	nest  *model.Outline
	edges *model.Edge
	size  string
}

func lineKey(q model.Piece, size string) printedLine {
	return printedLine{&q.Nest[0], &q.Edges[0], size}
}

// forget drops the lines of pieces that are no longer there.
func (m printedLines) forget(p model.Pattern) {
	here := map[printedLine]bool{}
	for _, q := range p.Pieces {
		if len(q.Nest) > 0 && len(q.Edges) > 0 {
			here[lineKey(q, "")] = true
		}
	}
	maps.DeleteFunc(m, func(k printedLine, _ stitched) bool {
		k.size = ""
		return !here[k]
	})
}

// nearest is the printed size, among those all the pieces named by index have,
// that lies nearest to the size wanted; false where they have none in common.
func (l *looking) nearest(pieces ...int) (string, bool) {
	best, found := "", false
	least := math.Inf(1)
	for _, o := range l.p.Pieces[pieces[0]].Nest {
		for _, size := range o.Sizes() {
			place, ok := l.p.Chart.Place(size)
			if !ok || !l.allHave(size, pieces[1:]) {
				continue
			}
			if d := math.Abs(float64(place) - l.p.Target.Place); d < least {
				best, least, found = size, d, true
			}
		}
	}
	return best, found
}

func (l *looking) allHave(size string, pieces []int) bool {
	for _, i := range pieces {
		if _, ok := l.p.Pieces[i].Printed(size); !ok {
			return false
		}
	}
	return true
}

// nearestPrint is the printed outline of piece i nearest to the size wanted, on
// the cutting line; of a piece printed off the chart it is its first.
func (l *looking) nearestPrint(i int) ([]geom.Path, bool) {
	q := l.p.Pieces[i]
	if size, ok := l.nearest(i); ok {
		o, _ := q.Printed(size)
		return o.Edges, true
	}
	if len(q.Nest) == 0 {
		return nil, false
	}
	return q.Nest[0].Edges, true
}

// angleAt is the angle in degrees between the two edges that meet at grade
// point k, measured inside the outline: 90 where they are square, 180 where the
// line runs on.
func angleAt(edges []geom.Path, k int) float64 {
	n := len(edges)
	u, v := edges[(k+n-1)%n].EndDir(), edges[k].StartDir()
	turn := math.Atan2(u.Cross(v), u.Dot(v)) * 180 / math.Pi
	if area(edges) < 0 {
		turn = -turn
	}
	return 180 - turn
}

// area is that of the outline the edges make, closed edge by edge to one point:
// geom.Path.Area without joining them.
func area(edges []geom.Path) float64 {
	o := edges[0].Start()
	sum := 0.0
	for _, e := range edges {
		sum += e.Area() + e.Start().Sub(o).Cross(e.End().Sub(o))/2
	}
	return sum
}
