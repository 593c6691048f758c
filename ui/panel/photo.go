package panel

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// Photo is the side panel of bringing in from photos and scans.
type Photo struct {
	widget.BaseWidget
	OnBringIn   func()
	OnPhoto     func(i int)
	OnRemove    func()
	OnCancel    func()
	OnReference func(i int)
	OnPaper     func(i int)
	OnMeasured  func(i int, text string) error
	OnAgain     func() // click the places again
	OnFlatten   func()
	OnShown     func(flat bool)
	OnDim       func(on bool)
	OnGrown     func()
	Lines       *Lines

	empty, full *fyne.Container
	emptyText   *words
	photos      *pick
	prev, next  *iconButton
	busy        *words
	bar         *shareBar
	working     *fyne.Container
	note        *note
	reference   *pick
	found       *words
	targets     *targetRow
	papers      *pick
	fields      [2]*field
	names       [2]*words
	measured    *fyne.Container
	hint        *note
	ask, says   *note
	again       *link
	flatten     *widget.Button
	flattenRow  *fyne.Container
	againRow    *fyne.Container
	refRow      *fyne.Container
	shown       *twoWay
	dim         *check
	top         *fyne.Container
}

// NewPhoto makes the panel's content.
func NewPhoto() *Photo {
	p := &Photo{
		emptyText: newWrapped("", theme.Body, inkSoft, sideContent),
		photos:    newPick(150),
		busy:      newWrapped("", theme.Caption, inkSoft, sideContent),
		bar:       newShareBar(),
		note:      newNote(sideContent),
		reference: newPick(150),
		found:     newWords("", theme.Caption, inkSoft),
		targets:   newTargetRow(),
		papers:    newPick(150),
		hint:      newNote(sideContent),
		ask:       newNote(sideContent), says: newNote(sideContent),
		shown: newTwoWay("As taken", "Straightened", ""),
		dim:   newCheck("Dim the photo"),
		Lines: newLines(),
	}
	p.prev = newIconButton(theme.Left, "The photo before", func() { p.step(-1) })
	p.next = newIconButton(theme.Right, "The next photo", func() { p.step(1) })
	p.photos.onPick = func(i int) { call1(p.OnPhoto, i) }
	p.reference.onPick = func(i int) { call1(p.OnReference, i) }
	p.papers.onPick = func(i int) { call1(p.OnPaper, i) }
	p.shown.onTurn = func(flat bool) { call1(p.OnShown, flat) }
	p.dim.onTurn = func(on bool) { call1(p.OnDim, on) }
	for i := range p.fields {
		p.names[i] = newWords("", theme.Caption, inkSoft)
		p.fields[i] = newField("", func(text string) error { return ask(p.OnMeasured, i, text) })
		p.fields[i].onHint = func(why string) {
			p.hint.set(why, true)
			p.grown()
		}
	}
	p.flatten = widget.NewButton("", func() { call(p.OnFlatten) })
	p.flatten.Importance = widget.HighImportance
	p.again = newLink("Click them again", func() { call(p.OnAgain) })
	p.lay()
	p.ExtendBaseWidget(p)
	p.SetView(PhotoView{})
	return p
}

func (p *Photo) lay() {
	cancel := widget.NewButton("Cancel", func() { call(p.OnCancel) })
	p.refRow = beside(8, 0, p.reference, p.found)
	p.againRow, p.flattenRow = beside(8, noneGrows, p.again), sized(0, controlHeight, p.flatten)
	p.working = below(4, p.busy, beside(8, 0, sized(0, 8, p.bar), cancel))
	p.measured = fyneGrid(2, below(2, p.names[0], p.fields[0]), below(2, p.names[1], p.fields[1]))
	bring := widget.NewButton("Bring in a photo or scan", func() { call(p.OnBringIn) })
	bring.Importance = widget.HighImportance
	p.empty = below(8, p.emptyText, bring)
	p.top = below(
		8,
		beside(4, 0, p.photos, p.prev, p.next),
		p.working, p.note,
		rule(),
		p.refRow,
		p.targets, p.papers, p.measured, p.hint, p.ask, p.says,
		p.againRow,
		p.flattenRow,
		p.shown,
		beside(8, 0, p.dim, newLink("Take the photo away", func() { call(p.OnRemove) })),
		p.Lines,
	)
	p.full = p.top
}

// step goes to a photo beside the one shown.
func (p *Photo) step(by int) {
	i := p.photos.list.SelectedIndex() + by
	if i >= 0 && i < len(p.photos.list.Options) {
		call1(p.OnPhoto, i)
	}
}

func (p *Photo) grown() {
	relay(p.top)
	call(p.OnGrown)
}

// SetView shows a view.
func (p *Photo) SetView(v PhotoView) {
	p.emptyText.setText(v.Empty)
	p.empty.Hidden, p.full.Hidden = len(v.Photos) > 0, len(v.Photos) == 0
	p.photos.set(v.Photos, v.Photo)
	p.prev.setOff(v.Photo <= 0)
	p.next.setOff(v.Photo+1 >= len(v.Photos))
	p.working.Hidden = v.Busy == ""
	p.busy.setText(v.Busy)
	p.bar.set(v.Share)
	p.note.set(v.Note, true)
	p.setReference(v)
	p.shown.set(v.Shown)
	p.shown.Hidden = !v.Flat
	p.dim.set(v.Dimmed)
	p.dim.Hidden = !v.Shown
	p.Lines.Hidden = v.Lines == nil
	if v.Lines != nil {
		p.Lines.SetView(*v.Lines)
	}
	relay(p.top)
}

// setReference shows how the photo is made flat, or hides it all while the
// straightened picture is shown.
func (p *Photo) setReference(v PhotoView) {
	hide := v.Flat && v.Shown || len(v.References) == 0
	p.reference.set(v.References, v.Reference)
	p.refRow.Hidden, p.found.Hidden = hide, v.Found == ""
	p.found.setText(v.Found)
	p.targets.set(v.Targets)
	p.targets.Hidden = hide || len(v.Targets) == 0
	p.papers.set(v.Papers, v.Paper)
	p.papers.Hidden = hide || len(v.Papers) == 0
	p.measured.Hidden = hide || len(v.Fields) == 0
	for i := range p.fields {
		used := i < len(v.Fields)
		p.fields[i].Hidden, p.names[i].Hidden = !used, !used
		if used {
			p.names[i].setText(v.Fields[i].Name)
			p.fields[i].set(v.Fields[i].Text)
			p.fields[i].setUnit(v.Fields[i].Unit)
		}
	}
	p.ask.set(v.Ask, false)
	p.ask.Hidden = hide || v.Ask == ""
	p.says.set(v.Says, v.SaysLook)
	p.againRow.Hidden = hide || v.Clicked == 0
	p.flattenRow.Hidden = hide || v.Flatten == ""
	if p.flatten.Text != v.Flatten {
		p.flatten.SetText(v.Flatten)
	}
}

// CreateRenderer is Fyne's.
func (p *Photo) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(below(0, p.empty, p.full))
}

// shareBar is how far something is, as a bar.
type shareBar struct {
	widget.BaseWidget
	share float64
}

func newShareBar() *shareBar {
	b := &shareBar{}
	b.ExtendBaseWidget(b)
	return b
}

func (b *shareBar) set(share float64) {
	if b.share != share {
		b.share = share
		b.Refresh()
	}
}

func (b *shareBar) CreateRenderer() fyne.WidgetRenderer {
	back, front := canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	back.CornerRadius, front.CornerRadius = 4, 4
	d := &drawn{objects: []fyne.CanvasObject{back, front}}
	d.paint = func(p theme.Palette) { back.FillColor, front.FillColor = p.Button, p.Accent }
	d.min = func() fyne.Size { return fyne.NewSize(60, 8) }
	d.lay = func(s fyne.Size) {
		place(back, 0, 0, s.Width, s.Height)
		place(front, 0, 0, s.Width*float32(min(max(b.share, 0), 1)), s.Height)
	}
	return d.ready()
}

// targetRow shows which of the places a photo is straightened by are there.
type targetRow struct {
	widget.BaseWidget
	found []bool
}

func newTargetRow() *targetRow {
	r := &targetRow{}
	r.ExtendBaseWidget(r)
	return r
}

func (r *targetRow) set(found []bool) {
	r.found = found
	r.Refresh()
}

func (r *targetRow) CreateRenderer() fyne.WidgetRenderer {
	d := &drawn{}
	d.paint = func(theme.Palette) {
		d.objects = d.objects[:0]
		for i, ok := range r.found {
			name, t := theme.Ring, tone(inkSoft)
			if ok {
				name, t = theme.Tick, ink
			}
			d.objects = append(d.objects, newBox(raisedFill, edge, 1.2, theme.ControlRadius),
				newBold(fmt.Sprint(i+1), theme.Body, ink), newMark(name, 15, t))
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(100, max(32, theme.Px(32))) }
	d.lay = func(s fyne.Size) {
		n := len(r.found)
		w := (s.Width - float32(8*(n-1))) / float32(max(n, 1))
		for i := range n {
			x := float32(i) * (w + 8)
			place(d.objects[3*i], x, 0, w, s.Height)
			middle(d.objects[3*i+1], x+w/2-18, 14, s.Height)
			middle(d.objects[3*i+2], x+w/2+4, 15, s.Height)
		}
	}
	return d.ready()
}
