package ui

import (
	"context"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/trace/straight"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// drawn is a length drawn on the paper, or laid over it: a side of the test
// square, a ruler. The zero value is none.
type drawn struct {
	ends []geom.Point // px, none or two
	mm   float64      // what it is on the paper; 0 while not typed
}

// measuring is the clicking of a drawn length, or of a bank card to check by.
type measuring struct {
	on    bool
	card  bool
	first []geom.Point // the first end, or the card's corners so far, px
}

// lengthNames are the two drawn lengths, as the panel names them.
func lengthNames() [2]string {
	return [2]string{words.C("a length drawn on a photo", "Across"), words.C("a length drawn on a photo", "Down")}
}

// measureLength begins, or leaves, the clicking of a drawn length.
func (w *Window) measureLength() {
	ph := w.photo()
	if ph == nil || ph.shot == nil {
		return
	}
	w.measureBy(measuring{on: !w.paper.measure.on})
}

// measureBy begins, or leaves, the clicking of something measured.
func (w *Window) measureBy(m measuring) {
	w.paper.measure = m
	if t := &w.paper.trace; m.on {
		t.aiming, t.idle = false, true
	}
	w.refresh()
}

// clickLength is an end of a drawn length, in px of the photo.
func (w *Window) clickLength(ph *photo, px geom.Point) {
	m := &w.paper.measure
	if m.card {
		w.clickCard(ph, px)
		return
	}
	if on := ph.otherPart(px); on != nil {
		w.say(words.F("This place is on photo %d. Click a line that photo %d shows.", slices.Index(w.paper.photos, on)+1, slices.Index(w.paper.photos, ph)+1))
		return
	}
	if len(m.first) == 0 {
		m.first = []geom.Point{px}
		w.refresh()
		return
	}
	from := m.first[0]
	if from.Dist(px) < 20 {
		w.say(words.T("These two places are too near to each other. Click the other end of a longer line."))
		return
	}
	a, b := ph.turnedPx(from), ph.turnedPx(px)
	i := 0
	if math.Abs(b.Y-a.Y) > math.Abs(b.X-a.X) {
		i = 1
	}
	ph.lengths[i] = drawn{ends: []geom.Point{from, px}}
	m.first = nil
	w.refresh()
	// After the click is over: the toolkit takes the keyboard away as the button
	// is let go.
	w.aside(context.Background(), func() { fyne.Do(func() { w.photos.TypeLength(w.win.Canvas(), i) }) })
}

// otherPart is the part joined to a photo that alone shows a place, in px of the
// photo, whose own way to the paper is not sure out there; nil where the photo
// shows it.
func (ph *photo) otherPart(px geom.Point) *photo {
	size := ph.shot.Picture.Size()
	if len(ph.joined) == 0 || px.X >= 0 && px.Y >= 0 && px.X <= float64(size.X) && px.Y <= float64(size.Y) {
		return nil
	}
	on, _ := ph.under(ph.flatMM(px), nil)
	if on == ph {
		return nil
	}
	return on
}

// typedLength takes what a drawn length is on the paper; no words take it back.
func (w *Window) typedLength(i int, text string) error {
	ph := w.photo()
	if ph == nil || ph.shot == nil {
		return nil
	}
	d := &ph.lengths[i]
	if strings.TrimSpace(text) == "" {
		had := d.mm > 0
		*d = drawn{}
		if had {
			w.straightenIfReady(ph)
		}
		w.refresh()
		return nil
	}
	mm, err := w.typedLong(text)
	if err != nil {
		return err
	}
	if len(d.ends) == 0 {
		return words.Error("click both ends of this length on the photo first")
	}
	if err := ph.farFromTyped(*d, mm, w.doc.Pattern().Unit); err != nil {
		return err
	}
	d.mm = mm
	w.paper.measure = measuring{}
	w.straightenIfReady(ph)
	w.refresh()
	return nil
}

// farFromTyped refuses a length that cannot be what was clicked: a slip of the
// unit, or of an end. A scan may say any scale of itself.
func (ph *photo) farFromTyped(d drawn, mm float64, u model.Unit) error {
	const most = 1.6 // larger than what one page taken for another gives, A5 for A4 1.41
	if !ph.solved || ph.ask.Reference == paper.Scan {
		return nil
	}
	is := ph.straight.Map.MM(d.ends[0]).Dist(ph.straight.Map.MM(d.ends[1])) / (1 + ph.straight.Off)
	if mm < is*most && is < mm*most {
		return nil
	}
	return words.Errorf("in the picture it is %s, far from %s: look at both ends, and at the unit", measure.FormatMM(is, u), measure.FormatMM(mm, u))
}

// typedLong is a length typed for something on the paper, in mm.
func (w *Window) typedLong(text string) (float64, error) {
	l, err := measure.Parse(text, bareUnit(w.doc.Pattern().Unit))
	if err != nil {
		return 0, err
	}
	if l.MM() <= 0 {
		return 0, words.Error("a length is more than nothing")
	}
	return l.MM(), nil
}

// known are the drawn lengths that were clicked and typed.
func (ph *photo) known() []straight.Known {
	var out []straight.Known
	for _, d := range ph.lengths {
		if len(d.ends) == 2 && d.mm > 0 {
			out = append(out, straight.Known{From: d.ends[0], To: d.ends[1], MM: d.mm})
		}
	}
	return out
}

// lengthToType reports whether a drawn length was clicked and not yet typed.
func (ph *photo) lengthToType() bool {
	return slices.ContainsFunc(ph.lengths[:], func(d drawn) bool { return len(d.ends) == 2 && d.mm == 0 })
}

// lengthViews are the drawn lengths as the panel shows them; none while there is
// nothing to type.
func (w *Window) lengthViews(ph *photo, u model.Unit) (out []panel.MeasuredView, say string) {
	if len(ph.lengths[0].ends)+len(ph.lengths[1].ends) == 0 {
		return nil, ""
	}
	for i, d := range ph.lengths {
		v := panel.MeasuredView{Name: lengthNames()[i], Unit: smallUnit(u), Off: len(d.ends) == 0}
		if v.Text = bareAmount(d.mm, u); d.mm == 0 && len(d.ends) == 2 {
			say = words.T("Type how long it is on the paper.")
			if ph.solved {
				mm := ph.straight.Map.MM(d.ends[0]).Dist(ph.straight.Map.MM(d.ends[1]))
				say = words.F("In the picture it is %s. Type how long it is on the paper.", measure.FormatMM(mm, u))
			}
		}
		out = append(out, v)
	}
	return out, say
}

// lengthAsk is what to click of a drawn length.
func (w *Window) lengthAsk() string {
	if w.paper.measure.card {
		return words.F("*Bank card, corner %d of 4:* click the corners of the card as if they were sharp", len(w.paper.measure.first)+1)
	}
	if len(w.paper.measure.first) == 0 && w.photo().lengthToType() {
		return words.T("*Drawn length:* type at the right how long it is on the paper, or drag an end to mend it")
	}
	if len(w.paper.measure.first) == 0 {
		return words.T("*Drawn length:* click one end of a line you know, a side of the test square or a ruler")
	}
	return words.T("*Drawn length:* click its other end")
}

// withLength adds the drawn lengths to what the Table shows of a photo; place
// takes px of the photo to the Table.
func (w *Window) withLength(t *scene.Trace, ph *photo, place func(geom.Point) geom.Point) *scene.Trace {
	if t == nil || !w.paper.measure.on && w.showsFlat(ph) {
		return t
	}
	end := func(px geom.Point) {
		t.Corners = append(t.Corners, scene.TraceCorner{At: place(px), Round: true, Selected: true})
	}
	for _, d := range ph.lengths {
		if len(d.ends) < 2 {
			continue
		}
		t.Marks = append(t.Marks, scene.Line{
			Path: geom.Polyline(place(d.ends[0]), place(d.ends[1])), Width: 2, Ink: scene.InkAccent, Alpha: 1,
		})
		end(d.ends[0])
		end(d.ends[1])
	}
	for _, px := range w.paper.measure.first {
		end(px)
	}
	return t
}

// flatPx is a place of the flat picture, mm, in px of the photo it was made of;
// the line or corner near it is meant.
func (w *Window) flatPx(ph *photo, mm geom.Point) geom.Point {
	const most = 3 // mm
	if f := ph.lines; f != nil && !w.paper.measure.card {
		reach := min(w.table.Reach(), most)
		if c, ok := f.Corner(mm, reach); ok {
			mm = c
		} else if c, ok := f.Snap(mm, reach/2); ok {
			mm = c
		}
	}
	return ph.straight.Map.Pixel(mm.Add(geom.Vec(ph.from)))
}

// flatMM is a px of a photo on its flat picture, mm.
func (ph *photo) flatMM(px geom.Point) geom.Point {
	return ph.straight.Map.MM(px).Add(geom.Vec(ph.from).Scale(-1))
}

// measurable reports whether a drawn length can be clicked: once the photo was
// made flat, or where a scan has no scale of its own.
func (w *Window) measurable(ph *photo) bool {
	return ph.shot != nil && ph.job.words != straightening.String() &&
		(ph.solved || ph.ask.Reference == paper.Scan)
}
