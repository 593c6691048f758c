package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// Photo is the side panel of bringing in from photos and scans.
type Photo struct {
	widget.BaseWidget
	OnBringIn   func()
	OnTargets   func() // print strips of targets
	OnPhoto     func(i int)
	OnRemove    func()
	OnCancel    func()
	OnReference func(i int)
	OnMeasured  func(i int, text string) error // that goes with the reference
	OnMeasure   func()                         // click a drawn length, or leave it
	OnCard      func()                         // click a bank card as a check, or leave it
	OnLength    func(i int, text string) error // of a drawn length
	OnAgain     func()                         // click the places again
	OnFlatten   func()
	OnShown     func(flat bool)
	OnDim       func(on bool)
	OnLead      func(i int)
	OnPart      func(i int)
	OnJoinAll   func()
	OnGrown     func()
	Lines       *Lines

	empty, full  *fyne.Container
	emptyText    *saying
	photos       *pick
	prev, next   *iconButton
	busy         *saying
	bar          *shareBar
	working      *fyne.Container
	note         *note
	title, found *saying
	titleRow     *fyne.Container
	reference    *pick
	targets      *targetRow
	fields       measuredRow
	lengths      measuredRow
	lengthSay    *note
	measure      *link
	card         *link
	joinAll      *link
	ask          *note
	says         *saying
	saysLook     *note
	again        *link
	links        *fyne.Container
	flatten      *Push
	flattenRow   *fyne.Container
	shown        *twoWay
	dim          *check
	lead         *pick
	leadRow      *fyne.Container
	parts        *partRows
	top          *fyne.Container
}

// NewPhoto makes the panel's content.
func NewPhoto() *Photo {
	p := &Photo{
		emptyText: newWrapped("", theme.Body, inkSoft, sideContent),
		photos:    newPick(150),
		busy:      newWrapped("", theme.Caption, inkSoft, sideContent),
		bar:       newShareBar(),
		note:      newNote(sideContent),
		title:     newBold("", theme.Body, ink),
		found:     newWords("", theme.Caption, inkSoft),
		reference: newPick(150),
		targets:   newTargetRow(),
		lengthSay: newNote(sideContent), ask: newNote(sideContent), saysLook: newNote(sideContent),
		says:  newWrapped("", theme.Caption, inkSoft, sideContent),
		shown: newTwoWay(words.T("As taken"), words.T("Straightened"), ""),
		dim:   newCheck(words.T("Dim the photo")),
		lead:  newPick(150),
		Lines: newLines(),
	}
	p.prev = newIconButton(theme.Left, words.T("The photo before"), func() { p.step(-1) })
	p.next = newIconButton(theme.Right, words.T("The next photo"), func() { p.step(1) })
	p.photos.onPick = func(i int) { call1(p.OnPhoto, i) }
	p.reference.onPick = func(i int) { call1(p.OnReference, i) }
	p.lead.onPick = func(i int) { call1(p.OnLead, i) }
	p.shown.onTurn = func(flat bool) { call1(p.OnShown, flat) }
	p.dim.onTurn = func(on bool) { call1(p.OnDim, on) }
	p.fields = newMeasuredRow(func(i int, text string) error { return ask(p.OnMeasured, i, text) }, p.grown)
	p.lengths = newMeasuredRow(func(i int, text string) error { return ask(p.OnLength, i, text) }, p.grown)
	p.flatten = NewPush("", func() { call(p.OnFlatten) })
	p.flatten.Importance = widget.HighImportance
	p.again = newLink(words.T("Click them again"), func() { call(p.OnAgain) })
	p.measure = newLink("", func() { call(p.OnMeasure) })
	p.card = newLink("", func() { call(p.OnCard) })
	p.joinAll = newLink("", func() { call(p.OnJoinAll) })
	p.parts = newPartRows(func(i int) { call1(p.OnPart, i) })
	p.lay()
	p.ExtendBaseWidget(p)
	p.SetView(PhotoView{})
	return p
}

func (p *Photo) lay() {
	cancel := NewPush(words.T("Cancel"), func() { call(p.OnCancel) })
	p.titleRow = beside(8, 0, p.title, p.found)
	p.links, p.flattenRow = below(0, beside(0, noneGrows, p.again), beside(0, noneGrows, p.measure), beside(0, noneGrows, p.card)), sized(0, controlHeight, p.flatten)
	p.working = below(4, p.busy, beside(8, 0, sized(0, 8, p.bar), cancel))
	p.leadRow = below(2, newWords(words.T("This photo shows"), theme.Caption, inkSoft), p.lead, beside(0, noneGrows, p.joinAll))
	bring := NewPush(words.T("Bring in a photo or scan"), func() { call(p.OnBringIn) })
	bring.Importance = widget.HighImportance
	p.empty = below(8, p.emptyText, bring, beside(0, noneGrows, newLink(words.T("Print target strips to lay beside it"), func() { call(p.OnTargets) })))
	p.top = below(
		8,
		beside(4, 0, p.photos, p.prev, p.next),
		p.note,
		rule(),
		p.titleRow, p.reference, p.targets,
		p.fields.row, p.fields.hint, p.ask, p.says, p.saysLook, p.parts,
		p.lengths.row, p.lengths.hint, p.lengthSay,
		p.links, p.flattenRow,
		p.shown, p.leadRow,
		beside(8, 0, p.dim, newLink(words.T("Take the photo away"), func() { call(p.OnRemove) })),
		p.working, // below all that is pressed, so that nothing moves away under the pointer
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

// TypeLength puts the cursor of a canvas where the length of a drawn line is
// typed. The field may not have been drawn yet, so that it knows no canvas.
func (p *Photo) TypeLength(c fyne.Canvas, i int) { c.Focus(p.lengths.fields[i].entry) }

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
	p.setSays(v)
	p.parts.set(v.Parts)
	p.shown.set(v.Shown)
	p.shown.Hidden = !v.Flat
	p.lead.set(v.Leads, v.Lead)
	p.leadRow.Hidden = len(v.Leads) == 0
	p.joinAll.setWord(v.JoinAll)
	p.joinAll.Hidden = v.JoinAll == ""
	p.dim.set(v.Dimmed)
	p.dim.Hidden = !v.Shown || v.Joining
	p.Lines.Hidden = v.Lines == nil
	if v.Lines != nil {
		p.Lines.SetView(*v.Lines)
	}
	relay(p.top)
}

// setReference shows how the photo is made flat; while the straightened picture
// is shown, only by what it was.
func (p *Photo) setReference(v PhotoView) {
	none := len(v.References) == 0
	hide := none || v.Flat && v.Shown || v.Joining
	p.title.setText(v.Title)
	p.found.setText(v.Found)
	p.titleRow.Hidden = none
	p.reference.set(v.References, v.Reference)
	p.reference.Hidden = hide || v.Traced
	p.targets.set(v.Targets)
	p.targets.Hidden = none || v.Joining || len(v.Targets) == 0
	fields := v.Fields
	if none || v.Joining {
		fields = nil
	}
	p.fields.set(fields)
	p.lengths.set(v.Lengths)
	p.again.Hidden = hide || v.Traced || v.Clicked == 0
	p.measure.setWord(words.T("Measure a drawn length to make sure"))
	if v.Measuring {
		p.measure.setWord(words.T("Leave the drawn length"))
	}
	p.measure.Hidden = !v.Measurable
	p.card.setWord(words.T("Check roughly by a bank card"))
	if v.Carding {
		p.card.setWord(words.T("Leave the bank card"))
	}
	p.card.Hidden = !v.Cardable
	p.links.Hidden = p.again.Hidden && p.measure.Hidden && p.card.Hidden
	p.flattenRow.Hidden = hide || v.Flatten == ""
	if p.flatten.Text != v.Flatten {
		p.flatten.SetText(v.Flatten)
	}
}

// setSays shows what is to be done and how far it is to be trusted.
func (p *Photo) setSays(v PhotoView) {
	p.ask.set(v.Ask, false)
	p.lengthSay.set(v.LengthSay, true)
	say, look := v.Says, ""
	if v.SaysLook {
		say, look = "", v.Says
	}
	p.says.setText(say)
	p.says.Hidden = say == ""
	p.saysLook.set(look, true)
}

// CreateRenderer is Fyne's.
func (p *Photo) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(below(0, p.empty, p.full))
}
