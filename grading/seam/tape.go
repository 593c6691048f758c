package seam

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

const (
	// tapeTol bounds every length on a stitching line, mm.
	tapeTol = 1e-3
	// drawTol is for lines that have to be drawn to be measured, mm.
	drawTol = 1e-4
)

// Tape measures the edges of one piece in one size on the stitching line. Its
// edges are measured when first asked for. It is not safe for use from two
// goroutines at once.
type Tape struct {
	name  string
	edges []geom.Path
	in    []float64 // how far the stitching line lies left of each edge
	sewn  []sewn
	drawn []geom.Path // nil until an edge has to be drawn
	err   error       // why it could not be
}

// sewn is one edge's stitching line, measured or drawn.
type sewn struct {
	known  bool
	beside geom.Beside
	drawn  geom.Path
	length float64
	err    error
}

// NewTape measures piece q with these edges.
func NewTape(q model.Piece, edges []geom.Path) *Tape {
	t := &Tape{name: q.Name, edges: edges, in: make([]float64, len(edges)), sewn: make([]sewn, len(edges))}
	side := clockwise(edges)
	for j := range edges {
		t.in[j] = -side * q.Edges[j].Allowance
	}
	return t
}

// clockwise is 1 for an outline that runs clockwise as the paper lies, where
// left of travel is out, and -1 for one that does not.
func clockwise(edges []geom.Path) float64 {
	var whole geom.Path
	for _, e := range edges {
		whole = append(whole, e...)
	}
	return math.Copysign(1, whole.Area())
}

// Length is how long edge j is sewn, mm.
func (t *Tape) Length(j int) (float64, error) {
	s := t.edge(j)
	return s.length, s.err
}

func (t *Tape) edge(j int) *sewn {
	s := &t.sewn[j]
	if s.known {
		return s
	}
	s.known = true
	n := len(t.edges)
	a, c := (j+n-1)%n, (j+1)%n
	if b, ok := geom.MeasureBeside(t.edges[a], t.edges[j], t.edges[c], t.in[a], t.in[j], t.in[c], tapeTol); ok {
		s.beside, s.length = b, b.Length()
		return s
	}
	if s.err = t.draw(); s.err == nil {
		s.drawn = t.drawn[j]
		s.length, s.err = s.drawn.Length(tapeTol)
	}
	return s
}

// draw draws the whole stitching line, once.
func (t *Tape) draw() error {
	if t.drawn != nil || t.err != nil {
		return t.err
	}
	side := clockwise(t.edges)
	out := make([]float64, len(t.in))
	for j, d := range t.in {
		out[j] = side * d
	}
	if t.drawn, t.err = geom.OffsetOutline(t.edges, out, drawTol); t.err != nil {
		t.err = words.Errorf("taking the seam allowance off %s: %w", t.name, t.err)
	}
	return t.err
}

// Along is how far along the stitching line of edge j the place lies that is s
// mm along the edge itself.
func (t *Tape) Along(j int, s float64) (float64, error) {
	e := t.edge(j)
	if e.err != nil {
		return 0, e.err
	}
	if e.drawn == nil {
		return e.beside.Along(s)
	}
	m, err := geom.Measure(t.edges[j], tapeTol)
	if err != nil {
		return 0, err
	}
	along, _, err := e.drawn.NearestS(m.At(s), tapeTol)
	return along, err
}

// Place is the inverse of Along.
func (t *Tape) Place(j int, along float64) (float64, error) {
	e := t.edge(j)
	if e.err != nil {
		return 0, e.err
	}
	if e.drawn == nil {
		return e.beside.Place(along)
	}
	m, err := geom.Measure(e.drawn, tapeTol)
	if err != nil {
		return 0, err
	}
	s, _, err := t.edges[j].NearestS(m.At(along), tapeTol)
	return s, err
}

// Stretch is how long the edges of a stretch of piece q are sewn, together.
func (t *Tape) Stretch(q model.Piece, s model.Stretch) (float64, error) {
	var total float64
	for _, id := range s.Edges {
		j := q.EdgeIndex(id)
		if j < 0 {
			return 0, ErrGone
		}
		l, err := t.Length(j)
		if err != nil {
			return 0, err
		}
		total += l
	}
	return total, nil
}
