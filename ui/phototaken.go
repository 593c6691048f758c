package ui

import (
	"image"
	"math"
	"slices"

	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/trace/straight"
	"quarterstep/ui/board"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// takenWide is how wide, in mm of the Table, a photo as taken is laid: it has no
// scale yet.
const takenWide = 600

// reference is one way of making a photo flat, as the panel lists it.
type reference struct {
	name  words.Text
	ref   paper.Reference
	paper straight.Paper
}

// pagePapers are the pages that may lie beside a piece.
var pagePapers = []straight.Paper{straight.A4, straight.Letter}

// references are the ways of making a photo flat, in the order of the list.
var references = []reference{
	{words.Text("Printed targets"), paper.Targets, straight.Paper{}},
	{words.Text("A4 page in the photo"), paper.Page, straight.A4},
	{words.Text("Letter page in the photo"), paper.Page, straight.Letter},
	{words.Text("Cutting mat"), paper.Mat, straight.Paper{}},
	{words.Text("Scan"), paper.Scan, straight.Paper{}},
	{words.Text("Bank card, rough check only"), paper.Page, straight.Card},
}

func referenceNames() []string {
	var out []string
	for _, r := range references {
		out = append(out, r.name.String())
	}
	return out
}

func chosenReference(r paper.Request) int {
	return slices.IndexFunc(references, func(k reference) bool {
		return k.ref == r.Reference && (k.ref != paper.Page || k.paper.Name == r.Paper.Name)
	})
}

// chooseReference makes the photo in hand flat by another reference.
func (w *Window) chooseReference(i int) {
	ph := w.photo()
	if ph == nil || ph.shot == nil {
		return
	}
	r := references[i]
	if chosenReference(ph.ask) == i {
		return
	}
	four := ph.ask.Reference == paper.Page && r.ref == paper.Page && len(ph.clicks) == 4
	ph.ask = paper.Request{Reference: r.ref, Paper: r.paper, Across: 1, Down: 1, Cell: cellOf(w.doc.Pattern().Unit)}
	ph.note, ph.asTaken = "", true
	if !four { // the same corners may be those of another page
		ph.clicks = nil
	}
	w.letGo()
	w.straightenIfReady(ph)
	w.refresh()
	w.table.Fit()
}

// cellOf is the side of a cutting mat's square in the unit shown.
func cellOf(u model.Unit) float64 {
	if u == model.Inches {
		return 25.4
	}
	return 10
}

// cellAsk asks whether a mat's squares are what they are taken for, until their
// side was typed on this photo or one before it: a mat in inches taken for one in
// centimetres agrees with itself as well as any.
func (w *Window) cellAsk(ph *photo) string {
	if slices.ContainsFunc(w.paper.photos, func(o *photo) bool { return o.cell && o.ask.Cell == ph.ask.Cell }) {
		return ""
	}
	if ph.ask.Cell == cellOf(model.Inches) {
		return words.T("This takes each square for 1 in. If yours are 1 cm, type 10 mm above.")
	}
	return words.T("This takes each square for 1 cm. If yours are 1 in, type 1 in above.")
}

// clicksNeeded is how many places are clicked for a reference.
func clicksNeeded(ph *photo) int {
	switch ph.ask.Reference {
	case paper.Page, paper.Mat:
		return 4
	}
	return 0
}

// clickTaken is a click on the photo as taken.
func (w *Window) clickTaken(ph *photo, at geom.Point) {
	if ph.shot == nil || len(ph.clicks) >= clicksNeeded(ph) {
		return
	}
	if !ph.shows(at) {
		w.say(words.T("Click on the photo."))
		return
	}
	ph.clicks = append(ph.clicks, ph.pixel(at))
	w.paper.picked = takenGrip{} // the places may have moved in memory
	w.straightenIfReady(ph)
	w.refresh()
}

// shows reports whether a place of the Table is on the photo as it was taken.
func (ph *photo) shows(at geom.Point) bool {
	px, size := ph.pixel(at), ph.shot.Picture.Size()
	return px.X >= 0 && px.Y >= 0 && px.X <= float64(size.X) && px.Y <= float64(size.Y)
}

// straightenIfReady makes a photo flat once all is known that it takes.
func (w *Window) straightenIfReady(ph *photo) {
	if w.ready(ph) {
		w.straighten(ph)
	}
}

// ready reports whether all is known that makes a photo flat.
func (w *Window) ready(ph *photo) bool {
	if ph.shot == nil || len(ph.clicks) < clicksNeeded(ph) {
		return false
	}
	switch ph.ask.Reference {
	case paper.Scan:
		return ph.shot.Picture.PerInch[0] > 0 || len(ph.known()) > 0
	case paper.Targets:
		return !distancesNeeded(ph.seen) || ph.ask.Apart[0] > 0 && ph.ask.Apart[1] > 0
	}
	return ph.ask.Reference != ""
}

func longSide(m image.Image) int { return max(m.Bounds().Dx(), m.Bounds().Dy()) }

// perMM is how many pixels a mm of the Table has while the photo is shown as
// taken.
func (ph *photo) perMM() float64 {
	s := ph.takenSize()
	return float64(max(s.X, s.Y)) / takenWide
}

// pixel is the photo's pixel at a place of the Table while it is shown as taken,
// turned as it may be.
func (ph *photo) pixel(at geom.Point) geom.Point {
	px := geom.Pt(at.X*ph.perMM(), at.Y*ph.perMM())
	size := ph.takenSize()
	for range (4 - ph.turns) % 4 {
		px = geom.Pt(float64(size.Y)-px.Y, px.X)
		size.X, size.Y = size.Y, size.X
	}
	return px
}

// turnedPx is a pixel of the photo in the photo as it is looked at.
func (ph *photo) turnedPx(px geom.Point) geom.Point {
	size := ph.shot.Picture.Size()
	for range ph.turns % 4 {
		px = geom.Pt(float64(size.Y)-px.Y, px.X)
		size.X, size.Y = size.Y, size.X
	}
	return px
}

func (ph *photo) onTable(px geom.Point) geom.Point {
	px = ph.turnedPx(px)
	return geom.Pt(px.X/ph.perMM(), px.Y/ph.perMM())
}

// request is what is known of a photo, with what was clicked.
func (w *Window) request(ph *photo) paper.Request {
	r := ph.ask
	r.Known, r.Seen = ph.known(), ph.seen
	r.Lenses, r.Unit = w.settings.Lenses, measure.Unit(w.doc.Pattern().Unit)
	copy(r.Clicks[:], ph.clicks)
	r.Alike = w.scannedAlike(ph)
	return r
}

// measuredFields are the lengths that go with a reference.
func measuredFields(ph *photo, u model.Unit) []panel.MeasuredView {
	switch {
	case ph.ask.Reference == paper.Mat:
		return []panel.MeasuredView{{Name: words.T("Side of one square"), Text: bareAmount(ph.ask.Cell, u), Unit: smallUnit(u)}}
	case ph.ask.Reference == paper.Targets && distancesAsked(ph.seen):
		return []panel.MeasuredView{
			{Name: words.T("1 to 2, across"), Text: bareLong(ph.ask.Apart[0], u), Unit: longUnit(u)},
			{Name: words.T("2 to 3, down"), Text: bareLong(ph.ask.Apart[1], u), Unit: longUnit(u)},
		}
	}
	return nil
}

func bareAmount(mm float64, u model.Unit) string {
	if mm == 0 {
		return ""
	}
	return amount(mm, u)
}

// typedMeasured takes a length that goes with the reference of the photo in hand.
func (w *Window) typedMeasured(i int, text string) error {
	ph := w.photo()
	if ph == nil {
		return nil
	}
	if ph.ask.Reference == paper.Targets {
		return w.typedApart(ph, i, text)
	}
	mm, err := w.typedLong(text)
	if err != nil {
		return err
	}
	if ph.ask.Reference == paper.Mat {
		ph.cell = true
	}
	if ph.ask.Reference == paper.Mat && mm != ph.ask.Cell {
		ph.ask.Cell = mm
		w.straightenIfReady(ph)
	}
	w.refresh()
	return nil
}

// clickAgain takes the clicked places back.
func (w *Window) clickAgain() {
	if ph := w.photo(); ph != nil {
		w.stopJob(ph)
		ph.clicks, ph.note, ph.asTaken = nil, "", true
		w.letGo()
		w.refresh()
	}
}

// takenAsk is what to click on the photo as taken.
func (w *Window) takenAsk(ph *photo) string {
	n := len(ph.clicks)
	switch {
	case n < clicksNeeded(ph):
	case ph.ask.Reference == paper.Targets && distancesNeeded(ph.seen) && !w.ready(ph):
		return words.T("*Targets:* type at the right how far they lie apart, from middle to middle")
	default:
		return ""
	}
	n++
	switch {
	case ph.ask.Reference == paper.Mat:
		return words.F("*Corner %d of 4:* click the corners of one square of the mat, not at its edge", n)
	case ph.ask.Paper.Name == straight.Card.Name:
		return words.F("*Corner %d of 4:* click the corners of the card as if they were sharp", n)
	}
	return words.F("*Corner %d of 4:* click a corner of the page", n)
}

// takenTrace are the places clicked on the photo as taken, and what joins them.
func takenTrace(ph *photo) *scene.Trace {
	t := targetTrace(ph)
	var line []geom.Point
	for i, c := range ph.clicks {
		at := ph.onTable(c)
		t.Targets = append(t.Targets, scene.TraceTarget{At: at, Number: i + 1})
		line = append(line, at)
	}
	if n := len(line); n > 1 {
		mid := geom.BoxOf(line...).Centre()
		for i := range line {
			t.Targets[len(t.Targets)-n+i].Side = line[i].Sub(mid)
		}
	}
	if found := foundCorners(ph); len(found) > 0 {
		line = found
	}
	if len(line) == 4 {
		line = around(line)
		line = append(line, line[0])
	}
	if len(line) > 1 {
		t.Frame = append(t.Frame, geom.Polyline(line...))
	}
	return t
}

// foundCorners are the corners of the page on the Table as they were found near
// the clicks; none while it was not found.
func foundCorners(ph *photo) []geom.Point {
	if !ph.solved || ph.ask.Reference != paper.Page || len(ph.clicks) != 4 {
		return nil
	}
	m := ph.straight.Turned(4 - ph.turns).Map
	var best []geom.Point
	least := math.Inf(1)
	for _, size := range [2]geom.Vec{{X: ph.ask.Paper.Width, Y: ph.ask.Paper.Height}, {X: ph.ask.Paper.Height, Y: ph.ask.Paper.Width}} {
		var at []geom.Point
		off := 0.0
		for _, mm := range []geom.Point{{}, {X: size.X}, {X: size.X, Y: size.Y}, {Y: size.Y}} {
			px := m.Pixel(mm)
			near := math.Inf(1)
			for _, c := range ph.clicks {
				near = min(near, c.Dist(px))
			}
			at, off = append(at, ph.onTable(px)), off+near
		}
		if off < least {
			best, least = at, off
		}
	}
	return best
}

// around are places in the order in which one goes round them.
func around(pts []geom.Point) []geom.Point {
	var mid geom.Vec
	for _, p := range pts {
		mid = mid.Add(geom.Vec(p).Scale(1 / float64(len(pts))))
	}
	out := slices.Clone(pts)
	angle := func(p geom.Point) float64 { return math.Atan2(p.Y-mid.Y, p.X-mid.X) }
	slices.SortFunc(out, func(a, b geom.Point) int {
		if angle(a) < angle(b) {
			return -1
		}
		return 1
	})
	return out
}

// takenOnTable lays a photo as it was taken on the Table, or a part and what it
// is joined to; false where the flat picture is to be shown.
func (w *Window) takenOnTable(in *scene.Input, ph *photo) bool {
	if w.joining(ph) {
		*in = in.Only(nil)
		w.partsOnTable(in, ph)
		return true
	}
	if w.showsFlat(ph) {
		return false
	}
	*in = in.Only(nil)
	if len(ph.taken) > 0 {
		in.Unscaled = words.T("Photo as taken. The rulers start once it is straightened.")
		in.Photos = []scene.Photo{{Levels: ph.taken, PerMM: float64(longSide(ph.taken[0])) / takenWide}}
		in.Trace = w.traceOnTable()
	}
	return true
}

// takenGrip is what is dragged of the places clicked on a photo.
type takenGrip struct {
	place *geom.Point // px
	was   geom.Point  // px, before the drag
	from  geom.Point  // on the Table
	px    func(geom.Point) geom.Point
	then  func()
	click bool // one of the reference, that the keys may move
}

// placedTaken is a click of the tool Trace at the step Bring in.
func (w *Window) placedTaken(at geom.Point) {
	ph := w.photo()
	switch {
	case w.step != stepBringIn || ph == nil:
	case w.paper.held.click && !w.paper.measure.on:
		w.paper.picked = w.paper.held
		w.refresh()
	case w.joining(ph):
		w.clickPart(ph, at)
	case w.paper.measure.on && w.showsFlat(ph):
		w.clickLength(ph, w.flatPx(ph, w.onPhoto(at)))
	case w.paper.measure.on && ph.shot != nil:
		w.clickLength(ph, ph.pixel(at))
	default:
		w.placed(at)
	}
}

// grabTaken takes hold of a place clicked before, else of what is traced.
func (w *Window) grabTaken(at geom.Point, reach float64) bool {
	w.paper.held, w.paper.trace.held = takenGrip{}, grip{}
	ph := w.photo()
	if w.step != stepBringIn || ph == nil || ph.shot == nil {
		return w.grab(at, reach)
	}
	try := func(place *geom.Point, on geom.Point, px func(geom.Point) geom.Point, then func()) {
		if d := on.Dist(at); d <= reach {
			reach, w.paper.held = d, takenGrip{place: place, was: *place, from: on, px: px, then: then}
		}
	}
	if w.joining(ph) {
		w.tryMarks(ph, try)
		return w.paper.held.place != nil
	}
	flat := w.showsFlat(ph)
	if flat && !w.paper.measure.on {
		return w.grab(at, reach)
	}
	onTable, px := ph.onTable, ph.pixel
	if flat {
		onTable = func(q geom.Point) geom.Point { return w.onTheFlat(ph, q) }
		px = func(q geom.Point) geom.Point { return w.flatPx(ph, w.onPhoto(q)) }
	} else {
		for i := range ph.clicks {
			try(&ph.clicks[i], onTable(ph.clicks[i]), px, func() { w.straightenIfReady(ph) })
			if h := &w.paper.held; h.place == &ph.clicks[i] {
				h.click = true
			}
		}
	}
	for i := range ph.lengths {
		for k := range ph.lengths[i].ends {
			e := &ph.lengths[i].ends[k]
			try(e, onTable(*e), px, func() {
				if ph.lengths[i].mm > 0 {
					w.straightenIfReady(ph)
				}
			})
		}
	}
	return w.paper.held.place != nil || w.grab(at, reach)
}

// nudgeTaken moves the click of the reference that was picked by an arrow key;
// false where none is. The photo stays in sight as it was taken.
func (w *Window) nudgeTaken(by geom.Vec) bool {
	h, ph := &w.paper.picked, w.photo()
	if h.place == nil || w.step != stepBringIn || ph == nil || w.showsFlat(ph) {
		return false
	}
	h.from = h.from.Add(by)
	*h.place = h.px(h.from)
	ph.stays = true
	h.then()
	w.refresh()
	return true
}

// markPicked shows which click of the reference the keys move; the clicks are the
// last of the places marked.
func (w *Window) markPicked(t *scene.Trace, ph *photo) *scene.Trace {
	for i := range ph.clicks {
		if k := len(t.Targets) - len(ph.clicks) + i; k >= 0 && w.paper.picked.place == &ph.clicks[i] {
			t.Targets[k].Picked = true
		}
	}
	return t
}

// onTheFlat is a px of a photo on the Table where its flat picture lies.
func (w *Window) onTheFlat(ph *photo, px geom.Point) geom.Point {
	p := w.doc.Pattern()
	at := ph.flatMM(px)
	if i := p.PictureIndex(ph.id); i >= 0 {
		at = at.Add(p.Pictures[i].At)
	}
	return at
}

// dragTaken moves a place clicked before; once it is let go, what goes by it is
// found anew.
func (w *Window) dragTaken(by geom.Vec, phase board.Phase) {
	h := w.paper.held
	if h.place == nil {
		w.dragTraced(by, phase)
		return
	}
	*h.place = h.was
	if phase != board.DragCancel {
		*h.place = h.px(h.from.Add(by))
	}
	w.showTable(w.doc.Pattern(), w.doc.Result())
	if phase == board.DragEnd {
		if ph := w.photo(); ph != nil {
			ph.stays = false
		}
		h.then()
		w.refresh()
	}
}
