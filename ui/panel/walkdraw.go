package panel

import (
	"image"
	"math"

	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme"
	"quarterstep/ui/view"
)

// walkLay takes mm along either side of a seam to px across the strip.
type walkLay struct {
	x, scale             float64 // px of the pair of places that meet; px a mm
	meetLead, meetFollow float64
}

// layWalk lays both sides to one scale between x0 and x1, so that the pair that
// meets lies one above the other.
func layWalk(v WalkView, x0, x1 float64) walkLay {
	before := max(v.MeetLead, v.MeetFollow)
	after := max(v.Lead.Long-v.MeetLead, v.Follow.Long-v.MeetFollow)
	scale := max(x1-x0, 1) / max(before+after, 1)
	return walkLay{x0 + before*scale, scale, v.MeetLead, v.MeetFollow}
}

func (l walkLay) lead(s float64) float64   { return l.x + (s-l.meetLead)*l.scale }
func (l walkLay) follow(s float64) float64 { return l.x + (s-l.meetFollow)*l.scale }

// nearMark is the mark within a finger's breadth of x, -1 for none.
func (l walkLay) nearMark(marks []WalkMark, at func(float64) float64, x float64) int {
	best, near := -1, 9.0
	for i, m := range marks {
		if d := math.Abs(at(m.At) - x); d < near {
			best, near = i, d
		}
	}
	return best
}

// part is the part that x lies in, a share down from the follower to the
// leader; -1 for none.
func (l walkLay) part(parts []WalkPart, x, down float64) int {
	for i, p := range parts {
		at := func(k int) float64 { return (1-down)*l.follow(p.Follow[k]) + down*l.lead(p.Lead[k]) }
		if x >= at(0) && x < at(1) {
			return i
		}
	}
	return -1
}

// draw paints the two bars and what lies between them.
func (w *Walk) draw(width, height int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, max(width, 1), max(height, 1)))
	size := w.Size()
	if w.view.Empty != "" || size.Width <= 0 {
		return img
	}
	screen := paint.Screen{View: view.View{Scale: 1}, Factor: float64(width) / float64(size.Width)}
	paint.New(nil, theme.Now()).Paint(img, screen, w.layer())
	return img
}

func (w *Walk) layer() scene.Layer {
	l := w.lay()
	follow, lead := float64(theme.Px(w.rows().follow)), float64(theme.Px(w.rows().lead))
	var out scene.Layer
	for i, p := range w.view.Parts {
		drawPart(&out, l, p, follow+walkBar, lead, i == w.over)
	}
	drawJoins(&out, l, w.view.Parts, follow+walkBar, lead)
	bar := rect(l.follow(0), follow, l.follow(w.view.Follow.Long), follow+walkBar)
	out.Fills = append(out.Fills, scene.Fill{Outline: bar, Ink: scene.InkAccent, Alpha: 1})
	drawTicks(&out, w.view.Follow.Marks, l.follow, follow, scene.InkRaised)
	bar = rect(l.lead(0)+1, lead+1, l.lead(w.view.Lead.Long)-1, lead+walkBar-1)
	out.Fills = append(out.Fills, scene.Fill{Outline: bar, Ink: scene.InkRaised, Alpha: 1})
	out.Lines = append(out.Lines, scene.Line{Path: bar, Width: 2, Round: true, Ink: scene.InkAccent, Alpha: 1})
	drawTicks(&out, w.view.Lead.Marks, l.lead, lead, scene.InkAccent)
	return out
}

func rect(x0, y0, x1, y1 float64) geom.Path {
	return geom.Polyline(geom.Pt(x0, y0), geom.Pt(x1, y0), geom.Pt(x1, y1), geom.Pt(x0, y1), geom.Pt(x0, y0))
}

// drawPart tints what lies between two matched marks, and hatches it where it
// is to be looked at.
func drawPart(out *scene.Layer, l walkLay, p WalkPart, top, low float64, over bool) {
	f0, f1, e0, e1 := l.follow(p.Follow[0]), l.follow(p.Follow[1]), l.lead(p.Lead[0]), l.lead(p.Lead[1])
	quad := geom.Polyline(geom.Pt(f0, top), geom.Pt(f1, top), geom.Pt(e1, low), geom.Pt(e0, low), geom.Pt(f0, top))
	fill := scene.Fill{Outline: quad, Ink: scene.InkAccentTint, Alpha: 0.7}
	if over {
		fill.Alpha = 1
	}
	if p.Look {
		fill = scene.Fill{Outline: quad, Ink: scene.InkLookFill, Alpha: 0.35}
	}
	out.Fills = append(out.Fills, fill)
	if !p.Look {
		return
	}
	const apart = 11
	h := low - top
	for c := min(f0, e0); c < max(f1, e1)+h; c += apart {
		// The hatch runs from (c, top) down to (c-h, low): inside where it lies
		// right of the part's left side and left of its right one.
		from, to := within(c-f0, -h-(e0-f0), 0, 1)
		from, to = within(f1-c, (e1-f1)+h, from, to)
		if from < to {
			out.Lines = append(out.Lines, scene.Line{
				Path:  geom.Polyline(geom.Pt(c-h*from, top+h*from), geom.Pt(c-h*to, top+h*to)),
				Width: 1, Ink: scene.InkLookLine, Alpha: 0.7,
			})
		}
	}
}

// within is the part of from to to in which a + b t is not below 0.
func within(a, b, from, to float64) (float64, float64) {
	switch {
	case b > 0:
		return max(from, -a/b), to
	case b < 0:
		return from, min(to, -a/b)
	case a < 0:
		return 1, 0
	}
	return from, to
}

// drawJoins draws what matches: dashed, and a whole line where both meet.
func drawJoins(out *scene.Layer, l walkLay, parts []WalkPart, top, low float64) {
	join := func(follow, lead float64) {
		k := scene.Line{
			Path:  geom.Polyline(geom.Pt(l.follow(follow), top), geom.Pt(l.lead(lead), low)),
			Width: 1.3, Dash: []float64{3, 3}, Ink: scene.InkAccent, Alpha: 1,
		}
		if math.Abs(l.follow(follow)-l.lead(lead)) < 0.5 {
			k.Dash = nil
		}
		out.Lines = append(out.Lines, k)
	}
	for i, p := range parts {
		join(p.Follow[0], p.Lead[0])
		if i == len(parts)-1 || parts[i+1].Follow[0] != p.Follow[1] {
			join(p.Follow[1], p.Lead[1])
		}
	}
}

// drawTicks draws marks across a bar: a double notch is two ticks.
func drawTicks(out *scene.Layer, marks []WalkMark, at func(float64) float64, top float64, k scene.Ink) {
	for i, m := range marks {
		if !m.Notch && (i == 0 || i == len(marks)-1) {
			continue
		}
		shifts := []float64{0}
		if m.Double {
			shifts = []float64{-3, 3}
		}
		for _, s := range shifts {
			x := at(m.At) + s
			out.Lines = append(out.Lines, scene.Line{
				Path: geom.Polyline(geom.Pt(x, top), geom.Pt(x, top+walkBar)), Width: 2, Ink: k, Alpha: 1,
			})
		}
	}
}

// layLabels writes the marks' names above the follower, those that would run
// into another left out, ends first; and the parts' figures between the bars.
func (w *Walk) layLabels(labels []*saying, width float32) {
	v, l := w.view, w.lay()
	for _, o := range labels {
		o.Hidden = true
	}
	if v.Empty != "" {
		return
	}
	var taken [][2]float32
	put := func(i int, at float64) {
		o := labels[i]
		o.set(v.Follow.Marks[i].Name, inkSoft, false)
		wide := o.MinSize().Width
		x := min(max(float32(at)-wide/2, theme.Px(walkNames)), width-2*walkInset-wide)
		for _, t := range taken {
			if x < t[1]+8 && x+wide > t[0]-8 {
				return
			}
		}
		taken = append(taken, [2]float32{x, x + wide})
		o.Hidden = o.text == ""
		placeLine(o, x, w.rows().marks, wide)
	}
	for _, i := range labelOrder(v.Follow.Marks) {
		put(i, l.follow(v.Follow.Marks[i].At))
	}
	middleOf := theme.Px(w.rows().follow+walkBar+w.rows().lead) / 2
	for i, p := range v.Parts {
		o := labels[len(v.Follow.Marks)+i]
		figure := p.Short // the unit is said once
		if p.Look {
			figure = p.Figure
		}
		o.set(figure, pickTone(p.Look, amberInk, accentInk), true)
		room := float32((p.Follow[1]-p.Follow[0]+p.Lead[1]-p.Lead[0])/2*l.scale) - 6
		if o.MinSize().Width > room {
			o.setText(p.Short)
		}
		m := o.MinSize()
		o.Hidden = m.Width > room
		mid := (l.follow(p.Follow[0]) + l.follow(p.Follow[1]) + l.lead(p.Lead[0]) + l.lead(p.Lead[1])) / 4
		place(o, float32(mid)-m.Width/2, middleOf-m.Height/2, m.Width, m.Height)
	}
}

// labelOrder is the order in which marks get their names: the two ends, what is
// no notch, then notches.
func labelOrder(marks []WalkMark) []int {
	var ends, corners, notches []int
	for i, m := range marks {
		switch {
		case i == 0 || i == len(marks)-1:
			ends = append(ends, i)
		case m.Notch:
			notches = append(notches, i)
		default:
			corners = append(corners, i)
		}
	}
	return append(append(ends, corners...), notches...)
}
