package exchange

import (
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// What a drawing may unfold to: far above any nest, low enough to be sorted out
// in a moment.
const (
	mostCubics = 500_000
	mostUses   = 20
	mostShown  = 400_000
	mostWork   = mostBytes + 8<<20 // bytes of attributes looked at; a copy is looked at again
	mostRuns   = 60_000
	mostSaid   = 20     // layers told of
	mostLabels = 20_000 // that differ, of groups and lines
)

// reach is how far from the sheet's corner a line may lie, in mm: fifty metres
// are no pattern.
const reach = 5e4

// found is one run of the drawing on paper, in mm, with what is known of it.
type found struct {
	path   geom.Path
	closed bool
	sizes  []string // of the chart, smallest first; none outside the size layers
	all    bool     // the layer says "all sizes"
	odd    bool     // the layer is named by numbers that are no sizes of the chart
	as     string   // the layer's name as written, to strip it from an id
	name   string
	id     string
	nested string // name of the innermost group inside the size layer
	outer  string // name of the innermost group outside it
	part   int    // which element it belongs to
	extent
}

// extent is what is worked out once of a closed line.
type extent struct {
	area float64 // mm², never below 0
	hull geom.Box
}

func extentOf(p geom.Path) extent {
	return extent{abs(p.Area()), geom.BoxOf(p.Controls()...)}
}

// walker unfolds the drawing into runs.
type walker struct {
	chart  model.SizeChart
	byID   map[string]*element
	runs   []found
	groups []string // names of groups that are no sizes
	hidden []string // labels of size layers that are hidden
	odd    []string // layers named by a number that is no size of the chart
	sizes  int      // size layers met
	parts  int
	cubics int
	shown  int
	work   int
	read   map[string][]string // sizes by the label that names them
}

// place is where in the drawing the walker stands.
type place struct {
	vp    viewport
	found // size and names so far
	use   string
	uses  int
}

func (w *walker) index(e *element) {
	if id := e.attr["id"]; id != "" {
		if _, ok := w.byID[id]; !ok {
			w.byID[id] = e
		}
	}
	for _, k := range e.kids {
		w.index(k)
	}
}

func (w *walker) kids(e *element, at place) error {
	for _, k := range e.kids {
		if err := w.walk(k, at); err != nil {
			return err
		}
	}
	return nil
}

func (w *walker) walk(e *element, at place) error {
	w.work += e.bytes
	if w.shown++; w.shown > mostShown || w.work > mostWork || len(w.read) > mostLabels {
		return unusable(words.T("This drawing repeats its parts too often to read. Keep the cutting lines and their marks only and save it again."))
	}
	if e.hidden() {
		if sizes, _, ok := w.sizesOf(e); ok && e.name == "g" {
			w.hidden = noted(w.hidden, sizeLabel(sizes))
		}
		return nil
	}
	m, err := parseTransform(e.attr["transform"])
	if err != nil {
		return err
	}
	at.vp.toMM = at.vp.toMM.Mul(m)
	switch e.name {
	case "g", "a", "switch":
		return w.kids(e, w.enter(e, at))
	case "svg":
		return w.nested(e, e, at)
	case "use":
		return w.useOf(e, at)
	case "path", "rect", "circle", "ellipse", "line", "polyline", "polygon":
		return w.shape(e, at)
	}
	return nil
}

// enter is the place inside a group.
func (w *walker) enter(e *element, at place) place {
	sizes, as, ok := w.sizesOf(e)
	name := groupName(e)
	switch {
	case ok:
		if len(sizes) > 0 {
			w.sizes++
		}
		at.sizes, at.as, at.all = sizes, as, len(sizes) == 0
		at.outer, at.nested = firstOf(at.nested, at.outer), ""
	case len(at.sizes) > 0 || at.all:
		at.nested = firstOf(groupTitle(e), at.nested)
	default:
		at.outer = firstOf(groupTitle(e), at.outer)
		if e.name == "g" && name != "" {
			w.groups = noted(w.groups, name)
			if otherSizes.MatchString(bareSize(groupTitle(e))) {
				w.odd = noted(w.odd, name)
				at.odd = true
			}
		}
	}
	return at
}

// noted is names with one more, as many as can be told.
func noted(names []string, one string) []string {
	if len(names) >= mostSaid {
		return names
	}
	return append(names, one)
}

func groupName(e *element) string  { return firstOf(e.label, e.title, e.attr["id"]) }
func groupTitle(e *element) string { return firstOf(e.title, e.label) }

func firstOf(names ...string) string {
	for _, s := range names {
		if s = strings.TrimSpace(s); s != "" {
			return s
		}
	}
	return ""
}

// sizesOf is the sizes of the chart that a group is named after, none for one
// that says it serves all.
func (w *walker) sizesOf(e *element) (sizes []string, as string, ok bool) {
	for _, name := range []string{e.label, e.title, e.attr["id"]} {
		name = strings.TrimSpace(name)
		if name == "" {
			continue
		}
		if sizes := w.sizesIn(name); len(sizes) > 0 {
			return sizes, bareSize(name), true
		}
		if saysAllSizes(name) {
			return nil, name, true
		}
		if name == e.label {
			break // a layer's own label decides
		}
	}
	return nil, "", false
}

// sizesIn is sizesNamed, worked out once for every label.
func (w *walker) sizesIn(label string) []string {
	sizes, ok := w.read[label]
	if !ok {
		sizes = sizesNamed(label, w.chart)
		w.read[label] = sizes
	}
	return sizes
}

// nested enters an inner svg element, or a symbol by way of the use element
// that gives its place and size.
func (w *walker) nested(e, sized *element, at place) error {
	var v [4]float64
	for i, name := range []string{"x", "y", "width", "height"} {
		whole := at.vp.w
		if i%2 == 1 {
			whole = at.vp.h
		}
		s, ok := sized.attr[name]
		if !ok {
			s, ok = e.attr[name]
		}
		if !ok || s == "auto" {
			v[i] = [...]float64{0, 0, at.vp.w, at.vp.h}[i]
			continue
		}
		l, ok := parseLength(s)
		if !ok {
			return unusable(words.F("A part of this drawing has the measure %s=“%s”, which cannot be read. Save it as plain SVG and bring it in again.", name, shorten(s)))
		}
		v[i] = l.user(whole)
	}
	if v[2] <= 0 || v[3] <= 0 {
		return nil // nothing of it is shown
	}
	vp, err := at.vp.within(e, v[0], v[1], v[2], v[3])
	if err != nil {
		return err
	}
	at.vp = vp
	return w.kids(e, w.enter(e, at))
}

// useOf shows another element once more, at the use element's place.
func (w *walker) useOf(e *element, at place) error {
	id, ok := strings.CutPrefix(strings.TrimSpace(e.attr["href"]), "#")
	target := w.byID[id]
	if !ok || target == nil {
		return nil
	}
	if at.uses++; at.uses > mostUses {
		return unusable(words.F("In this drawing the part “%s” is a copy of itself. Unlink the copies, save it as plain SVG and bring it in again.", shorten(id)))
	}
	at.use = firstOf(groupTitle(e), at.use)
	if target.name == "symbol" {
		m, err := parseTransform(target.attr["transform"])
		if err != nil {
			return err
		}
		at.vp.toMM = at.vp.toMM.Mul(m)
		return w.nested(target, e, at)
	}
	var v [2]float64
	for i, name := range []string{"x", "y"} {
		if s, ok := e.attr[name]; ok {
			l, ok := parseLength(s)
			if !ok {
				return unusable(words.F("A copy in this drawing stands at %s=“%s”, which cannot be read. Save it as plain SVG and bring it in again.", name, shorten(s)))
			}
			v[i] = l.user([...]float64{at.vp.w, at.vp.h}[i])
		}
	}
	at.vp.toMM = at.vp.toMM.Mul(geom.Translate(geom.Vec{X: v[0], Y: v[1]}))
	return w.walk(target, at)
}

func (w *walker) shape(e *element, at place) error {
	runs, err := shapeRuns(e, at.vp, stretch(at.vp.toMM))
	if err != nil {
		return err
	}
	w.parts++
	for _, r := range runs {
		if w.cubics += len(r.path); w.cubics > mostCubics || len(w.runs) > mostRuns {
			return unusable(words.T("This drawing has too many lines to read. Leave out what is no cutting line or mark, simplify the lines and save it again."))
		}
		f := at.found
		f.name, f.id, f.part = firstOf(at.use, e.title, e.label), e.attr["id"], w.parts
		f.path = onPaper(r.path, at.vp.toMM)
		f.closed = r.closed
		w.titled(&f)
		for _, c := range f.path {
			for _, p := range [4]geom.Point{c.P0, c.P1, c.P2, c.P3} {
				if !p.Finite() || max(p.X, -p.X, p.Y, -p.Y) > reach {
					return unusable(words.F("The line %s runs to a place that cannot be on paper. Check the scale and the transforms of the drawing.", inSize(quoted(e), f.sizes)))
				}
			}
		}
		if f.path = closeRing(&f); len(f.path) > 0 {
			w.runs = append(w.runs, f)
		}
	}
	return nil
}

// titled settles a run by what its own name says of sizes: a title that says
// the sizes only names nothing, those of the layer are taken off it, others
// count where there is no layer, and "all sizes" counts in any.
func (w *walker) titled(f *found) {
	if strings.EqualFold(f.name, f.as) || len(f.sizes) > 0 && slices.Equal(w.sizesIn(f.name), f.sizes) {
		f.name = ""
		return
	}
	name, sizes, all := sizesAfter(f.name, w.sizesIn)
	switch {
	case all:
		f.name, f.sizes, f.all = name, nil, true
	case len(sizes) > 0 && len(f.sizes) == 0 && !f.all:
		f.name, f.sizes = name, sizes
		w.sizes++
	case len(sizes) > 0 && slices.Equal(sizes, f.sizes):
		f.name = name
	}
}

// inSize names a line with the sizes it is of, if any.
func inSize(line string, sizes []string) string {
	if len(sizes) == 0 {
		return line
	}
	return words.F("%s of size %s", line, sizeLabel(sizes))
}

// onPaper takes a path to mm and leaves out cubics that are single points.
func onPaper(p geom.Path, m geom.Affine) geom.Path {
	var out geom.Path
	for _, c := range p.Transform(m) {
		if c.P0.Dist(c.P1) < pointSize && c.P0.Dist(c.P2) < pointSize && c.P0.Dist(c.P3) < pointSize {
			continue
		}
		if len(out) > 0 {
			c.P0 = out[len(out)-1].P3
		}
		out = append(out, c)
	}
	return out
}

const (
	pointSize = 1e-7 // mm; a curve smaller than this is a point
	closeTol  = 0.01 // mm; a line that ends this near its start is closed
	thinArea  = 1.0  // mm²; less than this is a line drawn there and back
)

// closeRing settles whether a run is closed, and closes it exactly.
func closeRing(f *found) geom.Path {
	p := f.path
	gap := p.Start().Dist(p.End())
	if len(p) == 0 || !f.closed && gap > closeTol {
		return p
	}
	if a := p.Area(); a < thinArea && a > -thinArea {
		f.closed = false
		return p
	}
	f.closed = true
	if gap > closeTol {
		return append(p, geom.Line(p.End(), p.Start()))
	}
	p[len(p)-1].P3 = p.Start()
	return p
}
