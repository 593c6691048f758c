package exchange

import (
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// viewport is a drawing area: how its user units lie on the paper in mm, and
// its width and height in those units, for lengths in percent.
type viewport struct {
	toMM geom.Affine
	w, h float64
}

// rootViewport reads the outermost svg element. Where it gives no size of its
// own, a user unit counts as one pixel of 1/96 in and sure is false.
func rootViewport(e *element) (vp viewport, sure bool, err error) {
	box, hasBox, err := viewBox(e)
	if err != nil {
		return viewport{}, false, err
	}
	w, okW := paperLength(e.attr["width"])
	h, okH := paperLength(e.attr["height"])
	sure = okW || okH
	switch {
	case !hasBox:
		// Without a viewBox user units are pixels whatever the size.
		return viewport{geom.ScaleXY(mmPerPx, mmPerPx), w / mmPerPx, h / mmPerPx}, sure, nil
	case !sure:
		w, h = box.Width()*mmPerPx, box.Height()*mmPerPx
	case !okW:
		w = h * box.Width() / box.Height()
	case !okH:
		h = w * box.Height() / box.Width()
	}
	return viewport{fitBox(box, w, h, e.attr["preserveAspectRatio"]), box.Width(), box.Height()}, sure, nil
}

// paperLength is a width in mm; false where it is missing, in percent, or
// nothing.
func paperLength(s string) (float64, bool) {
	l, ok := parseLength(s)
	if !ok || l.unit == "%" || l.v <= 0 {
		return 0, false
	}
	return l.v * mmPer[l.unit], true
}

// within is the drawing area of a nested svg or a symbol, w by h user units of
// vp at x, y.
func (vp viewport) within(e *element, x, y, w, h float64) (viewport, error) {
	at := vp.toMM.Mul(geom.Translate(geom.Vec{X: x, Y: y}))
	box, ok, err := viewBox(e)
	if err != nil || !ok {
		return viewport{at, w, h}, err
	}
	return viewport{at.Mul(fitBox(box, w, h, e.attr["preserveAspectRatio"])), box.Width(), box.Height()}, nil
}

func viewBox(e *element) (geom.Box, bool, error) {
	s, ok := e.attr["viewBox"]
	if !ok {
		return geom.Box{}, false, nil
	}
	v, ok := numbers(s)
	if !ok || len(v) != 4 || v[2] <= 0 || v[3] <= 0 {
		return geom.Box{}, false, unusable(words.F("The drawing's viewBox “%s” cannot be read, so its scale is not known. Save it as plain SVG and bring it in again.", shorten(s)))
	}
	return geom.Box{Min: geom.Pt(v[0], v[1]), Max: geom.Pt(v[0]+v[2], v[1]+v[3])}, true, nil
}

// fitBox lays box into an area of w by h as preserveAspectRatio says (SVG 1.1,
// 7.8); the default is the middle, whole.
func fitBox(box geom.Box, w, h float64, preserve string) geom.Affine {
	sx, sy := w/box.Width(), h/box.Height()
	words := strings.Fields(strings.ToLower(preserve))
	if len(words) > 0 && words[0] == "defer" {
		words = words[1:]
	}
	align := "xmidymid"
	if len(words) > 0 {
		align = words[0]
	}
	if align != "none" {
		s := min(sx, sy)
		if len(words) > 1 && words[1] == "slice" {
			s = max(sx, sy)
		}
		sx, sy = s, s
	}
	share := func(axis string) float64 {
		switch {
		case strings.Contains(align, axis+"mid"):
			return 0.5
		case strings.Contains(align, axis+"max"):
			return 1
		}
		return 0
	}
	return geom.Affine{
		A: sx, D: sy,
		E: -box.Min.X*sx + share("x")*(w-sx*box.Width()),
		F: -box.Min.Y*sy + share("y")*(h-sy*box.Height()),
	}
}
