package paint

// run is a stretch of the painter's points: one unbroken piece of line.
type run struct{ from, to int }

// mostDashes is how many dashes one line may have: a metre of line at the
// closest look has a tenth of that.
const mostDashes = 50_000

// dashed cuts the polyline line into the dashes of pattern (px drawn, px left
// out, ...) and appends their points and runs. A pattern without length draws
// the whole line, and so does one that would make more than mostDashes: a line of
// a kilometre, looked at closely, would else take all memory there is.
func dashed(pts []pt, runs []run, line []pt, pattern []float64) ([]pt, []run) {
	var whole float64
	for _, d := range pattern {
		whole += max(d, 0)
	}
	var long float64
	for i := 1; i < len(line); i++ {
		long += line[i].sub(line[i-1]).len()
	}
	if whole < 0.5 || len(pattern)%2 != 0 || long > mostDashes*whole {
		from := len(pts)
		pts = append(pts, line...)
		return pts, append(runs, run{from, len(pts)})
	}
	k, left := 0, pattern[0]
	start := len(pts)
	drawing := func() bool { return k%2 == 0 }
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		length := b.sub(a).len()
		if length == 0 {
			continue
		}
		dir := b.sub(a).scale(1 / length)
		done := 0.0
		if drawing() && len(pts) == start {
			pts = append(pts, a)
		}
		for length-done > left {
			done += left
			p := a.add(dir.scale(done))
			if drawing() {
				pts = append(tidy(pts, start, p), p)
				runs = append(runs, run{start, len(pts)})
				start = len(pts)
			} else {
				start = len(pts)
				pts = append(pts, p)
			}
			k = (k + 1) % len(pattern)
			left = max(pattern[k], 1e-3)
		}
		left -= length - done
		if drawing() && (len(pts) > start+1 || apart(pts[start], b)) {
			pts = append(pts, b)
		}
	}
	if drawing() && len(pts)-start >= 2 {
		runs = append(runs, run{start, len(pts)})
	}
	return pts, runs
}

// apart reports whether two places are a pixel or more apart.
func apart(a, b pt) bool { return b.sub(a).len() >= 1 }

// tidy takes back the last point of the dash that began at start where it lies
// within a pixel of the dash's end p: the cut end must belong to a chord longer
// than the smoothing.
func tidy(pts []pt, start int, p pt) []pt {
	if last := len(pts) - 1; last > start && !apart(pts[last], p) {
		return pts[:last]
	}
	return pts
}
