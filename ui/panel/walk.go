package panel

import (
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// WalkView is a seam with its two sides laid along each other. Places along
// them are mm of stitching line from where the walk begins.
type WalkView struct {
	Say     string // "The sleeve cap laid along the armhole, both meeting at the shoulder"
	Word    string // "ease"
	Ease    string // "29 mm"
	EaseSay string // "4 mm more than wanted"
	Look    bool   // the ease is not as wanted
	Follow  WalkSide
	Lead    WalkSide
	Parts   []WalkPart
	// MeetLead and MeetFollow is the pair of places drawn one above the other.
	MeetLead, MeetFollow float64
	Most                 string // "Most of the extra sits between the back notch and the shoulder."
	Empty                string // said instead, where there is nothing to walk
}

// WalkSide is one of the two sides.
type WalkSide struct {
	Name, Length string // "Sleeve cap", "525 mm"
	Long         float64
	Marks        []WalkMark
}

// WalkMark is a match mark on a side; an end has no tick. A name is written
// above the follower's marks only.
type WalkMark struct {
	At     float64
	Name   string
	Notch  bool
	Double bool
}

// WalkPart is what lies between two matched marks, with how much more of the
// follower there is.
type WalkPart struct {
	Lead, Follow [2]float64 // from, to
	Figure       string     // "+12 mm"
	Short        string     // "+12", where there is little room
	Look         bool
}

// Walk is the strip over the lower part of the Table that shows a seam walked.
type Walk struct {
	widget.BaseWidget
	OnPart func(i int)
	OnMark func(follow bool, i int)
	OnHint func(string)

	view  WalkView
	over  int // the part under the pointer or the keyboard, -1 for none
	short bool
	keys  bool // the keyboard is here
}

// WalkHeight and WalkShort are how high the strip is, in pixels at text scale
// 1: with its sentence, and where the Table is low without.
const (
	WalkHeight = 222
	WalkShort  = 158

	walkEase  = 24 // the figure's text
	walkInset = 18
	walkNames = 146 // where the bars begin
	walkBar   = 14
)

// walkRows is where what the strip shows lies, from its head, in pixels at text
// scale 1.
type walkRows struct{ ease, marks, follow, lead, most, height float32 }

func (w *Walk) rows() walkRows {
	if w.short {
		return walkRows{ease: 2, marks: 40, follow: 60, lead: 104, most: 130, height: WalkShort}
	}
	return walkRows{ease: 6, marks: 82, follow: 102, lead: 154, most: 188, height: WalkHeight}
}

// SetShort makes the strip lower, or high again.
func (w *Walk) SetShort(short bool) {
	if w.short != short {
		w.short = short
		w.Refresh()
	}
}

// NewWalk makes an empty strip.
func NewWalk() *Walk {
	w := &Walk{over: -1}
	w.ExtendBaseWidget(w)
	return w
}

// SetView shows a view.
func (w *Walk) SetView(v WalkView) {
	if !reflect.DeepEqual(w.view, v) {
		w.view, w.over = v, -1
		w.Refresh()
	}
}

// lay is where the bars lie in the strip as it is now.
func (w *Walk) lay() walkLay {
	x := theme.Px(walkNames)
	return layWalk(w.view, float64(x), float64(w.Size().Width-2*walkInset))
}

// Tapped tells of the mark or the part under the pointer.
func (w *Walk) Tapped(e *fyne.PointEvent) {
	if w.view.Empty != "" || !w.onBars(e.Position) {
		return
	}
	l := w.lay()
	x, y := float64(e.Position.X), e.Position.Y
	switch {
	case y <= theme.Px(w.rows().follow)+walkBar+3:
		if i := l.nearMark(w.view.Follow.Marks, l.follow, x); i >= 0 {
			call2(w.OnMark, true, i)
			return
		}
	case y >= theme.Px(w.rows().lead)-3:
		if i := l.nearMark(w.view.Lead.Marks, l.lead, x); i >= 0 {
			call2(w.OnMark, false, i)
			return
		}
	}
	if i := w.partAt(e.Position); i >= 0 {
		call1(w.OnPart, i)
	}
}

func (w *Walk) onBars(p fyne.Position) bool {
	return p.Y >= theme.Px(w.rows().marks)-6 && p.Y <= theme.Px(w.rows().lead)+walkBar+6
}

// partAt is the part under the pointer, -1 for none.
func (w *Walk) partAt(p fyne.Position) int {
	if w.view.Empty != "" || !w.onBars(p) {
		return -1
	}
	top, low := theme.Px(w.rows().follow)+walkBar, theme.Px(w.rows().lead)
	return w.lay().part(w.view.Parts, float64(p.X), float64(min(max((p.Y-top)/(low-top), 0), 1)))
}

// MouseIn implements desktop.Hoverable.
func (w *Walk) MouseIn(e *desktop.MouseEvent) { w.MouseMoved(e) }

// MouseMoved says what a click would show.
func (w *Walk) MouseMoved(e *desktop.MouseEvent) { w.hover(w.partAt(e.Position)) }

// MouseOut undoes MouseIn.
func (w *Walk) MouseOut() { w.hover(-1) }

func (w *Walk) hover(i int) {
	if i == w.over {
		return
	}
	w.over = i
	hint := ""
	if i >= 0 {
		hint = words.T("Click a part or a mark to see it on the Table.")
	}
	call1(w.OnHint, hint)
	w.Refresh()
}

// Cursor is the pointing hand over what can be clicked.
func (w *Walk) Cursor() desktop.Cursor {
	if w.over >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// CreateRenderer is Fyne's.
func (w *Walk) CreateRenderer() fyne.WidgetRenderer {
	back := newBox(raisedFill, edge, 1.2, theme.PanelRadius)
	title := newBold(words.T("Seam walk"), theme.SubHead, ink)
	say := newCut("", theme.Caption, inkSoft)
	word, ease, easeSay := newWords("", theme.Body, ink), newBold("", walkEase, ink), newWords("", theme.Caption, inkSoft)
	most, empty := newCut("", theme.Caption, inkSoft), newCut("", theme.Body, inkSoft)
	var sides [4]*saying
	for i := range sides {
		sides[i] = newCut("", theme.Caption, inkSoft)
		if i%2 == 0 {
			sides[i] = newCut("", theme.Body, ink)
			sides[i].bold = true
		}
	}
	raster := canvas.NewRaster(w.draw)
	fixed := []fyne.CanvasObject{back, title, say, word, ease, easeSay, raster, sides[0], sides[1], sides[2], sides[3], most, empty}
	var labels []*saying
	d := &drawn{}
	d.paint = func(theme.Palette) {
		back.stroke, back.width = edge, 1.2
		if w.keys {
			back.stroke, back.width = accent, 2
		}
		v := w.view
		t := tone(inkSoft)
		if v.Look {
			t = amberInk
		}
		say.setText(v.Say)
		word.setText(v.Word)
		ease.set(v.Ease, pickTone(v.Look, amberInk, ink), true)
		easeSay.set(v.EaseSay, t, false)
		for i, text := range []string{v.Follow.Name, v.Follow.Length, v.Lead.Name, v.Lead.Length} {
			sides[i].setText(text)
		}
		most.setText(v.Most)
		empty.setText(v.Empty)
		raster.Hidden = v.Empty != ""
		d.objects = append([]fyne.CanvasObject(nil), fixed...)
		for i := range len(v.Follow.Marks) + len(v.Parts) {
			if i == len(labels) {
				labels = append(labels, newWords("", theme.Caption, inkSoft))
			}
			d.objects = append(d.objects, labels[i])
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(420, theme.Px(w.rows().height)) }
	d.lay = func(size fyne.Size) {
		at := w.rows()
		place(back, 0, 0, size.Width, size.Height)
		placeLine(title, walkInset, 12, size.Width/2)
		e, m := ease.MinSize(), word.MinSize()
		placeLine(ease, size.Width-walkInset-e.Width, at.ease, e.Width)
		place(word, size.Width-walkInset-e.Width-10-m.Width, theme.Px(at.ease)+e.Height-m.Height-3, m.Width, m.Height)
		left := size.Width - walkInset - e.Width - 10 - m.Width
		m = easeSay.MinSize()
		say.Hidden = w.short
		if w.short {
			placeLine(easeSay, left-16-m.Width, 10, m.Width)
		} else {
			placeLine(easeSay, size.Width-walkInset-m.Width, 40, m.Width)
		}
		placeLine(say, walkInset, 36, max(size.Width-2*walkInset-m.Width-16, 0))
		placeLine(empty, walkInset, at.marks, size.Width-2*walkInset)
		for i, y := range []float32{at.follow - 8, at.follow + 11, at.lead - 8, at.lead + 11} {
			placeLine(sides[i], walkInset, y, theme.Px(walkNames)-walkInset-8)
		}
		placeLine(most, theme.Px(walkNames), at.most, max(size.Width-theme.Px(walkNames)-walkInset, 0))
		place(raster, 0, 0, size.Width, size.Height)
		w.layLabels(labels, size.Width)
	}
	return d.ready()
}

// placeLine puts one line of words at a height that grows with the text scale.
func placeLine(o *saying, x, y, width float32) {
	place(o, x, theme.Px(y), width, o.measure("0").Height)
}

func pickTone(yes bool, a, b tone) tone {
	if yes {
		return a
	}
	return b
}
