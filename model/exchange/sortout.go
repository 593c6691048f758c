package exchange

import (
	"sort"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// sortOut makes pieces of the runs: closed ones become outlines, open ones and
// those inside an outline its lines.
func sortOut(runs []found, chart model.SizeChart) (Sheet, error) {
	s := &sorter{chart: chart}
	for part := 0; part < len(runs); {
		end := part
		for end < len(runs) && runs[end].part == runs[part].part {
			end++
		}
		s.element(runs[part:end])
		part = end
	}
	if len(s.rings) > mostRings {
		return Sheet{}, s.tooMany()
	}
	s.setMarksApart()
	s.outside()
	if err := s.outlines(); err != nil {
		return Sheet{}, err
	}
	s.settleAllSizes()
	if len(s.sheet.Pieces) == 0 {
		return Sheet{}, unusable(words.T("There is no closed cutting line in the size layers of this drawing. Close each piece's line and bring it in again."))
	}
	s.openLines()
	if s.looked > mostLooked {
		return Sheet{}, s.tooMany()
	}
	s.tidy()
	return s.sheet, nil
}

// What is sorted out at most: a broken or hostile drawing is refused after a
// moment, not looked at for hours.
const (
	mostRings   = 10_000
	mostPieces  = 300
	mostLooked  = 20_000_000 // curves gone along to see what lies where
	mostRemarks = 50
)

func (s *sorter) tooMany() error {
	return unusable(words.T("This drawing has too many lines in one another to sort out. Leave out what is no cutting line or mark and save it again."))
}

// inside reports whether a place lies in a closed line; false once too much was
// looked at.
func (s *sorter) inside(o found, at geom.Point) bool {
	if !o.hull.Contains(at) || s.looked > mostLooked {
		return false
	}
	s.looked += len(o.path)
	return o.path.Contains(at, inTol)
}

type sorter struct {
	chart    model.SizeChart
	rings    []found // cutting lines
	lines    []found // everything else
	strays   int     // lines that belong to no piece
	numbered bool    // a piece without a name was numbered
	looked   int     // curves gone along so far
	untold   int     // remarks beyond those that can be told
	sheet    Sheet
}

// element takes the runs of one drawn element: of several closed ones the
// largest is the outline, those inside it are its inner lines.
func (s *sorter) element(runs []found) {
	best, area := -1, 0.0
	for i := range runs {
		if r := &runs[i]; r.closed {
			if r.extent = extentOf(r.path); r.area > area {
				best, area = i, r.area
			}
		}
	}
	for i, r := range runs {
		if i == best {
			r.name = ringName(r)
			s.rings = append(s.rings, r)
			continue
		}
		if r.name == "" {
			r.name = idName(r.id, r.as)
		}
		s.lines = append(s.lines, r)
	}
}

// ringName is the name of the piece a closed line is drawn for; empty when the
// drawing gives none. Outside the size layers only its own name counts: a group
// there may hold anything.
func ringName(r found) string {
	name := firstOf(r.name, r.nested, idName(r.id, r.as))
	if len(r.sizes) > 0 || r.all {
		name = firstOf(name, r.outer)
	}
	return strings.TrimSpace(name)
}

// setMarksApart makes lines of closed runs that lie inside a piece of their
// size and are no pieces: those without a name of their own, and those named
// as a dart, a notch or a grain line.
func (s *sorter) setMarksApart() {
	var rings []found
	for i, r := range s.rings {
		kind, _ := kindOf(r.name)
		mark := r.name == "" || kind == model.DartLine || kind == Notch || kind == model.Grain
		if mark && len(r.sizes) > 0 && s.inAnother(i) {
			s.lines = append(s.lines, r)
		} else {
			rings = append(rings, r)
		}
	}
	s.rings = rings
}

func (s *sorter) inAnother(i int) bool {
	r := s.rings[i]
	for j, o := range s.rings {
		if j != i && len(o.sizes) > 0 && shareSize(o.sizes, r.sizes) && s.encloses(o, r) {
			return true
		}
	}
	return false
}

// encloses reports whether the larger closed line o goes round r.
func (s *sorter) encloses(o, r found) bool {
	return o.area > r.area && s.inside(o, r.path[0].At(0.5))
}

// inTol is how closely in mm it is told whether a place lies inside a piece.
const inTol = 0.1

func (s *sorter) outlines() error {
	unnamed := map[string]int{}
	for _, r := range s.rings {
		if r.name == "" {
			unnamed[sizeLabel(r.sizes)]++
			r.name = words.F("Piece %d", unnamed[sizeLabel(r.sizes)])
			s.numbered = true
		}
		i := s.pieceNamed(r.name)
		if i < 0 && len(s.sheet.Pieces) == mostPieces {
			return unusable(words.F("This drawing has more than %d pieces. Leave out what is no piece, or give each piece the same title in all sizes.", mostPieces))
		}
		if i < 0 {
			s.sheet.Pieces = append(s.sheet.Pieces, RawPiece{Name: r.name})
			i = len(s.sheet.Pieces) - 1
		}
		p := &s.sheet.Pieces[i]
		for _, o := range p.Outlines {
			if shareSize(o.Sizes(), r.sizes) {
				if len(r.sizes) == 0 {
					return unusable(words.F("Two pieces for all sizes are named “%s”. Give each its own title.", shorten(p.Name)))
				}
				return unusable(words.F("Size %s has two pieces named “%s”. Give each piece of a size its own title.", sizeLabel(r.sizes), shorten(p.Name)))
			}
		}
		o := RawOutline{Ring: r.path}
		if len(r.sizes) > 0 {
			o.Size, o.Also = r.sizes[0], r.sizes[1:]
		}
		p.Outlines = append(p.Outlines, o)
	}
	return s.inOrder()
}

// inOrder puts every piece's sizes in the chart's order. A line that leaves out
// a size between its own, which has another line, cannot be.
func (s *sorter) inOrder() error {
	place := func(size string) int { i, _ := s.chart.Place(size); return i }
	for _, p := range s.sheet.Pieces {
		sort.SliceStable(p.Outlines, func(a, b int) bool { return place(p.Outlines[a].Size) < place(p.Outlines[b].Size) })
		for i, o := range p.Outlines[1:] {
			before := p.Outlines[i].Sizes()
			if place(o.Size) < place(before[len(before)-1]) {
				return unusable(words.F("One line of “%s” is labelled %s, but size %s between has a line of its own. Label each line with the sizes it serves.", shorten(p.Name), sizeLabel(before), o.Size))
			}
		}
	}
	return nil
}

func (s *sorter) pieceNamed(name string) int {
	for i, p := range s.sheet.Pieces {
		if strings.EqualFold(p.Name, name) {
			return i
		}
	}
	return -1
}

// openLines gives each line to the piece it is named with, else to the piece
// it lies on.
func (s *sorter) openLines() {
	ground := s.ground()
	names := make([][]string, len(s.sheet.Pieces))
	for i, p := range s.sheet.Pieces {
		names[i] = wordsOf(p.Name)
	}
	for _, l := range s.lines {
		if l.name == "" {
			l.name = firstOf(l.nested, l.outer)
		}
		kind, known := kindOf(l.name)
		i := namedWith(l.name, names)
		if i < 0 && l.nested != "" {
			i = namedWith(l.nested, names)
		}
		if i < 0 {
			i = s.under(l, kind, ground)
		}
		if i < 0 {
			if known {
				s.warn(words.F("The line %s lies on no piece and was left out.", inSize("“"+shorten(l.name)+"”", l.sizes)))
			} else {
				s.strays++
			}
			continue
		}
		line := RawLine{Kind: kind, Path: l.path, Name: l.name}
		if len(l.sizes) > 0 {
			line.Size, line.Also = l.sizes[0], l.sizes[1:]
		}
		p := &s.sheet.Pieces[i]
		p.Lines = append(p.Lines, line)
	}
}

// namedWith is the piece with the longest name that stands in name, or -1; names
// are those of the pieces as words.
func namedWith(name string, names [][]string) int {
	best, words := -1, 0
	said := wordsOf(name)
	for i, of := range names {
		if len(of) > words && holds(said, of) {
			best, words = i, len(of)
		}
	}
	return best
}

// nearEnough is how far in mm a mark may lie from the piece it belongs to.
const nearEnough = 10.0

// under is the piece a line lies on: for notches and folds, which sit on the
// cutting line, the nearest; for others the smallest that holds its middle,
// else the nearest. -1 when none is within 10 mm. Ground is that of the sheet.
func (s *sorter) under(l found, kind model.LineKind, ground []found) int {
	mid := middle(l.path)
	best, area := -1, 0.0
	near, dist := -1, nearEnough
	for _, o := range ground {
		if !o.hull.Grow(nearEnough).Contains(mid) || !shareSize(o.sizes, l.sizes) {
			continue
		}
		if (best < 0 || o.area < area) && s.inside(o, mid) {
			best, area = o.part, o.area
		}
		if s.looked > mostLooked {
			continue
		}
		s.looked += len(o.path)
		if _, _, d := o.path.Nearest(mid, inTol); d < dist {
			near, dist = o.part, d
		}
	}
	if best < 0 || near >= 0 && (kind == Notch || kind == model.FoldLine) {
		return near
	}
	return best
}

// ground is the outlines of the sheet, Part being the piece each is of.
func (s *sorter) ground() []found {
	var out []found
	for i, p := range s.sheet.Pieces {
		for _, o := range p.Outlines {
			out = append(out, found{path: o.Ring, sizes: o.Sizes(), part: i, extent: extentOf(o.Ring)})
		}
	}
	return out
}

// middle is a place half way along a line, by its own joints.
func middle(p geom.Path) geom.Point {
	if len(p)%2 == 0 {
		return p[len(p)/2].P0
	}
	return p[len(p)/2].At(0.5)
}

func (s *sorter) warn(say string) {
	if len(s.sheet.Warnings) == mostRemarks {
		s.untold++
		return
	}
	s.sheet.Warnings = append(s.sheet.Warnings, say)
}

// tidy says what was guessed.
func (s *sorter) tidy() {
	if s.numbered {
		s.warn(words.T("Pieces without a title were numbered in the order they are drawn."))
	}
	if s.strays > 0 {
		s.warn(words.N(s.strays, "One line belongs to no piece and was left out.", "%d lines belong to no piece and were left out.", s.strays))
	}
	if s.untold > 0 {
		s.sheet.Warnings = append(s.sheet.Warnings, words.F("There is more of this kind, %d times.", s.untold))
	}
}

func abs(x float64) float64 { return max(x, -x) }
