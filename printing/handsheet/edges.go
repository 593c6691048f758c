package handsheet

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// edgeLine is one entry of the list of edges: a way of drawing, or an edge that
// is drawn that way.
type edgeLine struct {
	text string
	head bool
}

// edgeList sorts the edges by how they are drawn, in the order of the outline.
func (d *document) edgeList() []edgeLine {
	var hows []string
	for _, e := range d.s.Edges {
		if !slices.Contains(hows, e.How) {
			hows = append(hows, e.How)
		}
	}
	var out []edgeLine
	for _, how := range hows {
		out = append(out, edgeLine{text: how, head: true})
		for k, e := range d.s.Edges {
			if e.How == how {
				out = append(out, edgeLine{text: edgeText(e, k, len(d.s.Edges))})
			}
		}
	}
	return out
}

// edgeText names edge k of n by its points and says what is on it.
func edgeText(e Edge, k, n int) string {
	text := words.F("%d to %d", k+1, (k+1)%n+1)
	if e.Name != "" {
		text += ", " + e.Name
	}
	if e.Mark != "" {
		text += "; " + e.Mark
	}
	return text
}

// The list of edges, mm.
const (
	edgeSize   = 3.2 // letter height
	edgeStep   = 4.1 // from line to line
	edgeIndent = 3.0
	edgeTitle  = 1.9 * edgeStep
)

// writeEdges writes what fits of the list into room, a heading and one edge at
// least, and returns the rest.
func (d *document) writeEdges(room geom.Box, list []edgeLine) []edgeLine {
	if len(list) == 0 {
		return nil
	}
	d.edgesTitle(room)
	room.Min.Y += edgeTitle
	n := max(2, d.edgesFitting(room, list))
	d.putEdges(room, list[:n])
	return restOf(list, n)
}

// restOf is the list from entry n on, under its own heading again.
func restOf(list []edgeLine, n int) []edgeLine {
	rest := list[n:]
	if len(rest) == 0 || rest[0].head {
		return rest
	}
	for n--; !list[n].head; n-- {
	}
	return append([]edgeLine{list[n]}, rest...)
}

// edgesAbreast writes the whole list into room in two columns, each with its
// own headings; false where it does not fit, with nothing written.
func (d *document) edgesAbreast(room geom.Box, list []edgeLine) bool {
	if len(list) == 0 {
		return true
	}
	left, right := cutBeside(room, (room.Width()-gutter)/2)
	left.Min.Y += edgeTitle
	right.Min.Y += edgeTitle
	for n, l := range list {
		// The left column takes half the list, or more where the heading asks.
		if 2*n < len(list) || !l.head {
			continue
		}
		if d.edgesFitting(left, list[:n]) == n && d.edgesFitting(right, list[n:]) == len(list)-n {
			d.edgesTitle(room)
			d.putEdges(left, list[:n])
			d.putEdges(right, list[n:])
			return true
		}
	}
	if d.edgesFitting(left, list) < len(list) {
		return false
	}
	d.edgesTitle(room)
	d.putEdges(left, list)
	return true
}

func (d *document) edgesTitle(room geom.Box) {
	d.text(room.Min.X, room.Min.Y+edgeSize, room.Width(), 3.8, true, words.T("How to draw the edges"))
}

// wrapEdge breaks an entry into lines and says where they begin.
func (d *document) wrapEdge(room geom.Box, l edgeLine) (x float64, lines []string) {
	x = room.Min.X
	if !l.head {
		x += edgeIndent
	}
	return x, d.Wrap(l.text, room.Max.X-x, edgeSize)
}

// edgesFitting is how many entries fit into room; a heading goes with what
// follows it.
func (d *document) edgesFitting(room geom.Box, list []edgeLine) int {
	free, fits := room.Height(), 0
	for i, l := range list {
		_, lines := d.wrapEdge(room, l)
		free -= edgeStep * float64(len(lines))
		if l.head && i > 0 {
			free -= 0.3 * edgeStep
		}
		if free < 0 {
			break
		}
		if !l.head {
			fits = i + 1
		}
	}
	return fits
}

func (d *document) putEdges(room geom.Box, list []edgeLine) {
	y := room.Min.Y + edgeSize
	for i, l := range list {
		x, lines := d.wrapEdge(room, l)
		if l.head && i > 0 {
			y += 0.3 * edgeStep
		}
		for _, line := range lines {
			d.text(x, y, room.Max.X-x, edgeSize, l.head, line)
			y += edgeStep
		}
	}
}
