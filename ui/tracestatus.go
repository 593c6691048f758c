package ui

import (
	"quarterstep/app/trace"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// tracedLine is how many of the pieces at hand are traced: "1 of 7 traced", or
// "7 pieces" where none is under way.
func (w *Window) tracedLine(p model.Pattern) string {
	if under := len(w.shelfPhotos(p)); under > 0 {
		return words.F("%d of %d traced", len(p.Pieces), len(p.Pieces)+under)
	}
	return count(len(p.Pieces), "piece")
}

// traceStatus is what the status bar says while a piece is traced.
func (w *Window) traceStatus(p model.Pattern) []string {
	k, _ := w.tracing()
	on := words.F("Pointer on photo %d", w.paper.inHand+1)
	if near := w.nearTraced(k); near != "" {
		on = words.F("Pointer on photo %d, near *%s*", w.paper.inHand+1, near)
	}
	parts := []string{on}
	if long := tracedLength(k); long > 0 {
		parts = append(parts, words.F("Traced *%s* of line", longAmount(long, p.Unit)))
	}
	t := w.paper.trace
	line, _ := trace.LineOf(k, t.size)
	switch {
	case w.paper.picked.place != nil:
		parts = append(parts, words.T("The arrow keys move this corner, Esc lets go"))
	case t.mark.kind != "":
		parts = append(parts, words.T("Esc lets go of the mark"))
	case t.next.on:
		parts = append(parts, words.T("Enter confirms, Esc takes the proposal away"))
	case line.Closed:
		parts = append(parts, words.T("Delete takes the point in hand out, a right click shows more"))
	default:
		parts = append(parts, words.T("Enter ends an edge, Backspace takes a point back, Shift: a point on the way, Ctrl: straight"))
	}
	return parts
}

// nearTraced names the traced line nearest to the pointer, with its edge where
// that has a name; empty where none is near.
func (w *Window) nearTraced(k model.Tracing) string {
	const tol = 0.1
	best, name, at := 2*w.reach(), "", w.pointer
	if w.tracesTaken(w.photo()) {
		at = w.onPhoto(at)
	}
	for _, s := range k.Sizes {
		for j, e := range s.Edges {
			if len(e) == 0 {
				continue
			}
			if _, _, d := e.Nearest(at, tol); d < best {
				best, name = d, words.F("size %s", s.Size)
				if j < len(k.Edges) && k.Edges[j].Name != "" {
					name += ", " + k.Edges[j].Name
				}
			}
		}
	}
	return name
}

// longAmount is a length of many pieces' size: "5.14 m", "202 in".
func longAmount(mm float64, u model.Unit) string {
	const inch, metre = 25.4, 1000
	if u == model.Inches {
		return words.F("%.0f in", mm/inch)
	}
	return words.Figure(mm/metre, 2) + " m"
}

// tracedLength is how much line is traced, in mm, to a per cent.
func tracedLength(k model.Tracing) float64 {
	var sum float64
	for _, s := range k.Sizes {
		for _, e := range s.Edges {
			sum += roughLength(e)
		}
	}
	return sum
}

func roughLength(e geom.Path) float64 {
	const parts = 8
	var sum float64
	for _, c := range e {
		for i := range parts {
			sum += c.At(float64(i) / parts).Dist(c.At(float64(i+1) / parts))
		}
	}
	return sum
}
