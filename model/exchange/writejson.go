package exchange

import (
	"encoding/json"
	"io"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

type jsonPattern struct {
	Unit   string      `json:"unit"`
	Size   string      `json:"size"`
	Pieces []jsonPiece `json:"pieces"`
}

type jsonPiece struct {
	Name  string     `json:"name"`
	Edges []jsonEdge `json:"edges"`
}

type jsonEdge struct {
	Name   string       `json:"name"`
	Cubics [][8]float64 `json:"cubics"`
}

// WriteJSON writes the outlines of one size: each piece's edges in the order
// walked round the closed outline, each a list of cubics x0, y0 ... x3, y3 in
// mm, rounded to 0.000001 mm.
func WriteJSON(w io.Writer, g Graded) error {
	out := jsonPattern{Unit: "mm", Size: g.Size, Pieces: []jsonPiece{}}
	for _, p := range g.Pieces {
		piece := jsonPiece{Name: p.Name, Edges: []jsonEdge{}}
		for _, e := range p.Edges {
			if err := writable(e.Path); err != nil {
				return words.Errorf("writing %s of %s, size %s: %w", e.Name, p.Name, g.Size, err)
			}
			edge := jsonEdge{Name: e.Name}
			for _, c := range e.Path {
				edge.Cubics = append(edge.Cubics, eight(c))
			}
			piece.Edges = append(piece.Edges, edge)
		}
		out.Pieces = append(out.Pieces, piece)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(out); err != nil {
		return words.Errorf("writing the outlines: %w", err)
	}
	return nil
}

func eight(c geom.Cubic) (v [8]float64) {
	for i, p := range [4]geom.Point{c.P0, c.P1, c.P2, c.P3} {
		v[2*i], v[2*i+1] = rounded(p.X, 1e6), rounded(p.Y, 1e6)
	}
	return v
}

// rounded is v to one part in scale, without a negative nought.
func rounded(v, scale float64) float64 { return math.Round(v*scale)/scale + 0 }
