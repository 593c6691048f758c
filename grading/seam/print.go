package seam

import (
	"quarterstep/assets/words"
	"quarterstep/model"
)

// Print is a link as printed: both sides in every size they share, and what
// meets what. It holds nothing of the target.
type Print struct {
	Link       model.Link
	lead       []int // piece of each of the leader's stretches
	follow     int
	sizes      []string
	places     []float64 // on the chart
	ease       []float64
	matched    []pair // of marks that meet, the two ends included
	surplus    [][]float64
	marked     map[int][]bool // by piece: its notches that every shared size has
	notches    []bool         // which of the follower's marks are notches
	metNotches []metNotches
}

// pair is two marks that meet, as indices of the two sides' marks.
type pair struct{ lead, follow int }

// Read reads a link's print. It fails where the link names something gone,
// the two sides share no printed size, or a seam allowance does not fit.
func Read(p model.Pattern, l model.Link) (*Print, error) {
	out := &Print{Link: l, follow: p.PieceIndex(l.Follow.Piece)}
	for _, s := range append(l.Leads(), l.Follow) {
		if len(s.Edges) == 0 {
			return nil, ErrGone
		}
	}
	for _, s := range l.Leads() {
		out.lead = append(out.lead, p.PieceIndex(s.Piece))
	}
	for _, i := range append([]int{out.follow}, out.lead...) {
		if i < 0 {
			return nil, ErrGone
		}
	}
	all := out.shared(p)
	if len(all) == 0 {
		return nil, words.Errorf("%s and %s have no printed size in common", p.Pieces[out.lead[0]].Name, p.Pieces[out.follow].Name)
	}
	var walked []sides
	for i, sheets := range all {
		w, err := out.walk(sheets)
		if err != nil {
			return nil, words.Errorf("walking the seam in size %s: %w", out.sizes[i], err)
		}
		walked = append(walked, w)
		out.ease = append(out.ease, w.follow.Length-w.lead.Length)
	}
	out.matched = match(walked)
	out.metNotches = meetings(p, walked[0], out.matched)
	for _, m := range walked[0].follow.Marks {
		out.notches = append(out.notches, m.Kind == Notch)
	}
	for _, w := range walked {
		out.surplus = append(out.surplus, w.surplus(out.matched))
	}
	return out, nil
}

// sides is a seam in one size.
type sides struct{ lead, follow Side }

// surplus is by how much the follower is longer between each two of the marks
// that meet.
func (w sides) surplus(matched []pair) []float64 {
	out := make([]float64, len(matched)-1)
	for i := range out {
		a, b := matched[i], matched[i+1]
		out[i] = (w.follow.Marks[b.follow].At - w.follow.Marks[a.follow].At) - (w.lead.Marks[b.lead].At - w.lead.Marks[a.lead].At)
	}
	return out
}

// shared is the sheets of every printed size that all pieces of the link have,
// smallest first; it fills in the sizes, their places and what notches all have.
func (pr *Print) shared(p model.Pattern) [][]Sheet {
	pr.marked = map[int][]bool{}
	var out [][]Sheet
	for _, o := range p.Pieces[pr.follow].Nest {
		for _, size := range o.Sizes() {
			place, known := p.Chart.Place(size)
			sheets, ok := pr.sheets(p, size)
			if !known || !ok {
				continue
			}
			out = append(out, sheets)
			pr.sizes, pr.places = append(pr.sizes, size), append(pr.places, float64(place))
		}
	}
	return out
}

// sheets is the link's pieces as printed in a size, by piece index; false where
// one was not.
func (pr *Print) sheets(p model.Pattern, size string) ([]Sheet, bool) {
	out := make([]Sheet, len(p.Pieces))
	for _, i := range append([]int{pr.follow}, pr.lead...) {
		var ok bool
		if out[i], ok = Printed(p.Pieces[i], size); !ok {
			return nil, false
		}
	}
	for _, i := range append([]int{pr.follow}, pr.lead...) {
		if pr.marked[i] == nil {
			pr.marked[i] = make([]bool, len(out[i].Notches))
			for k := range pr.marked[i] {
				pr.marked[i][k] = true
			}
		}
		for k, n := range out[i].Notches {
			pr.marked[i][k] = pr.marked[i][k] && n.Marked
		}
	}
	return out, true
}

// walk walks both sides; sheets are as the pattern's pieces.
func (pr *Print) walk(sheets []Sheet) (sides, error) {
	lead := make([]Sheet, len(pr.lead))
	for k, i := range pr.lead {
		lead[k] = pr.only(i, sheets[i])
	}
	a, err := walkSide(pr.Link.Leads(), lead)
	if err != nil {
		return sides{}, err
	}
	b, err := walkSide([]model.Stretch{pr.Link.Follow}, []Sheet{pr.only(pr.follow, sheets[pr.follow])})
	return sides{a, b}, err
}

// only is piece i's sheet with the notches that every printed size has.
func (pr *Print) only(i int, s Sheet) Sheet {
	notches := make([]Spot, len(s.Notches))
	for k, n := range s.Notches {
		notches[k] = Spot{n.S, n.Marked && pr.marked[i][k]}
	}
	s.Notches = notches
	return s
}

// Follower is the index of the piece that follows, Leaders those it is sewn to.
func (pr *Print) Follower() int { return pr.follow }

// Leaders is the piece of each of the leader's stretches, by index.
func (pr *Print) Leaders() []int { return pr.lead }

// SizeEase is the ease of one printed size, mm.
type SizeEase struct {
	Size string
	Ease float64
}

// Eases is the ease in every printed size both sides have, smallest first.
func (pr *Print) Eases() []SizeEase {
	out := make([]SizeEase, len(pr.sizes))
	for i, s := range pr.sizes {
		out[i] = SizeEase{s, pr.ease[i]}
	}
	return out
}

// Carried is the ease of the print at a place of its chart.
func (pr *Print) Carried(place float64) float64 {
	i, share := pr.between(place)
	if share == 0 {
		return pr.ease[i]
	}
	return pr.ease[i] + share*(pr.ease[i+1]-pr.ease[i])
}

// between is the printed size at or below a place and how far towards the next
// it lies; past the print, the nearest.
func (pr *Print) between(place float64) (i int, share float64) {
	last := len(pr.places) - 1
	if place >= pr.places[last] {
		return last, 0
	}
	for i < last && pr.places[i+1] <= place {
		i++
	}
	if place <= pr.places[i] || i == last {
		return i, 0
	}
	return i, (place - pr.places[i]) / (pr.places[i+1] - pr.places[i])
}

// Range is from how much to how much ease is wanted, mm.
type Range struct{ Low, High float64 }

// Hold is x, or the end of the range it lies past.
func (r Range) Hold(x float64) float64 { return min(max(x, r.Low), r.High) }

// Wanted is the ease wanted at a place: what the sewist set, or that of the
// print.
func (pr *Print) Wanted(place float64) Range {
	if l := pr.Link; l.EaseFixed {
		return Range{l.Ease, l.Ease + l.Room}
	}
	e := pr.Carried(place)
	return Range{e, e}
}

// Aim is the one ease a seam that gives way is given: that of the print, as far
// as it is wanted.
func (pr *Print) Aim(place float64) float64 { return pr.Wanted(place).Hold(pr.Carried(place)) }
