package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// StartView is the page a new window begins with.
type StartView struct {
	Recent []string // patterns saved before, by name, latest first
	Before string   // what to mind before cutting
}

// Start is the page a new window begins with: the ways into the work, each
// said in a line.
type Start struct {
	widget.BaseWidget
	OnBringIn, OnOpen  func()
	OnRecent           func(i int)
	OnBlouse, OnJacket func()
	OnTour             func()
	OnTargets          func()

	view   StartView
	first  *button
	recent *fyne.Container
	before *note
	box    *fyne.Container
}

const (
	startWide   = 720
	startColumn = (startWide - 2*24 - 2*16) / 3
)

// NewStart makes a hidden page.
func NewStart() *Start {
	s := &Start{recent: below(0), before: newNote(startWide - 48)}
	link := func(word string, f *func()) fyne.CanvasObject {
		return beside(0, noneGrows, newLink(word, func() { call(*f) }))
	}
	column := func(icon theme.Name, title, say string, under ...fyne.CanvasObject) fyne.CanvasObject {
		head := beside(8, noneGrows, roomy(22, 22, newMark(icon, 22, accentInk)), newBold(title, theme.Body, ink))
		rest := append([]fyne.CanvasObject{head, newWrapped(say, theme.Body, inkSoft, startColumn)}, under...)
		return below(8, rest...)
	}
	columns := fyneGrid(
		3,
		column(theme.BringIn, words.T("Bring in paper"), words.T("A photo, a scan or an SVG of your printed pattern. Trace it once, then grade it."),
			s.button(words.T("Bring in ..."), &s.OnBringIn), link(words.T("Print targets to lay beside it"), &s.OnTargets)),
		column(theme.Folder, words.C("a file", "Open"), words.T("A pattern you saved."), s.button(words.T("Open ..."), &s.OnOpen), s.recent),
		column(theme.Help, words.T("Look around"), words.T("An invented wardrobe of a community theatre. Nothing you do to it is kept unless you save it."),
			s.button(words.T("Show me how"), &s.OnTour), link(words.T("Blouse, in cm"), &s.OnBlouse), link(words.T("Waistcoat, in inches"), &s.OnJacket)),
	)
	columns.Layout = spread{gap: 16}
	s.box = below(
		16,
		below(
			4,
			newBold(words.T("What would you like to do?"), theme.SubHead, ink),
			newWrapped(words.T("Quarterstep takes a paper pattern to the size you need: bring it in, grade it, look at it, print it true to scale."), theme.Body, inkSoft, startWide-48),
		),
		columns,
		s.before,
	)
	s.Hidden = true
	s.ExtendBaseWidget(s)
	return s
}

func (s *Start) button(word string, f *func()) fyne.CanvasObject {
	b := newButton(word, func() { call(*f) })
	if s.first == nil {
		s.first = b
	}
	return beside(0, noneGrows, b)
}

// SetView shows a view.
func (s *Start) SetView(v StartView) {
	if slices.Equal(v.Recent, s.view.Recent) && v.Before == s.view.Before {
		return
	}
	s.view = v
	s.recent.RemoveAll()
	for i, name := range v.Recent {
		s.recent.Add(beside(0, noneGrows, newLink(name, func() { call1(s.OnRecent, i) })))
	}
	s.before.set(v.Before, false)
	relay(s.box)
}

// CreateRenderer is Fyne's.
func (s *Start) CreateRenderer() fyne.WidgetRenderer {
	return over(newBox(raisedFill, edge, 1.2, theme.PanelRadius), startWide, inset(22, 22, 24, 24, s.box))
}

// spread sets things side by side, equally wide, each from the top.
type spread struct{ gap float32 }

// MinSize is as wide as all side by side and as high as the highest.
func (l spread) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var most fyne.Size
	for _, o := range objects {
		most = most.Max(o.MinSize())
	}
	n := float32(len(objects))
	return fyne.NewSize(most.Width*n+l.gap*(n-1), most.Height)
}

// Layout places them.
func (l spread) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	n := float32(len(objects))
	wide := (size.Width - l.gap*(n-1)) / n
	for i, o := range objects {
		place(o, float32(i)*(wide+l.gap), 0, wide, o.MinSize().Height)
	}
}
