package exchange

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// shapeRuns draws a path or a basic shape in user units; none for an element
// that is no shape or draws nothing.
func shapeRuns(e *element, vp viewport, perUnit float64) ([]stroke, error) {
	get := func(name string, whole float64) (float64, error) {
		s, ok := e.attr[name]
		if !ok {
			return 0, nil
		}
		l, ok := parseLength(s)
		if !ok {
			return 0, unusable(words.F("A %s of this drawing has the measure %s=“%s”, which cannot be read. Save it as plain SVG and bring it in again.", e.name, name, shorten(s)))
		}
		return l.user(whole), nil
	}
	diagonal := math.Hypot(vp.w, vp.h) / math.Sqrt2
	var v [6]float64
	for i, want := range measures[e.name] {
		whole := [...]float64{vp.w, vp.h, vp.w, vp.h, vp.w, vp.h}[i]
		if want == "r" {
			whole = diagonal
		}
		var err error
		if v[i], err = get(want, whole); err != nil {
			return nil, err
		}
	}
	switch e.name {
	case "path":
		runs, trouble := parsePath(e.attr["d"], perUnit)
		if trouble != "" {
			return nil, unusable(words.F("The line %s cannot be read near “%s”. Save the drawing as plain SVG and bring it in again.", quoted(e), trouble))
		}
		return runs, nil
	case "line":
		return []stroke{{path: geom.Polyline(geom.Pt(v[0], v[1]), geom.Pt(v[2], v[3]))}}, nil
	case "polyline", "polygon":
		return polyRun(e)
	case "circle":
		return ovalRun(v[0], v[1], v[2], v[2], perUnit), nil
	case "ellipse":
		return ovalRun(v[0], v[1], v[2], v[3], perUnit), nil
	case "rect":
		_, hasX := e.attr["rx"]
		_, hasY := e.attr["ry"]
		if !hasX {
			v[4] = v[5]
		}
		if !hasY {
			v[5] = v[4]
		}
		return rectRun(v, perUnit), nil
	}
	return nil, nil
}

// measures lists each shape's lengths: those along x at even places, along y
// at odd ones; r is measured on the diagonal.
var measures = map[string][]string{
	"line":    {"x1", "y1", "x2", "y2"},
	"circle":  {"cx", "cy", "r"},
	"ellipse": {"cx", "cy", "rx", "ry"},
	"rect":    {"x", "y", "width", "height", "rx", "ry"},
}

func polyRun(e *element) ([]stroke, error) {
	v, ok := numbers(e.attr["points"])
	if !ok || len(v)%2 != 0 {
		return nil, unusable(words.F("The points of the line %s cannot be read. Save the drawing as plain SVG and bring it in again.", quoted(e)))
	}
	var pts []geom.Point
	for i := 0; i < len(v); i += 2 {
		pts = append(pts, geom.Pt(v[i], v[i+1]))
	}
	if len(pts) < 2 {
		return nil, nil
	}
	return []stroke{{path: geom.Polyline(pts...), closed: e.name == "polygon"}}, nil
}

func ovalRun(cx, cy, rx, ry, perUnit float64) []stroke {
	if !(rx > 0 && ry > 0) {
		return nil
	}
	p := ellipse{geom.Vec{X: cx, Y: cy}, geom.Vec{X: rx}, geom.Vec{Y: ry}}.arc(0, 2*math.Pi, perUnit)
	p[len(p)-1].P3 = p[0].P0
	return []stroke{{path: p, closed: true}}
}

// rectRun draws a rectangle of x, y, width, height, rx, ry from its top left
// corner, clockwise (SVG 1.1, 9.2).
func rectRun(v [6]float64, perUnit float64) []stroke {
	x, y, w, h := v[0], v[1], v[2], v[3]
	if !(w > 0 && h > 0) {
		return nil
	}
	rx, ry := min(math.Abs(v[4]), w/2), min(math.Abs(v[5]), h/2)
	corners := [4]geom.Point{{X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}, {X: x, Y: y}}
	to := [4]geom.Vec{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}
	at := geom.Pt(x+rx, y)
	var p geom.Path
	for i, c := range corners {
		before, after := to[i], to[(i+1)%4]
		in := c.Add(geom.Vec{X: -before.X * rx, Y: -before.Y * ry})
		out := c.Add(geom.Vec{X: after.X * rx, Y: after.Y * ry})
		if in != at {
			p = append(p, geom.Line(at, in))
		}
		if rx > 0 && ry > 0 {
			p = append(p, endArc(in, out, rx, ry, 0, false, true, perUnit)...)
		}
		at = out
	}
	if len(p) > 0 {
		p[len(p)-1].P3 = p[0].P0
	}
	return []stroke{{path: p, closed: true}}
}

// quoted names an element for a sentence.
func quoted(e *element) string {
	for _, s := range []string{e.title, e.label, e.attr["id"]} {
		if s != "" {
			return "“" + shorten(s) + "”"
		}
	}
	return words.T("without a name")
}
