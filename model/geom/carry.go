package geom

// CarryEnds moves the start of p by start and its end by end, in mm, and lets
// the curve between go along: a straight path stays straight (within tol), a
// curve keeps the handles at its two ends, so that it leaves them in the same
// direction. An empty path stays empty.
func (p Path) CarryEnds(start, end Vec, tol float64) Path {
	return p.CarryEndsAs(p, start, end, tol)
}

// CarryEndsAs is CarryEnds with like in place of p where the share is read that
// each control point takes of the two movements, so that the same edge in two
// sizes goes along alike. A like of another number of cubics is not used.
func (p Path) CarryEndsAs(like Path, start, end Vec, tol float64) Path {
	if len(p) == 0 || start.IsZero() && end.IsZero() {
		return p
	}
	if len(like) != len(p) {
		like = p
	}
	ctl := p.Controls()
	last := len(ctl) - 1
	share := chordShares(like.Controls())
	if !p.IsStraight(tol) && !like.IsStraight(tol) {
		share[1], share[last-1] = 0, 1
	}
	for k, u := range share {
		ctl[k] = ctl[k].Add(start.Scale(1 - u)).Add(end.Scale(u))
	}
	return FromControls(ctl)
}

// chordShares is how far along the polygon of joints each control point lies,
// 0 to 1, handles at the thirds between their joints.
func chordShares(ctl []Point) []float64 {
	share := make([]float64, len(ctl))
	for k := 3; k < len(ctl); k += 3 {
		share[k] = share[k-3] + ctl[k].Dist(ctl[k-3])
	}
	total := share[len(ctl)-1]
	for k := 0; k+3 < len(ctl); k += 3 {
		a, b := share[k], share[k+3]
		share[k+1], share[k+2] = a+(b-a)/3, a+2*(b-a)/3
	}
	for k := range share {
		if total > 0 {
			share[k] /= total
		} else {
			share[k] = float64(k) / float64(len(ctl)-1)
		}
	}
	return share
}
