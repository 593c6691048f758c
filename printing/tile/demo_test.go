package tile_test

import (
	"math"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// The pieces of an invented community theatre's wardrobe: a doublet with
// sleeves, drawn for these tests.

// bodice is a half front with neck, armhole and side seam.
func bodice(name string, w, h float64) printing.Piece {
	pt := geom.Pt
	o := geom.Path{}
	add := func(c geom.Path) { o = geom.Join(o, c) }
	add(geom.Path{{P0: pt(0, 0.17*h), P1: pt(0.2*w, 0.17*h), P2: pt(0.3*w, 0.1*h), P3: pt(0.3*w, 0)}})
	add(geom.Polyline(pt(0.3*w, 0), pt(0.75*w, 0.06*h)))
	add(geom.Path{{P0: pt(0.75*w, 0.06*h), P1: pt(0.7*w, 0.3*h), P2: pt(0.75*w, 0.4*h), P3: pt(w, 0.42*h)}})
	add(geom.Path{{P0: pt(w, 0.42*h), P1: pt(0.93*w, 0.6*h), P2: pt(0.93*w, 0.8*h), P3: pt(w, h)}})
	add(geom.Polyline(pt(w, h), pt(0, h), pt(0, 0.17*h)))
	return pieceOf(name, o)
}

// sleeve has a cap and a tapered under seam.
func sleeve(name string, w, h float64) printing.Piece {
	pt := geom.Pt
	o := geom.Join(
		geom.Path{{P0: pt(0, 0.25*h), P1: pt(0.2*w, 0.24*h), P2: pt(0.3*w, 0), P3: pt(0.5*w, 0)}},
		geom.Path{{P0: pt(0.5*w, 0), P1: pt(0.7*w, 0), P2: pt(0.8*w, 0.24*h), P3: pt(w, 0.25*h)}},
		geom.Polyline(pt(w, 0.25*h), pt(0.85*w, h), pt(0.15*w, h), pt(0, 0.25*h)))
	return pieceOf(name, o)
}

// facing is a strip bent a quarter round.
func facing(name string, r, width float64) printing.Piece {
	const k = 0.5522847498307935
	pt := geom.Pt
	in := r - width
	o := geom.Join(
		geom.Path{{P0: pt(0, r), P1: pt(0, r-k*r), P2: pt(r-k*r, 0), P3: pt(r, 0)}},
		geom.Polyline(pt(r, 0), pt(r, width)),
		geom.Path{{P0: pt(r, width), P1: pt(r-k*in, width), P2: pt(width, r-k*in), P3: pt(width, r)}},
		geom.Polyline(pt(width, r), pt(0, r)))
	return pieceOf(name, o)
}

func oblong(name string, w, h float64) printing.Piece {
	return pieceOf(name, geom.Polyline(geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, h), geom.Pt(0, h), geom.Pt(0, 0)))
}

func pieceOf(name string, o geom.Path) printing.Piece {
	c := o.Bounds().Centre()
	return printing.Piece{
		Name: name, Outline: o, Grain: geom.Vec{Y: 1},
		Strokes: []printing.Stroke{{Path: o, Width: 0.45}},
		Labels:  []printing.Label{{Text: name, At: c, Size: 7, Bold: true}},
	}
}

// doublet is twelve pieces, one of them drawn with its grain aslant.
func doublet() []printing.Piece {
	upper := sleeve("Sleeve", 360, 610)
	upper.Outline = upper.Outline.Transform(geom.Rotate(0.4))
	upper.Strokes[0].Path = upper.Outline
	upper.Labels[0].At = upper.Outline.Bounds().Centre()
	upper.Grain = geom.Vec{X: -math.Sin(0.4), Y: math.Cos(0.4)}
	return []printing.Piece{
		bodice("Front", 270, 560), bodice("Back", 255, 590), upper,
		facing("Front neck facing", 150, 60), facing("Back neck facing", 120, 60),
		oblong("Cuff", 230, 80), oblong("Pocket", 140, 150), oblong("Pocket flap", 140, 50),
		oblong("Collar", 90, 420), bodice("Peplum front", 230, 240), bodice("Peplum back", 240, 240),
		oblong("Belt loop", 40, 90),
	}
}
