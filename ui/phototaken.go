package ui

import (
	"fmt"
	"slices"

	"quarterstep/app/paper"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/trace/straight"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// takenWide is how wide, in mm of the Table, a photo as taken is laid: it has no
// scale yet.
const takenWide = 600

// reference is one way of making a photo flat, as the panel lists it.
type reference struct {
	name  string
	ref   paper.Reference
	paper straight.Paper
}

// pagePapers are the pages that may lie beside a piece.
var pagePapers = []straight.Paper{straight.A4, straight.Letter}

// references are the ways of making a photo flat, in the order of the list.
var references = []reference{
	{"A4 page in the photo", paper.Page, straight.A4},
	{"Letter page in the photo", paper.Page, straight.Letter},
	{"Cutting mat", paper.Mat, straight.Paper{}},
	{"Scan", paper.Scan, straight.Paper{}},
	{"Bank card, rough check only", paper.Page, straight.Card},
}

func referenceNames() []string {
	var out []string
	for _, r := range references {
		out = append(out, r.name)
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
	ph.ask = paper.Request{Reference: references[i].ref, Paper: references[i].paper, Across: 1, Down: 1, Cell: cellOf(w.doc.Pattern().Unit)}
	ph.clicks, ph.note = nil, ""
	w.refresh()
}

// cellOf is the side of a cutting mat's square in the unit shown.
func cellOf(u model.Unit) float64 {
	if u == model.Inches {
		return 25.4
	}
	return 10
}

// clicksNeeded is how many places are clicked for a reference; a scan has two
// for each length drawn on it.
func clicksNeeded(ph *photo) int {
	if ph.ask.Reference == paper.Scan {
		return 2 * len(ph.ask.Known)
	}
	return 4
}

// clickTaken is a click on the photo as taken.
func (w *Window) clickTaken(ph *photo, at geom.Point) {
	need := 0
	if ph.shot != nil {
		need = clicksNeeded(ph)
	}
	if len(ph.clicks) >= need {
		return
	}
	ph.clicks = append(ph.clicks, ph.pixel(at))
	if len(ph.clicks) == need {
		w.straightenPhoto()
		return
	}
	w.refresh()
}

// perMM is how many pixels a mm of the Table has while the photo is shown as
// taken.
func (ph *photo) perMM() float64 {
	s := ph.taken[0].Rect.Size()
	return float64(max(s.X, s.Y)) / takenWide
}

func (ph *photo) pixel(at geom.Point) geom.Point {
	return geom.Pt(at.X*ph.perMM(), at.Y*ph.perMM())
}

func (ph *photo) onTable(px geom.Point) geom.Point {
	return geom.Pt(px.X/ph.perMM(), px.Y/ph.perMM())
}

// request is what is known of a photo, with what was clicked.
func (w *Window) request(ph *photo) paper.Request {
	r := ph.ask
	r.Known = slices.Clone(r.Known)
	r.Lenses, r.Unit = w.settings.Lenses, measure.Unit(w.doc.Pattern().Unit)
	if r.Reference == paper.Scan {
		for i := range r.Known {
			if 2*i+1 < len(ph.clicks) {
				r.Known[i].From, r.Known[i].To = ph.clicks[2*i], ph.clicks[2*i+1]
			}
		}
		r.Known = r.Known[:min(len(r.Known), len(ph.clicks)/2)]
		return r
	}
	copy(r.Clicks[:], ph.clicks)
	return r
}

// measuredFields are the lengths that go with a reference.
func measuredFields(ph *photo, u model.Unit) []panel.MeasuredView {
	unit := smallUnit(u)
	switch ph.ask.Reference {
	case paper.Mat:
		return []panel.MeasuredView{{Name: "Side of one square", Text: bareAmount(ph.ask.Cell, u), Unit: unit}}
	case paper.Scan:
		v := []panel.MeasuredView{{Name: "Drawn across", Unit: unit}, {Name: "Drawn down", Unit: unit}}
		for i, k := range ph.ask.Known {
			v[i].Text = bareAmount(k.MM, u)
		}
		return v
	}
	return nil
}

func bareAmount(mm float64, u model.Unit) string {
	if mm == 0 {
		return ""
	}
	return amount(mm, u)
}

// typedMeasured takes a length typed for the photo in hand.
func (w *Window) typedMeasured(i int, text string) error {
	ph := w.photo()
	if ph == nil {
		return nil
	}
	l, err := measure.Parse(text, bareUnit(w.doc.Pattern().Unit))
	if err != nil {
		return err
	}
	if l.MM() <= 0 {
		return fmt.Errorf("a length is more than nothing")
	}
	if ph.ask.Reference == paper.Mat {
		ph.ask.Cell = l.MM()
	} else {
		for len(ph.ask.Known) <= i {
			ph.ask.Known = append(ph.ask.Known, straight.Known{})
		}
		ph.ask.Known[i].MM = l.MM()
		ph.clicks = nil
	}
	w.refresh()
	return nil
}

// takenAsk is what to click on the photo as taken.
func takenAsk(ph *photo) string {
	n := len(ph.clicks)
	switch ph.ask.Reference {
	case paper.Page:
		if ph.ask.Paper.Name == straight.Card.Name {
			return fmt.Sprintf("*Corner %d of 4:* click the corners of the card as if they were sharp", n+1)
		}
		return fmt.Sprintf("*Corner %d of 4:* click a corner of the page", n+1)
	case paper.Mat:
		return fmt.Sprintf("*Corner %d of 4:* click the corners of one square of the mat, in the middle of the photo", n+1)
	}
	if n < clicksNeeded(ph) {
		which := "the length across"
		if n >= 2 {
			which = "the length down"
		}
		return fmt.Sprintf("*Length:* click both ends of %s", which)
	}
	return ""
}

// takenTrace are the places clicked on the photo as taken.
func takenTrace(ph *photo) *scene.Trace {
	t := &scene.Trace{}
	var line []geom.Point
	for i, c := range ph.clicks {
		at := ph.onTable(c)
		t.Targets = append(t.Targets, scene.TraceTarget{At: at, Half: 6, Number: i + 1})
		line = append(line, at)
	}
	if ph.ask.Reference != paper.Scan && len(line) == 4 {
		line = append(line, line[0])
	}
	if len(line) > 1 && ph.ask.Reference != paper.Scan {
		t.Frame = geom.Polyline(line...)
	}
	return t
}

// takenOnTable lays a photo as it was taken on the Table; false where it is to be
// shown flat.
func (w *Window) takenOnTable(in *scene.Input, ph *photo) bool {
	if w.showsFlat(ph) {
		return false
	}
	*in = in.Only(nil)
	if len(ph.taken) > 0 {
		in.Photos = []scene.Photo{{Levels: ph.taken, PerMM: ph.perMM()}}
		in.Trace = takenTrace(ph)
	}
	return true
}
