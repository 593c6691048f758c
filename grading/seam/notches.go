package seam

// NotchPlace is where a notch of the follower belongs: mm along its edge.
type NotchPlace struct {
	Index int // of the piece's notches
	S     float64
}

// NotchPlaces says where the follower's matched notches belong at a place of
// the chart, so that they meet the leader's: from one corner that meets to the
// next, each as far as the leader's notch, and the ease of the print between
// them. What the seam as a whole is over goes where the print eases most.
// A notch that would leave its edge stays at the edge's end.
func (pr *Print) NotchPlaces(sheets []Sheet, place float64) ([]NotchPlace, error) {
	if !pr.hasNotches() {
		return nil, nil
	}
	w, err := pr.walk(sheets)
	if err != nil {
		return nil, err
	}
	var out []NotchPlace
	shares := pr.carriedShares(place)
	for a := 0; a < len(pr.matched)-1; {
		b := a + 1
		for w.lead.Marks[pr.matched[b].lead].Kind == Notch {
			b++
		}
		pr.spread(w, shares, a, b)
		at := w.follow.Marks[pr.matched[a].follow].At
		for i := a; i < b-1; i++ {
			lead := w.lead.Marks[pr.matched[i+1].lead].At - w.lead.Marks[pr.matched[i].lead].At
			at += lead + shares[i]
			m := w.follow.Marks[pr.matched[i+1].follow]
			s, err := sheets[pr.follow].Tape.Place(m.edge.edge, m.edge.place(at))
			if err != nil {
				return nil, err
			}
			out = append(out, NotchPlace{m.Index, s})
		}
		a = b
	}
	return out, nil
}

// hasNotches reports that notches of the two sides meet.
func (pr *Print) hasNotches() bool {
	for _, m := range pr.matched {
		if pr.notches[m.follow] {
			return true
		}
	}
	return false
}

// spread puts what the parts from matched mark a to b are over, all together,
// where they ease most.
func (pr *Print) spread(w sides, shares []float64, a, b int) {
	from, to := pr.matched[a], pr.matched[b]
	over := (w.follow.Marks[to.follow].At - w.follow.Marks[from.follow].At) - (w.lead.Marks[to.lead].At - w.lead.Marks[from.lead].At)
	for _, x := range shares[a:b] {
		over -= x
	}
	if i := pr.givingPart(shares[a:b], w, a); i >= 0 {
		shares[a+i] += over
	}
}
