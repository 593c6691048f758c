package exchange

import "quarterstep/model/geom"

// Graded is one size of a pattern to be written, in mm. WriteSVG also takes
// lines that several sizes share, and with Size "" those that serve all.
type Graded struct {
	Size   string
	Also   []string // the sizes above it that share these lines
	Pieces []GradedPiece
}

// label is the name of the layer.
func (g Graded) label() string {
	if g.Size == "" {
		return sizeLabel(nil)
	}
	return sizeLabel(append([]string{g.Size}, g.Also...))
}

// GradedPiece is one closed outline, edge by edge, with its marks. Each edge
// starts where the one before ends and the last closes the ring.
type GradedPiece struct {
	Name  string
	Edges []NamedEdge
	Lines []GradedLine
	Words []GradedWords
}

// NamedEdge is one edge of an outline.
type NamedEdge struct {
	Name string
	Path geom.Path
}

// GradedLine is a line or mark on a piece; its name should hold the word that
// says what it is, such as "grain".
type GradedLine struct {
	Name string
	Path geom.Path
}

// GradedWords is a line of words on a piece, about the middle of its baseline.
type GradedWords struct {
	Text string
	At   geom.Point
	Size float64 // letter height, mm
	Turn float64 // the way the words run, radians clockwise on the paper
	Bold bool
}

// outline is the whole ring.
func (p GradedPiece) outline() geom.Path {
	var all []geom.Path
	for _, e := range p.Edges {
		all = append(all, e.Path)
	}
	return geom.Join(all...)
}
