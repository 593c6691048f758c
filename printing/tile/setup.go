package tile

import (
	"fmt"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Setup is how the sheets lie. The zero Setup is not valid: it has no paper.
type Setup struct {
	Paper     Paper
	Landscape bool    // sheets lie on their side; not for rolls and projectors
	Margin    float64 // what the printer leaves white on each side, mm
	Overlap   float64 // how far neighbouring windows share the layout, mm on paper; 0 is edge to edge
	Printer   Printer
	Projector Projector
}

// Projector is how the page for a projector looks; it counts for paper that is
// Projected. The zero Projector draws black on white, lines as they are, and no
// squares.
type Projector struct {
	Dark   bool    // white lines on black
	Line   float64 // width of every line, mm; zero leaves them as they are
	Square float64 // side of the squares to set the projector by, mm; zero: none
}

// Printer corrects a printer that prints a little small or large. The zero
// Printer is true to scale.
type Printer struct {
	// Across and Down multiply lengths on the page: wanted over measured, so
	// 50/49.6 where a 50 mm line came out at 49.6. Zero is 1.
	Across, Down float64
}

// the least a printer must leave to print on, mm: room for the scale check
// and its words.
const (
	PanelWidth  = 165.0
	PanelHeight = 170.0
)

// a printer further out than this is set wrongly, not worn: "fit to page" is
// some 3 to 6 % out. Common practice.
const mostCorrection = 0.06

// Size is the sheet as it goes through the printer, mm across and down. A free
// page has no height, and for a projector no width, until Layout has settled
// them.
func (s Setup) Size() (w, h float64) {
	if s.Landscape && !s.Paper.Free {
		return s.Paper.Height, s.Paper.Width
	}
	return s.Paper.Width, s.Paper.Height
}

// Scale is the correction, with 1 for what is not set.
func (p Printer) Scale() (across, down float64) {
	across, down = p.Across, p.Down
	if across == 0 {
		across = 1
	}
	if down == 0 {
		down = 1
	}
	return across, down
}

// lines for a projector, mm: thinner ones vanish, broader ones hide the edge.
// Common practice is 0.7 to 3.
const (
	ProjectorThinnest = 0.1
	ProjectorBroadest = 10.0
	// smaller squares would be a net to hide the pieces.
	leastSquare = 10.0
)

// Validate says in plain words what keeps the setup from printing.
func (s Setup) Validate() error {
	w, h := s.Size()
	for _, v := range []float64{w, h, s.Margin, s.Overlap, s.Printer.Across, s.Printer.Down, s.Projector.Line, s.Projector.Square} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return words.Error("the paper, its margin and overlap must be ordinary numbers")
		}
	}
	switch {
	case s.Margin < 0:
		return words.Error("the printer's margin cannot be less than nothing")
	case s.Overlap < 0:
		return words.Error("the overlap cannot be less than nothing")
	}
	if s.Paper.Projected() {
		return s.Projector.validate()
	}
	if err := s.validatePaper(w, h); err != nil {
		return err
	}
	across, down := s.Printer.Scale()
	if math.Abs(across-1) > mostCorrection || math.Abs(down-1) > mostCorrection {
		return words.Errorf("the test square was printed more than %.0f %% out: print it again at 100 %%, with \"fit to page\" off", mostCorrection*100)
	}
	return nil
}

func (s Setup) validatePaper(w, h float64) error {
	least := w // the shorter side
	if !s.Paper.Free {
		least = math.Min(w, h)
	}
	switch free := s.Paper.Free; {
	case w <= 0 || h < 0 || h == 0 && !free:
		return words.Error("choose a paper first")
	case w > longest || h > longest:
		return words.Errorf("%s is too long for one page: at most %.0f mm a side", s.Paper.Said(), longest)
	case free && w-2*s.Margin < PanelWidth:
		return words.Errorf("%s with a margin of %s mm leaves %s mm to print on, and the scale check alone needs %s mm: use a smaller margin or a wider roll",
			s.Paper.Said(), shown(s.Margin), shown(math.Max(0, w-2*s.Margin)), shown(PanelWidth))
	case !free && (w-2*s.Margin < PanelWidth || h-2*s.Margin < PanelHeight):
		return words.Errorf("%s with a margin of %s mm leaves %s x %s mm to print on, and the scale check alone needs %s x %s mm: use a smaller margin or larger paper",
			s.Paper.Said(), shown(s.Margin), shown(math.Max(0, w-2*s.Margin)), shown(math.Max(0, h-2*s.Margin)), shown(PanelWidth), shown(PanelHeight))
	case s.Overlap > least/4:
		return words.Errorf("an overlap of %s mm wastes too much of %s: use at most %s mm", shown(s.Overlap), s.Paper.Said(), shown(math.Floor(least/4)))
	}
	return nil
}

func (p Projector) validate() error {
	switch {
	case p.Line != 0 && (p.Line < ProjectorThinnest || p.Line > ProjectorBroadest):
		return words.Errorf("a line of %s mm is not for a projector: choose %s to %s mm", shown(p.Line), shown(ProjectorThinnest), shown(ProjectorBroadest))
	case p.Square != 0 && (p.Square < leastSquare || p.Square > longest):
		return words.Errorf("squares of %s mm cannot be measured well: choose 50 mm or 2 in", shown(p.Square))
	}
	return nil
}

// grid is a setup in layout mm: windows of px by py, each sx right of or sy
// below the one before.
type grid struct {
	px, py, sx, sy float64
}

func (s Setup) grid() grid {
	w, h := s.Size()
	kx, ky := s.Printer.Scale()
	px, py := (w-2*s.Margin)/kx, (h-2*s.Margin)/ky
	return grid{px: px, py: py, sx: px - s.Overlap/kx, sy: py - s.Overlap/ky}
}

func (g grid) overlapX() float64 { return g.px - g.sx }
func (g grid) overlapY() float64 { return g.py - g.sy }

// window is the sheet in row r and column c of the whole floor.
func (g grid) window(r, c int) geom.Box {
	at := geom.Pt(float64(c)*g.sx, float64(r)*g.sy)
	return geom.Box{Min: at, Max: at.Add(geom.Vec{X: g.px, Y: g.py})}
}

// Count is how many windows of page mm, overlap mm shared with the next, cover
// length mm: ceil((length - overlap) / (page - overlap)), at least 1. A
// millionth of a millimetre too much does not cost a sheet.
func Count(length, page, overlap float64) int {
	return max(1, int(math.Ceil((length-overlap-1e-6)/(page-overlap))))
}

// SheetName is the row's letter and the column's number, from row 0 and column
// 0: A1, B2; after row Z come AA, AB.
func SheetName(row, col int) string {
	letters := ""
	for n := row; n >= 0; n = n/26 - 1 {
		letters = string(rune('A'+n%26)) + letters
	}
	return fmt.Sprintf("%s%d", letters, col+1)
}
