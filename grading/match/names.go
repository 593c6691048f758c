package match

import (
	"fmt"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

// named gives a piece's edges and points the names their place tells, and the
// edges their kinds. The words front, back, sleeve, facing, skirt and the like
// in the piece's name count. A piece may lie on its head. Where the shape does
// not fit what is usual for such a piece, edges are numbered.
func named(q model.Piece) model.Piece {
	n := newNamer(q, false)
	if !n.all() {
		if other := newNamer(q, true); other.all() {
			n = other
		}
	}
	n.folds()
	for k := range n.edge {
		if n.edge[k] == "" {
			n.edge[k] = words.F("edge %d", k+1)
		}
	}
	once(n.edge)
	once(n.point)
	q.Edges = append([]model.Edge(nil), q.Edges...)
	q.Points = append([]model.GradePoint(nil), q.Points...)
	for k := range q.Edges {
		q.Edges[k].Name, q.Edges[k].Kind = n.edge[k], n.kind[k]
		q.Points[k].Name = n.point[k]
	}
	return q
}

func newNamer(q model.Piece, head bool) *namer {
	s := newShape(q, head)
	n := &namer{shape: s, edge: make([]string, s.n()), point: make([]string, s.n()), kind: make([]model.EdgeKind, s.n())}
	for k, g := range q.Points {
		n.point[k] = g.Name
	}
	return n
}

// all names what it can and reports whether the shape is what is usual for the
// piece, so that all of it is named.
func (n *namer) all() bool {
	switch {
	case n.has("sleeve"):
		return n.sleeve()
	case n.has("facing"):
		return n.facing()
	case n.has("skirt", "trouser", "pants", "shorts"):
		return n.lower()
	case n.has("collar", "cuff", "band", "pocket", "belt", "binding"):
		return true // too many shapes to tell
	}
	return n.bodice()
}

type namer struct {
	*shape
	edge, point []string
	kind        []model.EdgeKind
}

// once numbers names that are used again.
func once(names []string) {
	used := map[string]int{}
	for k, name := range names {
		if used[name]++; name != "" && used[name] > 1 {
			names[k] = fmt.Sprintf("%s %d", name, used[name])
		}
	}
}

// centre is the straight edge along the grain at one side of the piece, at
// least share of its height; -1 when there is none or two alike. Of two, the
// one that reaches clearly higher is meant, as a centre line does that ends at
// the neck and not under the arm; else the one that keeps its place across from
// size to size: most nests are printed with their centre lines together.
func (n *namer) centre(share float64) int {
	var all []int
	for k := range n.edges {
		if !n.upright(k) || math.Abs(n.chord(k).along) < share*n.size.along {
			continue
		}
		side := (n.pt[k].across - n.lo.across) / n.size.across
		if side < 0.05 || side > 0.95 {
			all = append(all, k)
		}
	}
	if len(all) == 2 {
		if up := n.top(all[0]) - n.top(all[1]); math.Abs(up) > 0.1 {
			if up > 0 {
				return all[0]
			}
			return all[1]
		}
		a, b := n.drift(all[0]), n.drift(all[1])
		if a > b {
			all[0], all[1] = all[1], all[0]
			a, b = b, a
		}
		if a < 1 && b > 2 {
			all = all[:1]
		}
	}
	if len(all) != 1 {
		return -1
	}
	return all[0]
}

// top is the height of an edge's upper end.
func (n *namer) top(k int) float64 { return max(n.height(k), n.height(n.next(k))) }

// drift is how far in mm an edge moves across from the smallest size to the
// largest.
func (n *namer) drift(k int) float64 {
	first, last := n.q.Nest[0].Edges[k], n.edges[k]
	return math.Abs(n.flat(last.Start().Sub(first.Start())).across)
}

// setCentre names an edge as the centre line and returns whether the outline
// runs up it.
func (n *namer) setCentre(k int) (up bool) {
	n.kind[k] = model.Centre
	n.edge[k] = words.T("centre")
	switch {
	case n.has("back"):
		n.edge[k] = words.T("centre back")
	case n.has("front"):
		n.edge[k] = words.T("centre front")
	}
	return n.chord(k).along < 0
}

// walk lists the edges from the centre's upper end round to its lower end,
// each with the grade point it is left from, walked away from the centre.
func (n *namer) walk(centre int, up bool) (edges, points []int) {
	k := centre
	for range n.n() - 1 {
		if up {
			k = n.next(k)
			edges, points = append(edges, k), append(points, k)
		} else {
			k = n.before(k)
			edges, points = append(edges, k), append(points, n.next(k))
		}
	}
	return edges, points
}

// hem is the lowest edge that runs across, within the lowest quarter of the
// piece; -1 for none.
func (n *namer) hem() int {
	best, low := -1, 0.25
	for k := range n.edges {
		if h := (n.height(k) + n.height(n.next(k))) / 2; n.across(k) && h < low {
			best, low = k, h
		}
	}
	return best
}

// hems is the hem with the edges beside it that also run across near the
// bottom, as a pointed hem has.
func (n *namer) setHems(first int) map[int]bool {
	out := map[int]bool{first: true}
	for _, step := range []func(int) int{n.next, n.before} {
		for k := step(first); !out[k] && n.across(k) && n.height(k) < 0.15 && n.height(n.next(k)) < 0.15; k = step(k) {
			out[k] = true
		}
	}
	for k := range out {
		n.edge[k], n.kind[k] = words.T("hem"), model.Hem
	}
	return out
}

// bodice names a body piece by walking from the top of the centre line:
// neckline up to the neck point, shoulder down to its tip, armhole to the
// underarm, side seam to the hem.
func (n *namer) bodice() bool {
	c, h := n.centre(0.35), n.hem()
	if h >= 0 {
		n.setHems(h)
	}
	if c < 0 || h < 0 {
		return false
	}
	up := n.setCentre(c)
	edges, points := n.walk(c, up)
	last := len(edges) // the first hem edge on the way
	for i, k := range edges {
		if n.kind[k] == model.Hem {
			last = i
			break
		}
	}
	n.point[n.lowEnd(c)] = words.T("centre hem")
	if last < len(edges) {
		n.point[points[last]] = words.T("side hem")
	}
	neck := n.neckPoint(points[:min(last+1, len(points))])
	if neck < 1 || last-neck < 3 {
		return false
	}
	corners := n.cornersFrom(points, neck+1, last)
	if len(corners) < 2 || !n.slopesDown(edges[neck]) {
		return false
	}
	tip, arm := corners[0], corners[1]
	n.point[points[0]], n.point[points[neck]] = words.T("centre neck"), words.T("neck point")
	n.point[points[tip]], n.point[points[arm]] = words.T("shoulder tip"), words.T("underarm")
	n.fill(edges[:neck], words.T("neckline"))
	n.fill(edges[neck:tip], words.T("shoulder"))
	n.fill(edges[tip:arm], words.T("armhole"))
	n.sideSeam(edges, points, arm, last, corners[2:])
	return true
}

// lowEnd is the grade point at the lower end of an edge.
func (n *namer) lowEnd(k int) int {
	if n.height(k) < n.height(n.next(k)) {
		return k
	}
	return n.next(k)
}

// neckPoint is the place in the walk of the highest corner, -1 if that is not
// in the upper fifth.
func (n *namer) neckPoint(points []int) int {
	best := 0
	for i, p := range points {
		if !n.q.Points[p].Smooth && n.height(p) > n.height(points[best]) {
			best = i
		}
	}
	if n.height(points[best]) < 0.8 {
		return -1
	}
	return best
}

// cornersFrom lists the places in the walk from first up to last, not counting
// last, that are corners.
func (n *namer) cornersFrom(points []int, first, last int) []int {
	var out []int
	for i := first; i < last; i++ {
		if !n.q.Points[points[i]].Smooth {
			out = append(out, i)
		}
	}
	return out
}

// slopesDown reports whether an edge runs more across than along, as a
// shoulder does.
func (n *namer) slopesDown(k int) bool {
	c := n.chord(k)
	return math.Abs(c.across) > 0.5*math.Abs(c.along)
}

func (n *namer) sideSeam(edges, points []int, arm, last int, corners []int) {
	if len(corners) != 1 {
		n.fill(edges[arm:last], words.T("side seam"))
		return
	}
	waist := corners[0]
	n.point[points[waist]] = words.T("waist")
	n.fill(edges[arm:waist], words.T("side seam above waist"))
	n.fill(edges[waist:last], words.T("side seam below waist"))
}

func (n *namer) fill(edges []int, name string) {
	for _, k := range edges {
		n.edge[k] = name
	}
}

// facing names a neck facing: neckline, shoulder, inner edge.
func (n *namer) facing() bool {
	c := n.centre(0.2)
	if c < 0 {
		return false
	}
	up := n.setCentre(c)
	edges, points := n.walk(c, up)
	neck := n.neckPoint(points)
	if neck < 1 {
		return false
	}
	corners := n.cornersFrom(points, neck+1, len(points))
	if len(corners) != 1 {
		return false
	}
	end := corners[0]
	n.point[points[0]], n.point[points[neck]] = words.T("centre neck"), words.T("neck point")
	n.point[points[end]], n.point[n.lowEnd(c)] = words.T("shoulder end"), words.T("centre edge")
	n.fill(edges[:neck], words.T("neckline"))
	n.fill(edges[neck:end], words.T("shoulder"))
	n.fill(edges[end:], words.T("inner edge"))
	return true
}

// lower names a skirt or trouser piece: waistline, side seam, hem.
func (n *namer) lower() bool {
	c, h := n.centre(0.5), n.hem()
	if h >= 0 {
		n.setHems(h)
	}
	if c < 0 || h < 0 {
		return false
	}
	up := n.setCentre(c)
	edges, points := n.walk(c, up)
	i := 0
	for i < len(edges) && n.across(edges[i]) && n.height(points[i]) > 0.8 {
		i++
	}
	last := i
	for last < len(edges) && n.kind[edges[last]] != model.Hem {
		last++
	}
	if i == 0 || last == len(edges) {
		return false
	}
	n.fill(edges[:i], words.T("waistline"))
	n.fill(edges[i:last], words.T("side seam"))
	n.point[points[0]], n.point[points[i]] = words.T("centre waist"), words.T("side waist")
	n.point[points[last]], n.point[n.lowEnd(c)] = words.T("side hem"), words.T("centre hem")
	return true
}

// sleeve names a sleeve from its crown: cap, underarm seams, hem. The half of
// the cap with a double notch is the back one (common practice); without one
// the halves are told by where they lie on paper.
func (n *namer) sleeve() bool {
	crown := -1
	for k, name := range n.point {
		if glossary.English(name) == "crown" {
			crown = k
		}
	}
	h := n.hem()
	if h >= 0 {
		n.edge[h], n.kind[h] = words.T("sleeve hem"), model.Hem
	}
	if crown < 0 || h < 0 || n.height(crown) < 0.9 {
		return false
	}
	after, before := n.halves(crown)
	n.edge[crown], n.edge[n.before(crown)] = after.cap.String(), before.cap.String()
	n.point[n.next(crown)], n.point[n.before(crown)] = after.underarm.String(), before.underarm.String()
	n.point[h], n.point[n.next(h)] = after.wrist.String(), before.wrist.String()
	for k := n.next(crown); k != h && k != crown; k = n.next(k) {
		n.edge[k] = after.seam.String()
	}
	for k := n.next(h); k != n.before(crown) && k != crown; k = n.next(k) {
		n.edge[k] = before.seam.String()
	}
	return true
}

// halves says which half of a sleeve the outline runs along after the crown
// and which before.
func (n *namer) halves(crown int) (after, before sleeveHalf) {
	double := map[string]bool{}
	for _, m := range n.q.Notches {
		double[m.Edge] = double[m.Edge] || m.Double
	}
	a, b := double[n.q.Edges[crown].ID], double[n.q.Edges[n.before(crown)].ID]
	switch {
	case a && !b:
		return backHalf, frontHalf
	case b && !a:
		return frontHalf, backHalf
	case n.chord(crown).across > 0:
		return rightHalf, leftHalf
	}
	return leftHalf, rightHalf
}

// sleeveHalf is what the parts of one half of a sleeve are called.
type sleeveHalf struct{ cap, underarm, wrist, seam words.Text }

var (
	frontHalf = sleeveHalf{words.Text("front cap"), words.Text("front underarm"), words.Text("front wrist"), words.Text("front underarm seam")}
	backHalf  = sleeveHalf{words.Text("back cap"), words.Text("back underarm"), words.Text("back wrist"), words.Text("back underarm seam")}
	leftHalf  = sleeveHalf{words.Text("left cap"), words.Text("left underarm"), words.Text("left wrist"), words.Text("left underarm seam")}
	rightHalf = sleeveHalf{words.Text("right cap"), words.Text("right underarm"), words.Text("right wrist"), words.Text("right underarm seam")}
)

// onEdge is how near in mm a fold line lies to the edge it belongs to.
const onEdge = 3.0

// folds marks the edges on the fold of the cloth: those a fold line lies on,
// or the centre line of a piece whose name says so.
func (n *namer) folds() {
	for k := range n.edges {
		onFold := n.has("on fold", "on the fold")                   // words: none
		if onFold && n.kind[k] == model.Centre || n.foldLineOn(k) { // words: none
			n.kind[k] = model.Fold
			if n.edge[k] == "" {
				n.edge[k] = words.T("fold")
			}
		}
	}
}

func (n *namer) foldLineOn(k int) bool {
	for _, l := range n.q.Lines {
		if l.Kind != model.FoldLine {
			continue
		}
		for _, d := range l.Drawn {
			for _, o := range n.q.Nest {
				if (d.Size == "" || d.Size == o.Size) && liesOn(d.Path, o.Edges[k]) {
					return true
				}
			}
		}
	}
	return false
}

func liesOn(line, edge geom.Path) bool {
	for _, p := range line.Flatten(1) {
		if _, _, d := edge.Nearest(p, 0.1); d > onEdge {
			return false
		}
	}
	return true
}
