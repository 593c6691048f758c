package ui

import (
	"fmt"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme"
)

// markMaking is a mark under way: its kind and the places clicked for it.
type markMaking struct {
	kind   string // of traceMarks; empty for none
	clicks []geom.Point
}

const dartMark = "dart"

// traceMark is one kind of mark that can be put on the piece being traced.
type traceMark struct {
	kind  string // its English word
	word  words.Text
	icon  theme.Name
	need  int // clicks
	asks  []string
	place func(id, size string, at []geom.Point) func(model.Pattern) (model.Pattern, error)
}

func lineMark(kind model.LineKind, icon theme.Name, ask string) traceMark {
	return traceMark{
		kind: string(lineWord(kind)), word: lineWord(kind), icon: icon, need: 2,
		asks: []string{ask, words.T("click its other end")},
		place: func(id, _ string, at []geom.Point) func(model.Pattern) (model.Pattern, error) {
			return edit.AddTracedLine(id, kind, "", at[0], at[1])
		},
	}
}

// traceMarks are the marks in the order of their buttons.
func traceMarks() []traceMark {
	notch := func(word words.Text, icon theme.Name, ask string, double bool) traceMark {
		return traceMark{
			kind: string(word), word: word, icon: icon, need: 1, asks: []string{ask},
			place: func(id, size string, at []geom.Point) func(model.Pattern) (model.Pattern, error) {
				return edit.AddTracedNotch(id, size, at[0], double)
			},
		}
	}
	return []traceMark{
		lineMark(model.Grain, theme.Grain, words.T("click one end of the grain line")),
		lineMark(model.Lengthen, theme.Lengthen, words.T("click one end of the lengthen line")),
		notch(words.Text("notch"), theme.Notch, words.T("click the notch on the line of its size"), false),
		notch(words.Text("double notch"), theme.DoubleNotch, words.T("click the double notch on the line of its size"), true),
		{
			kind: dartMark, word: words.Text("dart"), icon: theme.Dart, need: 3,
			asks: []string{words.T("click the end of one leg of the dart"), words.T("click the point of the dart"), words.T("click the end of its other leg")},
			place: func(id, size string, at []geom.Point) func(model.Pattern) (model.Pattern, error) {
				return edit.AddTracedDart(id, words.T("dart"), size, at[0], at[1], at[2])
			},
		},
		lineMark(model.BustLine, theme.BustLine, words.T("click one end of the bust line")),
		lineMark(model.WaistLine, theme.WaistLine, words.T("click one end of the waist line")),
		lineMark(model.HipLine, theme.HipLine, words.T("click one end of the hip line")),
	}
}

func markViews() []panel.MarkView {
	var out []panel.MarkView
	for _, m := range traceMarks() {
		out = append(out, panel.MarkView{Name: m.icon, Word: m.word.String(), Hint: capital(m.word.String()) + ": " + m.asks[0]})
	}
	return out
}

// makingMark is the mark under way; the fold has no button of its own.
func (w *Window) makingMark() (traceMark, int, bool) {
	if w.paper.trace.mark.kind == foldMark {
		return traceMark{kind: foldMark, word: words.Text("fold"), need: 1, asks: []string{words.T("click the edge that lies on the fold")}, place: markFold}, -1, true
	}
	for i, m := range traceMarks() {
		if m.kind == w.paper.trace.mark.kind {
			return m, i, true
		}
	}
	return traceMark{}, -1, false
}

// startMark begins a mark, or lets go of it where it is under way.
func (w *Window) startMark(i int) {
	t := &w.paper.trace
	m := traceMarks()[i]
	if t.mark.kind == m.kind {
		t.mark = markMaking{}
	} else {
		t.mark = markMaking{kind: m.kind}
	}
	t.aiming = false
	w.refresh()
}

// clickMark is a click for the mark under way.
func (w *Window) clickMark(at geom.Point) {
	t := &w.paper.trace
	m, _, ok := w.makingMark()
	if !ok {
		return
	}
	t.mark.clicks = append(t.mark.clicks, at)
	if len(t.mark.clicks) < m.need {
		w.refresh()
		return
	}
	clicks := t.mark.clicks
	t.mark.clicks = nil
	if m.need > 1 || m.kind == foldMark {
		t.mark.kind = ""
	}
	w.tracingID(w.doc.Pattern())
	w.makeTracing(words.F("mark the %s", m.word), m.place(t.id, t.size, clicks))
	if k, ok := w.tracing(); ok && m.kind == dartMark {
		if size, missing := withoutDart(k, t.size); missing {
			w.say(words.F("Mark the dart in size %s too: choose that line in the panel first. Until then it stands there as far along its edge as here.", size))
		}
	}
	w.refresh()
}

// withoutDart is a size traced to its end in which fewer darts are marked than in the
// given one.
func withoutDart(k model.Tracing, marked string) (size string, missing bool) {
	count := map[string]int{}
	for _, d := range k.Darts {
		count[d.Size]++
	}
	for _, s := range k.Sizes {
		if s.Closed && count[s.Size] < count[marked] {
			return s.Size, true
		}
	}
	return "", false
}

// markLines draws the marks of a tracing, on the Table.
func markLines(k model.Tracing, at geom.Vec, making markMaking) []scene.Line {
	var out []scene.Line
	add := func(path geom.Path, arrow bool) {
		out = append(out, scene.Line{Path: path.Move(at), Width: 1.6, Ink: scene.InkAccent, Alpha: 1, Arrow: arrow, Round: true})
	}
	for _, l := range k.Lines {
		for _, d := range l.Drawn {
			add(d.Path, l.Kind == model.Grain)
		}
	}
	for _, n := range k.Notches {
		shifts := []float64{0}
		if n.Double {
			shifts = []float64{-2, 2}
		}
		for _, s := range shifts {
			add(geom.Polyline(geom.Pt(n.At.X+s, n.At.Y-4), geom.Pt(n.At.X+s, n.At.Y+4)), false)
		}
	}
	for _, d := range k.Darts {
		add(geom.Polyline(d.From, d.Apex, d.To), false)
	}
	if len(making.clicks) > 1 {
		add(geom.Polyline(making.clicks...), false)
	}
	return out
}

// markAsk is what the pill says while a mark is made.
func (w *Window) markAsk() string {
	m, _, ok := w.makingMark()
	if !ok {
		return ""
	}
	return fmt.Sprintf("*%s:* %s", capital(m.word.String()), m.asks[min(len(w.paper.trace.mark.clicks), len(m.asks)-1)])
}
