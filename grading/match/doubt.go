package match

import "quarterstep/model/geom"

// Doubt is something about the matching of one size that the sewist should
// look at, in a plain sentence.
type Doubt struct {
	Piece, Size string
	Say         string
	At          geom.Point // mm, on the sheet
}
