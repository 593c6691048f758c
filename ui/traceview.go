package ui

import (
	"cmp"
	"strings"

	"quarterstep/app/trace"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// linesView is what is traced from the photo in hand.
func (w *Window) linesView(p model.Pattern, ph *photo) *panel.LinesView {
	t := w.paper.trace
	k, under := w.tracing()
	v := &panel.LinesView{
		Piece: cmp.Or(k.Name, t.name), Cuts: cutWords(), Chart: -1, Ways: traceWayNames(), Way: t.ways, Follow: !t.straight, Marks: markViews(), Row: -1, Begun: under,
	}
	v.Cut = chosenCut(max(k.Cut, t.cut, 1), hasFold(k) || t.mark.kind == foldMark)
	for i, c := range w.charts() {
		v.Charts = append(v.Charts, chartWords(c))
		if len(p.Chart.Sizes) > 0 && sameChart(c, p.Chart) {
			v.Chart = i
		}
	}
	v.Sizes = sizeNamesOf(p.Chart)
	v.From, v.To = w.printedFromTo(p)
	_, v.Mark, _ = w.makingMark()
	sizes, traced, done := w.printedSizes(p, k), w.tracedSizes(p, k), 0
	for i, size := range sizes {
		row := w.sizeRow(k, sizes, traced, i)
		if row.State == panel.Done {
			done++
		}
		if size == t.size {
			v.Row = i
		}
		v.Rows = append(v.Rows, row)
	}
	v.Done = words.F("%d of %d done", done, len(traced))
	if line, ok := trace.LineOf(k, t.size); ok && len(line.Corners) > 0 {
		v.Point = true
		if !line.Closed && len(line.Corners) > 2 {
			v.Finish = words.F("Finish size %s", t.size)
		}
	}
	if t.next.on {
		v.Finish, v.Next = words.F("Take size %s as proposed", t.size), w.nextWord()
	}
	if under && done > 0 && done == len(k.Sizes) && !t.next.on && ph.job.words == "" {
		v.Shelf = words.T("Put the piece on the Shelf")
		if k.Name != "" {
			v.Shelf = words.F("Put “%s” on the Shelf", k.Name)
		}
	}
	v.Note = w.linesNote(p, ph, sizes)
	return v
}

// chartWords is a chart by its name and the sizes it has, by which she knows it again
// from the envelope of her pattern.
func chartWords(c model.SizeChart) string {
	if len(c.Sizes) == 0 {
		return c.Name
	}
	return words.F("%s, %s to %s", c.Name, c.Sizes[0].Name, c.Sizes[len(c.Sizes)-1].Name)
}

// traceRow is one size's row.
func (w *Window) traceRow(k model.Tracing, size string, i, n int) panel.TraceRowView {
	row := panel.TraceRowView{Size: size, I: i, N: n, Words: words.T("not traced yet")}
	row.Width, row.Dash = scene.NestDash(i, n)
	line, ok := trace.LineOf(k, size)
	points := len(line.Corners)
	for _, e := range line.Edges {
		points += max(len(e)-1, 0)
	}
	switch {
	case ok && line.Closed:
		row.Words, row.State = count(points, "point"), panel.Done
	case ok && points > 0:
		row.Words, row.State = words.F("%s, still open", count(points, "point")), panel.UnderWay
	case w.paper.trace.next.on && w.paper.trace.size == size:
		row.Words, row.State = words.T("proposed, to be confirmed"), panel.UnderWay
	}
	return row
}

// linesNote is what is missing before tracing, or doubtful in it.
func (w *Window) linesNote(p model.Pattern, ph *photo, sizes []string) string {
	t := w.paper.trace
	switch {
	case len(p.Chart.Sizes) == 0:
		return words.T("Choose the size chart, then the smallest and the largest size printed on the paper.")
	case len(sizes) == 0:
		return words.T("Choose the smallest and the largest size printed on the paper.")
	case ph.lines == nil && ph.job.words == "" && !t.straight:
		return words.T("The printed lines could not be made ready, so edges are drawn straight from click to click.")
	}
	k, _ := w.tracing()
	all := t.allDoubts(k)
	if len(all) == 0 {
		return ""
	}
	return words.F("%s to look at, marked in amber: %s.", count(len(all), "place"), strings.TrimSuffix(all[0].Say, "."))
}

func (w *Window) traceAsk() string {
	t := w.paper.trace
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, t.size)
	switch n := len(line.Corners); {
	case t.size == "":
		return words.T("Choose the size chart and the printed sizes in the panel at the right")
	case t.next.on:
		return w.nextAsk()
	case line.Closed:
		return words.F("*Size %s:* done. Drag a corner to mend it", t.size)
	case n == 0:
		return words.F("*Size %s:* click its first corner", t.size)
	case n < 3:
		return words.F("*Size %s:* click the next corner to end this edge", t.size)
	default:
		return words.F("*Size %s:* click the next corner, or the first one to close the line", t.size)
	}
}
