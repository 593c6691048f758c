package spread

import (
	"fmt"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

// Default is a cut line proposed for a piece, with what it is called and how
// far its share can be trusted, for showing.
type Default struct {
	Cut          model.Cut
	Name, Status string
}

// How far the shares can be trusted.
const (
	quarterStatus words.Text = "the quarter of the girth step: published (T. Horlamus, Threads no. 101); how it is divided: common practice, no source"
	lengthStatus  words.Text = "the step of the back waist length: published with the size chart; halved over two lines: common practice, no source"
	stepStatus    words.Text = "common practice, no source"
)

// Shares of the step of the whole girth, and for a chart without a back waist
// length the mm per size at each of two lines: a quarter inch in all.
const (
	neckShare     = 1.0 / 16
	shoulderShare = 1.0 / 16
	sideShare     = 1.0 / 8
	quarter       = 1.0 / 4
	capShare      = 1.0 / 16
	lengthPerSize = 25.4 / 8
)

// Defaults proposes cut lines for a bodice quarter (half a front or back), a
// skirt quarter or a sleeve by the names of its grade points: lengthwise ones
// that share the quarter of the girth step, crosswise ones for the back waist
// length, and for a sleeve its width and the height of its cap. A place where a
// line would run along a dart is left for the next best. It fails in plain words
// on a piece whose parts it cannot tell, and on a chart without the girth.
func Defaults(q model.Piece, chart model.SizeChart) ([]Default, error) {
	p, err := newProposal(q, chart)
	if err != nil {
		return nil, err
	}
	switch {
	case p.point("crown") >= 0:
		err = p.sleeve()
	case named(q, "skirt"):
		err = p.skirt()
	case named(q, "trouser", "pants", "shorts", "facing", "collar", "cuff", "band", "pocket", "belt", "binding"):
		err = words.Error("none are usual for such a piece; lay them by hand")
	default:
		err = p.bodice()
	}
	if err != nil {
		return nil, words.Errorf("proposing cut lines for %s: %w", q.Name, err)
	}
	return p.out, nil
}

// named reports that the piece's name has one of the words.
func named(q model.Piece, words ...string) bool {
	name := glossary.English(q.Name)
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(name, w) })
}

// proposal is the cut lines proposed so far.
type proposal struct {
	*outline
	chart model.SizeChart
	side  geom.Vec // square to the centre line, towards the side seam
	cuts  []cutLine
	out   []Default
}

func newProposal(q model.Piece, chart model.SizeChart) (*proposal, error) {
	o, err := newOutline(q)
	if err != nil {
		return nil, err
	}
	p := &proposal{outline: o, chart: chart, side: o.centre.Perp()}
	for j := range o.edges {
		if o.still(j) && o.ring.Path().Bounds().Centre().Sub(o.edges[j].Start()).Dot(p.side) < 0 {
			p.side = p.side.Scale(-1)
			break
		}
	}
	return p, nil
}

var errCentre = words.Fault("mark the edge on the fold or at the centre first; cut lines run along it")

// hasCentre reports that the piece has a fold or centre edge.
func (p *proposal) hasCentre() bool {
	for j := range p.edges {
		if p.still(j) {
			return true
		}
	}
	return false
}

// point is the first grade point that has all words in its name and none that
// start with a minus sign; -1 for none.
func (p *proposal) point(words ...string) int {
	for i, g := range p.piece.Points {
		name, fits := glossary.English(g.Name), true
		for _, w := range words {
			word, not := strings.CutPrefix(w, "-")
			fits = fits && strings.Contains(name, word) != not
		}
		if fits {
			return i
		}
	}
	return -1
}

// place is grade point i as mm across towards the side and mm down.
func (p *proposal) place(i int) (across, down float64) {
	at := geom.Vec(p.edges[i].Start())
	return at.Dot(p.side), at.Dot(p.centre)
}

// at is the point so far across and down.
func (p *proposal) at(across, down float64) geom.Point {
	return geom.Point(p.side.Scale(across).Add(p.centre.Scale(down)))
}

// row is a cut to be proposed.
type row struct {
	name    string
	status  words.Text
	measure model.Measure
	share   float64
}

// add proposes the first of the lines that can be cut, each from one point to
// another.
func (p *proposal) add(r row, lines ...[2]geom.Point) error {
	if r.measure != model.Steps && !p.chart.Has(r.measure) {
		return words.Errorf("the chart %s has no %s", p.chart.Name, r.measure.Said())
	}
	var why error
	for _, ends := range lines {
		c := model.Cut{
			ID: fmt.Sprintf("cut-%d", len(p.cuts)+1), From: ends[0], To: ends[1], Measure: r.measure, Share: r.share,
		}
		l, err := p.readCut(c)
		if err == nil {
			err = p.refuse(l, p.cuts)
		}
		if err != nil {
			why = err
			continue
		}
		c.From, c.To = l.from, l.to
		p.cuts = append(p.cuts, l)
		p.out = append(p.out, Default{c, r.name, r.status.String()})
		return nil
	}
	return words.Errorf("the line through the %s %w", r.name, why)
}

// tries are the shares of the way between two places where a line is tried, the
// usual one first.
func tries() []float64 { return []float64{0.5, 0.375, 0.625, 0.25, 0.75, 0.125, 0.875} }

// upright is lines along the centre, between across lo and hi, through the
// height down.
func (p *proposal) upright(lo, hi, down float64) [][2]geom.Point {
	var out [][2]geom.Point
	for _, u := range tries() {
		x := lo + u*(hi-lo)
		out = append(out, [2]geom.Point{p.at(x, down-5), p.at(x, down+5)})
	}
	return out
}

// level is lines square to the centre, between down lo and hi, through the place
// across.
func (p *proposal) level(lo, hi, across float64) [][2]geom.Point {
	var out [][2]geom.Point
	for _, u := range tries() {
		y := lo + u*(hi-lo)
		out = append(out, [2]geom.Point{p.at(across-5, y), p.at(across+5, y)})
	}
	return out
}
