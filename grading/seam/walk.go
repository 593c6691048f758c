package seam

import "quarterstep/model"

// Walk is the two sides of a link laid along each other at the target.
type Walk struct {
	Link         model.Link
	Lead, Follow Side
	Ease         float64    // the follower's length less the leader's, mm
	Printed      []SizeEase // in every printed size both sides have
	Carried      float64    // the ease of the print at the target's place
	Wanted       Range      // what it may be
	Parts        []Part     // between the marks that meet
}

// Part is what lies between two marks that meet and the next two: how long each
// side is there, and by how much the follower should be longer.
type Part struct {
	From, To     Meet
	Lead, Follow float64 // mm
	Wanted       float64
}

// Meet is two marks that meet.
type Meet struct{ Lead, Follow Mark }

// Surplus is by how many mm the follower is longer.
func (p Part) Surplus() float64 { return p.Follow - p.Lead }

// Over is by how many mm the follower is longer than it should be.
func (p Part) Over() float64 { return p.Surplus() - p.Wanted }

// Walk lays the sides along each other as sheets have them, which are as the
// pattern's pieces, at a place of the chart.
func (pr *Print) Walk(sheets []Sheet, place float64) (Walk, error) {
	w, err := pr.walk(sheets)
	if err != nil {
		return Walk{}, err
	}
	out := Walk{
		Link: pr.Link, Lead: w.lead, Follow: w.follow, Ease: w.follow.Length - w.lead.Length,
		Printed: pr.Eases(), Carried: pr.Carried(place), Wanted: pr.Wanted(place),
	}
	wanted := pr.shares(w, place, pr.Wanted(place).Hold(out.Ease))
	for i := range wanted {
		a, b := pr.matched[i], pr.matched[i+1]
		from, to := Meet{w.lead.Marks[a.lead], w.follow.Marks[a.follow]}, Meet{w.lead.Marks[b.lead], w.follow.Marks[b.follow]}
		out.Parts = append(out.Parts, Part{
			From: from, To: to, Wanted: wanted[i],
			Lead: to.Lead.At - from.Lead.At, Follow: to.Follow.At - from.Follow.At,
		})
	}
	return out, nil
}

// shares is how much of an ease in all each part should have: what it has in
// print, and what is more or less than that where the print eases most, as a
// sewist would spread it; in the longest part where it eases nowhere.
func (pr *Print) shares(w sides, place, ease float64) []float64 {
	out := pr.carriedShares(place)
	var sum float64
	for _, x := range out {
		sum += x
	}
	if i := pr.givingPart(out, w, 0); i >= 0 {
		out[i] += ease - sum
	}
	return out
}

// carriedShares is by how much each part eases in print, at a place.
func (pr *Print) carriedShares(place float64) []float64 {
	i, share := pr.between(place)
	out := append([]float64(nil), pr.surplus[i]...)
	if share > 0 {
		for k, next := range pr.surplus[i+1] {
			out[k] += share * (next - out[k])
		}
	}
	return out
}

// givingPart is which of some neighbouring parts, from the matched mark first
// on, takes what ease is over: where the print eases most, else the longest.
func (pr *Print) givingPart(shares []float64, w sides, first int) int {
	const eases = 0.5 // mm that no hand eases in
	best, most := -1, eases
	for i, x := range shares {
		if x > most {
			best, most = i, x
		}
	}
	if best >= 0 {
		return best
	}
	long := -1.0
	for i := range shares {
		a, b := pr.matched[first+i], pr.matched[first+i+1]
		if l := w.lead.Marks[b.lead].At - w.lead.Marks[a.lead].At; l > long {
			best, long = i, l
		}
	}
	return best
}
