package ui

import (
	"slices"

	"quarterstep/app/trace"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/panel"
)

// Which of the printed sizes are traced.
const (
	traceAll  = iota
	traceEnds // the sizes between are made from both
	traceOne  // the others come from gaps that are typed
)

var traceWays = []words.Text{"Every printed size", "Smallest and largest only", "One size, the gaps typed"}

// traceWayNames are traceWays as the panel lists them.
func traceWayNames() []string {
	var out []string
	for _, way := range traceWays {
		out = append(out, way.String())
	}
	return out
}

// printedSizes are the sizes on the paper, smallest first: those said, those of
// pieces on the Shelf where nothing was said, and all that have a line already.
func (w *Window) printedSizes(p model.Pattern, k model.Tracing) []string {
	from, to := w.printedFromTo(p)
	var out []string
	for i, s := range p.Chart.Sizes {
		if _, has := trace.LineOf(k, s.Name); has || from >= 0 && i >= from && i <= to {
			out = append(out, s.Name)
		}
	}
	return out
}

// tracedSizes are the printed sizes that are to be traced.
func (w *Window) tracedSizes(p model.Pattern, k model.Tracing) []string {
	sizes := w.printedSizes(p, k)
	last := len(sizes) - 1
	has := func(s string) bool {
		line, _ := trace.LineOf(k, s)
		return len(line.Corners) > 0
	}
	switch {
	case last < 0:
		return nil
	case w.paper.trace.ways == traceEnds:
		return keepIf(sizes, func(i int) bool { return i == 0 || i == last || has(sizes[i]) })
	case w.paper.trace.ways == traceOne && slices.ContainsFunc(sizes, has):
		return keepIf(sizes, func(i int) bool { return has(sizes[i]) })
	case w.paper.trace.ways == traceOne:
		if i := slices.Index(sizes, w.paper.trace.size); i >= 0 {
			return sizes[i : i+1]
		}
		return sizes[last:]
	}
	return sizes
}

// sizesSaid answers that other sizes are to be traced: the one to begin with is
// chosen anew, as long as none is begun.
func (w *Window) sizesSaid() {
	if k, _ := w.tracing(); len(k.Sizes) == 0 {
		w.paper.trace.size = ""
	}
	w.refresh()
}

// keepSize sees to it that a printed size is in hand: one whose line is not done.
func (w *Window) keepSize(p model.Pattern, k model.Tracing) {
	t := &w.paper.trace
	sizes := w.tracedSizes(p, k)
	if slices.Contains(sizes, t.size) {
		return
	}
	t.size = ""
	if next, ok := nextSize(k, sizes); ok {
		t.size = next
	} else if len(sizes) > 0 {
		t.size = sizes[0]
	}
}

// sizeDone goes on to the next size whose line is not done, and proposes it.
func (w *Window) sizeDone() {
	w.paper.trace.aiming = false
	k, _ := w.tracing()
	if next, ok := nextSize(k, w.tracedSizes(w.doc.Pattern(), k)); ok {
		w.takeSize(next)
	}
}

// nextSize is the size to trace next: one that was begun; else the one nearest
// to a size that is done, for from there it is proposed best; else the largest,
// which runs outermost. It is false where all are done.
func nextSize(k model.Tracing, sizes []string) (string, bool) {
	best, least := "", len(sizes)+1
	for i, s := range sizes {
		line, _ := trace.LineOf(k, s)
		switch {
		case line.Closed:
			continue
		case len(line.Corners) > 0:
			return s, true
		}
		away := len(sizes)
		for j, o := range sizes {
			if done, _ := trace.LineOf(k, o); done.Closed {
				away = min(away, max(i-j, j-i))
			}
		}
		if away <= least {
			best, least = s, away
		}
	}
	return best, best != ""
}

// keepIf are the sizes whose number f accepts.
func keepIf(sizes []string, f func(i int) bool) []string {
	var out []string
	for i, s := range sizes {
		if f(i) {
			out = append(out, s)
		}
	}
	return out
}

// printedFromTo are the chart places of the smallest and largest printed size,
// -1 while they are not known.
func (w *Window) printedFromTo(p model.Pattern) (from, to int) {
	t := w.paper.trace
	from, to = t.from-1, t.to-1
	if places := printedPlaces(p); len(places) > 0 {
		if from < 0 {
			from = places[0]
		}
		if to < 0 {
			to = places[len(places)-1]
		}
	}
	if from >= 0 && to < from {
		to = from
	}
	if from >= len(p.Chart.Sizes) || to >= len(p.Chart.Sizes) {
		return -1, -1
	}
	return from, to
}

// sizeRow is one printed size in the panel: how far its line is, or what it is
// made from.
func (w *Window) sizeRow(k model.Tracing, sizes, traced []string, i int) panel.TraceRowView {
	row := w.traceRow(k, sizes[i], i, len(sizes))
	if slices.Contains(traced, sizes[i]) {
		return row
	}
	row.Words = words.T("made from the gaps you type")
	if w.paper.trace.ways == traceEnds {
		row.Words = words.F("made from %s and %s", sizes[0], sizes[len(sizes)-1])
	}
	return row
}

// takeRow takes the size of a row of the panel in hand. With one size traced, it
// may be any, until a line is begun.
func (w *Window) takeRow(i int) {
	p := w.doc.Pattern()
	k, _ := w.tracing()
	sizes := w.printedSizes(p, k)
	if i >= len(sizes) {
		return
	}
	one := w.paper.trace.ways == traceOne && len(k.Sizes) == 0
	if row := w.sizeRow(k, sizes, w.tracedSizes(p, k), i); !one && !slices.Contains(w.tracedSizes(p, k), sizes[i]) {
		w.say(words.F("Size %s is %s. To trace it, choose %s.", sizes[i], row.Words, traceWays[traceAll]))
		return
	}
	w.takeSize(sizes[i])
	w.refresh()
}

// lookAtLines looks for what cannot be right of the lines done, once for every
// state of the document.
func (w *Window) lookAtLines(p model.Pattern) {
	t := &w.paper.trace
	if k, ok := w.tracing(); ok && t.looked != w.docSerial {
		t.faults, t.looked = trace.Faults(k, p.Chart), w.docSerial
	} else if !ok {
		t.faults = nil
	}
}

// withTraced is the Size strip with the printed sizes of the piece being traced,
// each with how far its line is.
func (w *Window) withTraced(v panel.StripView) panel.StripView {
	if !w.tracingNow() {
		return v
	}
	p := w.doc.Pattern()
	k, under := w.tracing()
	sizes, traced := w.printedSizes(p, k), w.tracedSizes(p, k)
	for i, s := range v.Sizes {
		j := slices.Index(sizes, s.Name)
		if j < 0 || !under && s.Printed { // of pieces on the Shelf
			continue
		}
		v.Sizes[i].Printed, v.Sizes[i].Tracing = true, true
		if slices.Contains(traced, s.Name) {
			v.Sizes[i].Traced = w.traceRow(k, s.Name, j, len(sizes)).State
		}
	}
	return v
}
