package scene

import (
	"slices"

	"quarterstep/grading"
	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Input is everything the Table shows. The zero Input is an empty Table.
type Input struct {
	Pattern model.Pattern
	Result  grading.Result // of Pattern; without one only the nest is shown
	// Ghost holds the lines of the method not in force, by piece ID.
	Ghost map[string][]geom.Path
	// Guides are the sizes between the print and the size wanted, of the piece
	// in hand, nearest the print first.
	Guides []Guide
	// Select is what the sewist has in hand.
	Select Ref
	// Look lists what to look at.
	Look []Fault
	// Runs are stretches that stand out; with any, all other edges are faint.
	Runs []Run

	// Closed holds the pieces that are shown with a dart folded shut, by their ID.
	Closed map[string]dart.Closed

	// Lengthen is set in the Length step: the lengthen lines have the handles then.
	Lengthen *Lengthen

	// Photos lie under the pieces.
	Photos []Photo
	// Trace is what is being traced from a photo, or marked on one; nil for
	// nothing.
	Trace *Trace

	Nest bool // show the printed sizes
	Seam bool // show the stitching line
	// Sewn remembers the stitching lines from one Table to the next; nil for none.
	Sewn *Sewn
	// Rooms remembers where there is room for words, in the same way; nil for none.
	Rooms Rooms

	// Scale is px a mm as the Table is shown now; it says how much room words
	// have.
	Scale float64
	// Words is how many times as large as drawn words are; 0 is 1.
	Words float64

	// Zero is where the rulers and the grid count from.
	Zero geom.Point
	// Unscaled is said in the place of the rulers and the grid where what lies on
	// the Table has no scale yet.
	Unscaled string

	// Sheets are the pages to be printed, with pieces where Placement puts them.
	// Without Placement a piece lies where its At says.
	Sheets    []Page
	Page      string       // name of the page in hand
	Names     bool         // show page names
	Glue      bool         // show glue strips and joining buttons
	Buttons   []geom.Point // joining marks
	Square    geom.Box     // the test square
	Placement map[string]geom.Affine

	// While a layer is built:
	boxes   func() []geom.Box     // of the pieces
	threads func() [][]geom.Point // between lines that are shared
}

// px is a length in px of words, in mm of the Table.
func (in Input) px(length float64) float64 {
	if in.Words > 0 {
		length *= in.Words
	}
	return length / in.Scale
}

// Guide is the line of the piece in hand at a size on the way.
type Guide struct {
	Size  string
	Edges []geom.Path
}

// Page is one sheet as it lies on the Table.
type Page struct {
	Name  string
	Box   geom.Box
	Blank bool // nothing on it: left out
}

// ground is what the pieces lie on: the Table or pages of paper.
func (in Input) ground() Ink {
	if len(in.Sheets) > 0 {
		return InkSheet
	}
	return InkTable
}

// place takes piece q's own coordinates to the Table's.
func (in Input) place(q model.Piece) geom.Affine {
	if m, ok := in.Placement[q.ID]; ok {
		return m
	}
	return geom.Translate(q.At)
}

// Place takes a piece's own coordinates to the Table's; Identity for a piece
// that is not there.
func (in Input) Place(piece string) geom.Affine {
	i := in.Pattern.PieceIndex(piece)
	if i < 0 {
		return geom.Identity()
	}
	return in.place(in.Pattern.Pieces[i])
}

// graded is the result for piece i; false where there is none.
func (in Input) graded(i int) (grading.Piece, bool) {
	id := in.Pattern.Pieces[i].ID
	if i < len(in.Result.Pieces) && in.Result.Pieces[i].ID == id {
		return in.Result.Pieces[i], len(in.Result.Pieces[i].Edges) > 0
	}
	return grading.Piece{}, false
}

// Edges is the line of piece i that the hand works on, edge by edge, on the
// Table: the computed one, else the largest printed one.
func (in Input) Edges(i int) []geom.Path {
	q := in.Pattern.Pieces[i]
	m := in.place(q)
	edges := in.line(i)
	out := make([]geom.Path, len(edges))
	for k, e := range edges {
		out[k] = e.Transform(m)
	}
	return out
}

// Bounds is the box around all that lies on the Table.
func (in Input) Bounds() geom.Box {
	var b geom.Box
	for i, q := range in.Pattern.Pieces {
		for _, e := range in.Edges(i) {
			b = b.Union(e.Bounds())
		}
		if len(q.Nest) == 0 || !in.Nest {
			continue
		}
		m := in.place(q)
		for _, e := range largest(q) {
			b = b.Union(e.Transform(m).Bounds())
		}
	}
	for _, s := range in.Sheets {
		b = b.Union(s.Box)
	}
	for _, p := range in.Photos {
		b = b.Union(p.Box())
	}
	return b.Union(in.Square)
}

func largest(q model.Piece) []geom.Path {
	if len(q.Nest) == 0 {
		return nil
	}
	return q.Nest[len(q.Nest)-1].Edges
}

// Changed lists the pieces whose line or place is not the same in both; the
// two must hold the same pieces, else all of now's are listed.
func Changed(was, now Input) []string {
	var out []string
	for i, q := range now.Pattern.Pieces {
		same := i < len(was.Pattern.Pieces) && was.Pattern.Pieces[i].ID == q.ID &&
			was.place(was.Pattern.Pieces[i]) == now.place(q)
		if same {
			a, hadA := was.graded(i)
			b, hadB := now.graded(i)
			same = hadA == hadB && was.sameClosed(now, q.ID) && slices.EqualFunc(a.Edges, b.Edges, slices.Equal[geom.Path])
		}
		if !same {
			out = append(out, q.ID)
		}
	}
	return out
}
