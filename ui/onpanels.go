package ui

import (
	"math"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
)

func (w *Window) connectRail() {
	w.rail.OnStep = w.enter
	w.rail.OnUndo, w.rail.OnRedo = func() { w.doc.Undo() }, func() { w.doc.Redo() }
	w.rail.OnUnit = func(cm bool) {
		unit := model.Inches
		if cm {
			unit = model.Centimetres
		}
		label := words.T("show inches")
		if cm {
			label = words.T("show centimetres")
		}
		w.do(label, edit.Unit(unit))
	}
	w.rail.OnDark = func(dark bool) {
		w.settings.Dark = dark
		w.setTheme()
		w.keepSettings()
		w.refresh()
	}
	w.rail.OnHelp = w.help
	w.rail.OnHint = w.hint
	w.rail.Menu = w.menu
	w.shelf.OnPick = func(i int) {
		w.settle()
		if n := len(w.doc.Pattern().Pieces); i >= n {
			w.pickShelfPhoto(w.shelfPhotos(w.doc.Pattern())[i-n])
			return
		}
		w.hand = scene.Ref{Piece: w.doc.Pattern().Pieces[i].ID}
		w.refresh()
		if w.step != stepPrint {
			w.table.Centre(w.placeOnTable(w.hand.Piece, w.doc.Result().Pieces[i].Outline().Bounds().Centre()))
		}
	}
	w.shelf.OnMenu = w.shelfMenu
	w.shelf.OnBringIn = w.bringIn
	w.shelf.OnHint = w.hint
}

// hint shows what the thing under the pointer does.
func (w *Window) hint(text string) {
	w.said = text
	w.showStatus()
}

// enter goes to a step of the rail; the first one asks for a drawing when there
// is nothing yet.
func (w *Window) enter(step int) {
	w.goTo(step)
	if step != stepBringIn {
		return
	}
	if len(w.doc.Pattern().Pieces)+len(w.paper.photos) == 0 {
		w.bringIn()
		return
	}
	w.say(words.T("Press + on the Shelf, or drop photos, scans or an SVG of a nest on the window."))
}

func (w *Window) connectTools() {
	w.tools.OnTool = func(i int) {
		if w.withPhoto() {
			w.pickPhotoTool(i)
			return
		}
		if w.step == stepPrint && i == int(board.AddPoint) {
			w.turnPiece()
			return
		}
		w.setTool(board.Tool(i))
	}
	w.tools.OnToggle = func(i int, on bool) {
		w.toggles()[i].turn(on)
		w.refresh()
	}
	w.tools.OnZoom = func(in bool) { w.zoom(in) }
	w.tools.OnFit = w.table.Fit
	w.tools.OnTrueSize = w.trueSize
	w.tools.OnHint = w.hint
}

func (w *Window) zoom(in bool) {
	const factor = 1.25
	if in {
		w.table.ZoomBy(factor)
	} else {
		w.table.ZoomBy(1 / factor)
	}
}

// setTool puts a tool in the hand; at the Print step Move arranges pieces.
func (w *Window) setTool(t board.Tool) {
	if t == board.Move && w.step == stepPrint {
		t = board.Arrange
	}
	w.table.SetTool(t)
	w.tools.SetView(w.toolsView())
}

// chosenTool is the tool as the bar lists it.
func chosenTool(t board.Tool) int {
	if t == board.Arrange {
		return int(board.Move)
	}
	return int(t)
}

func (w *Window) connectPanels() {
	w.strip.OnChart = func(i int) {
		w.settle()
		c := w.charts()[i]
		w.do(words.F("choose the chart %s", c.Name), edit.Chart(c))
	}
	w.strip.OnScrub = func(place float64) {
		defer stopwatch.Lap("scrub")()
		if err := w.doc.Preview(edit.Place(place)); err != nil {
			w.say(err.Error())
		}
	}
	w.strip.OnPick = func(place float64) {
		w.doc.Cancel()
		if place == w.doc.Pattern().Target.Place {
			w.refresh()
			return
		}
		w.pickSize(place)
	}
	w.strip.OnHint = w.hint
	inc := w.increments
	inc.OnEdge = func(i int) { w.pickEdge(i) }
	inc.OnFollow = func(i int) {
		p := w.doc.Pattern()
		if q, f, ok := w.edgeInHand(); ok {
			m := followed(p.Chart, i)
			w.do(words.F("follow %s", m.Said()), followEdge(q, f, m))
		}
	}
	inc.OnChoice = w.choose
	inc.OnTotal = func(text string) error { return w.typedTotal(text) }
	inc.OnGap = w.typedStep
	inc.OnStep = func(by int) { w.addToTotal(float64(by) * stop(w.doc.Pattern().Unit)) }
	inc.OnWith = func(on bool) {
		w.alone = !on
		w.refresh()
	}
	inc.OnPoint = func(i int) {
		if q, f, ok := w.edgeInHand(); ok {
			w.hand.Point = q.Points[f.ends[i]].ID
			w.refresh()
		}
	}
	inc.OnOut = func(i int, text string) error { return w.typedPoint(i, text, false) }
	inc.OnDown = func(i int, text string) error { return w.typedPoint(i, text, true) }
}

// stop is one stop of the total's buttons, mm.
func stop(u model.Unit) float64 {
	if u == model.Inches {
		return 25.4 / 16
	}
	return 1
}

func (w *Window) pickEdge(j int) {
	p := w.doc.Pattern()
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 || j < 0 || j >= len(p.Pieces[i].Edges) {
		return
	}
	w.hand = scene.Ref{Piece: w.hand.Piece, Edge: p.Pieces[i].Edges[j].ID}
	w.refresh()
}

// edgeInHand is the piece and the figures of the edge in hand.
func (w *Window) edgeInHand() (model.Piece, figures, bool) {
	p := w.doc.Pattern()
	i, j, _ := w.inHand(p)
	if i < 0 || j < 0 {
		return model.Piece{}, figures{}, false
	}
	return p.Pieces[i], figuresOf(p, w.doc.Result(), i, j), true
}

// followEdge has both ends of an edge follow m in the direction they move.
func followEdge(q model.Piece, f figures, m model.Measure) session.Edit {
	return func(p model.Pattern) (model.Pattern, error) {
		for _, k := range f.ends {
			var err error
			if p, err = edit.Follow(q.ID, q.Points[k].ID, f.along, m)(p); err != nil {
				return p, err
			}
		}
		return p, nil
	}
}

// choose goes by steps, by chart, or leaves the edge to the eye. By steps and
// by chart take back what the hand did to this edge.
func (w *Window) choose(i int) {
	q, f, ok := w.edgeInHand()
	if !ok {
		return
	}
	if i == choiceEye {
		w.say(words.T("Drag the line on the Table, or type the total to add."))
		w.refresh()
		return
	}
	method, label := model.ByChart, words.T("go by chart")
	if i == choiceSteps {
		method, label = model.BySteps, words.T("go by steps")
	}
	w.do(label, func(p model.Pattern) (model.Pattern, error) {
		p, err := edit.Method(method)(p)
		for _, k := range f.ends {
			if err == nil {
				p, err = edit.TakeBackPoint(q.ID, q.Points[k].ID)(p)
			}
		}
		return p, err
	})
}

// typedTotal sets the total of the edge in hand to what was typed.
func (w *Window) typedTotal(text string) error {
	_, f, ok := w.edgeInHand()
	if !ok {
		return nil
	}
	l, err := w.typedGrowth(text, 1)
	if err != nil {
		return err
	}
	w.addToTotal(l.MM() - f.total)
	return nil
}

// mostGrowth is how far in mm a piece may be told to grow at one place: more is a
// slip of the hand, such as a point left out.
const mostGrowth = 1000

// typedGrowth is a typed amount by which a piece grows, as often as times.
func (w *Window) typedGrowth(text string, times float64) (measure.Length, error) {
	l, err := measure.Parse(text, bareUnit(w.doc.Pattern().Unit))
	if err == nil && math.Abs(l.MM()*times) > mostGrowth {
		return l, words.Error("That is more than a metre here. Look whether a point or the unit is missing.")
	}
	return l, err
}

// typedStep sets the total of the edge in hand to as many of a gap as there are steps.
func (w *Window) typedStep(text string) error {
	p := w.doc.Pattern()
	_, f, ok := w.edgeInHand()
	if !ok {
		return nil
	}
	l, err := w.typedGrowth(text, f.stepsPast(p))
	if err != nil {
		return err
	}
	w.addToTotal(l.MM()*f.stepsPast(p) - f.total)
	return nil
}

// addToTotal moves the edge in hand by mm in the direction it moves.
func (w *Window) addToTotal(mm float64) {
	q, f, ok := w.edgeInHand()
	if !ok || mm == 0 {
		return
	}
	add := f.add(q, mm)
	if mate, g, ok := sewnMate(w.doc.Pattern(), w.doc.Result(), w.hand); ok && !w.alone {
		own, too := add, g.add(mate, mm)
		add = func(p model.Pattern) (model.Pattern, error) {
			p, err := own(p)
			if err != nil {
				return p, err
			}
			return too(p)
		}
	}
	w.do(words.T("add to the total"), add)
}

// typedPoint sets the total of one grade point of the edge in hand, out or
// down.
func (w *Window) typedPoint(n int, text string, down bool) error {
	q, f, ok := w.edgeInHand()
	if !ok {
		return nil
	}
	l, err := w.typedGrowth(text, 1)
	if err != nil {
		return err
	}
	g := w.doc.Result().Pieces[w.doc.Pattern().PieceIndex(q.ID)]
	k := f.ends[n]
	var v geom.Vec
	if down {
		v = q.FromAcrossAlong(0, l.MM()-g.Points[k].Along.Total)
	} else {
		sign := outward(q, g, k)
		v = q.FromAcrossAlong(sign*l.MM()-g.Points[k].Across.Total, 0)
	}
	if v.Len() < 1e-9 {
		return nil
	}
	return w.doc.Do(words.F("set %s", pointName(q, k)), edit.MovePoint(q.ID, q.Points[k].ID, v))
}
