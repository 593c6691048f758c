package ui

import (
	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// photoOnTable lays the photo in hand on the Table at the step Bring in, with
// the pieces traced from it and what is being traced; false at another step or
// without a photo.
func (w *Window) photoOnTable(in *scene.Input) bool {
	ph := w.photo()
	if w.step != stepBringIn || ph == nil {
		return false
	}
	if w.takenOnTable(in, ph) {
		return true
	}
	p := in.Pattern
	pic := p.Pictures[p.PictureIndex(ph.id)]
	var on []string
	in.Placement = map[string]geom.Affine{}
	for _, q := range p.Pieces {
		if q.Picture == ph.id {
			on = append(on, q.ID)
			in.Placement[q.ID] = geom.Translate(pic.At)
		}
	}
	*in = in.Only(on)
	in.Select = scene.Ref{}
	in.Zero = geom.Point(pic.At)
	in.Photos = []scene.Photo{{Levels: ph.flat, At: geom.Point(pic.At), PerMM: ph.flatPer, Faded: pic.Faded}}
	in.Trace = w.withLength(w.traceOnTable(), ph, func(px geom.Point) geom.Point { return w.onTheFlat(ph, px) })
	return true
}

// photosUnder lays the photos that pieces were traced from under them, each in
// sight a little beyond its piece.
func (w *Window) photosUnder(in *scene.Input) {
	const beyond = 30 // mm
	if !w.paper.under || len(in.Sheets) > 0 {
		return
	}
	p := in.Pattern
	for i, q := range p.Pieces {
		k := p.PictureIndex(q.Picture)
		if k < 0 {
			continue
		}
		for _, ph := range w.paper.photos {
			if ph.id != q.Picture {
				continue
			}
			w.readKept(p, ph)
			if len(ph.flat) == 0 {
				continue
			}
			var box geom.Box
			for _, e := range in.Edges(i) {
				box = box.Union(e.Bounds())
			}
			in.Photos = append(in.Photos, scene.Photo{
				Levels: ph.flat, At: geom.Point(q.At), PerMM: ph.flatPer, Faded: p.Pictures[k].Faded, Shown: box.Grow(beyond),
			})
		}
	}
}

// traceOnTable is what is being traced, on the Table, with what it is traced by
// where that shows.
func (w *Window) traceOnTable() *scene.Trace {
	p, ph := w.doc.Pattern(), w.photo()
	if !w.showsFlat(ph) {
		return w.tracedOnTaken(w.withLength(w.markPicked(takenTrace(ph), ph), ph, ph.onTable), ph)
	}
	return w.traceOnFlat(p.Pictures[p.PictureIndex(ph.id)].At)
}

// traceOnFlat is what is being traced from a flat picture that lies at a place.
func (w *Window) traceOnFlat(at geom.Vec) *scene.Trace {
	p, t := w.doc.Pattern(), w.paper.trace
	k, _ := w.tracing()
	sizes := w.printedSizes(p, k)
	out := &scene.Trace{}
	if w.paper.unseen {
		return out
	}
	out.Marks = markLines(k, at, t.mark)
	for i, size := range sizes {
		line, _ := trace.LineOf(k, size)
		if len(line.Edges) == 0 && !(t.next.on && t.size == size) {
			if size == t.size && len(line.Corners) == 1 {
				out.Corners = append(out.Corners, scene.TraceCorner{At: line.Corners[0].Add(at)})
			}
			continue
		}
		draw := scene.TracedLine{Size: size, I: i, N: len(sizes), InHand: size == t.size}
		if t.next.on && t.size == size {
			line, draw.Asked = t.next.Line, true
		}
		draw.Path = geom.Join(line.Edges...).Move(at)
		out.Lines = append(out.Lines, draw)
		if size == t.size {
			w.cornersOnTable(out, line, at)
		}
	}
	for _, d := range t.allDoubts(k) {
		out.Doubts = append(out.Doubts, d.At.Add(at))
	}
	if len(t.live.Path) > 0 {
		out.Live = t.live.Path.Move(at)
	}
	for _, v := range t.via {
		out.Corners = append(out.Corners, scene.TraceCorner{At: v.Add(at), Round: true})
	}
	for _, c := range t.mark.clicks {
		out.Corners = append(out.Corners, scene.TraceCorner{At: c.Add(at), Round: true, Selected: true})
	}
	out.Aim, out.Hint = t.aiming, t.aim.Add(at)
	return out
}

// cornersOnTable are the handles of the line in hand: squares at its corners,
// rounds where the parts of its edges meet.
func (w *Window) cornersOnTable(out *scene.Trace, line model.TracedSize, at geom.Vec) {
	t := w.paper.trace
	for j, e := range line.Edges {
		for i := 1; i < len(e); i++ {
			picked := t.picked.on && t.picked.corner < 0 && t.picked.edge == j && t.picked.k == i
			out.Corners = append(out.Corners, scene.TraceCorner{At: e[i].P0.Add(at), Round: true, Selected: picked})
		}
	}
	for i, c := range line.Corners {
		if t.next.on && i != t.next.at && !t.next.IsSure(i) {
			out.Next = append(out.Next, c.Add(at))
			continue
		}
		out.Corners = append(out.Corners, scene.TraceCorner{At: c.Add(at), Selected: t.next.on && i == t.next.at || t.picked.on && i == t.picked.corner})
	}
}

// showPill says over the foot of the Table what to click next.
func (w *Window) showPill() {
	const inset = 14
	was := w.pill.Text()
	w.pill.Set(w.pillWords())
	switch now := w.pill.Text(); {
	case now == "":
		w.table.SetFootWide(1)
	case now != was:
		w.table.SetFootWide(float64(w.pill.Wide()) + inset)
	}
}

// showTrace shows what is being traced, without the rest of the window.
func (w *Window) showTrace() {
	if w.tracingNow() {
		w.table.SetTrace(w.traceOnTable())
		w.showPill()
	}
}
