package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// ByEyeView is what can be said and changed about the edge and grade point in
// hand beyond figures: what the point follows, the edge's curve, and the
// corrections that are made with a press.
type ByEyeView struct {
	Empty string // shown alone when no edge is in hand

	Point   string
	Follows [2]FollowView // out and down

	Edge   string
	Curves []string
	Curve  int
	Unlaid string // why a correction could not be laid

	Styles []string // the style changes there are
	Unit   string   // what amounts are typed in: "mm"

	Hand []string // all corrections: those of the piece in hand first
	All  string   // takes back all of the piece in hand; "" where it has none

	Stages bool
	Stage  string // what the check means for the size wanted
}

// FollowView is what a grade point follows in one direction.
type FollowView struct {
	Options []string
	Chosen  int
	Fit     string // "Printed gaps follow bust within 0.3 mm."
}

// ByEye is the side panel for what a sewist changes by eye.
type ByEye struct {
	widget.BaseWidget
	OnFollow     func(down bool, i int)
	OnCurve      func(i int)
	OnSmooth     func()
	OnStraighten func()
	OnBetween    func() // straighten from the point in hand to another
	OnParallel   func(text string) error
	OnInward     func(text string) error // parallel too, into the piece
	OnStyle      func(i int, text string) error
	OnStages     func(on bool)
	OnTakeBack   func(i int) // one of the corrections
	OnTakeAll    func()      // all of the piece in hand
	OnGrown      func()

	empty, full *fyne.Container
	emptyText   *saying
	point       *saying
	follows     [2]*pick
	fits        [2]*saying
	edge        *saying
	curve       *pick
	way         *twoWay // out of the piece or into it
	parallel    *field
	unlaid      *note
	style       *pick
	styleChosen int
	amount      *field
	hint        *note
	stages      *check
	stage       *saying
	hand        *handList
	all         *link
}

// NewByEye makes the panel's content.
func NewByEye() *ByEye {
	p := &ByEye{
		emptyText: newWrapped("", theme.Body, inkSoft, sideContent),
		point:     newBold("", theme.Body, ink),
		edge:      newBold("", theme.Body, ink),
		curve:     newPick(150),
		unlaid:    newNote(sideContent),
		hint:      newNote(sideContent),
		style:     newPick(150),
		stages:    newCheck(words.T("Keep corrections with this size")),
		stage:     newWrapped("", theme.Caption, inkSoft, sideContent),
	}
	for i := range p.follows {
		p.follows[i] = newPick(150)
		p.follows[i].onPick = func(k int) { call2(p.OnFollow, i == 1, k) }
		p.fits[i] = newWrapped("", theme.Caption, inkSoft, sideContent)
	}
	p.curve.onPick = func(i int) { call1(p.OnCurve, i) }
	p.way = newTwoWay(words.C("of the piece", "Out"), words.C("of the piece", "In"), words.T("Out of the piece, or into it"))
	p.parallel = newField("mm", func(text string) error {
		if p.way.second {
			return askText(p.OnInward, text)
		}
		return askText(p.OnParallel, text)
	})
	p.amount = newField("mm", func(text string) error {
		if p.OnStyle == nil {
			return nil
		}
		return p.OnStyle(p.styleChosen, text)
	})
	p.parallel.onHint, p.amount.onHint = p.showHint, p.showHint
	p.style.onPick = func(i int) { p.styleChosen = i }
	p.hand = newHandList(func(i int) { call1(p.OnTakeBack, i) })
	p.all = newLink("", func() { call(p.OnTakeAll) })
	p.stages.onTurn = func(on bool) { call1(p.OnStages, on) }
	p.lay()
	p.ExtendBaseWidget(p)
	p.SetView(ByEyeView{Empty: words.T("Pick an edge on the Table.")})
	return p
}

func (p *ByEye) lay() {
	row := func(word string, o fyne.CanvasObject) *fyne.Container {
		return beside(8, 1, sized(52, 0, newWords(word, theme.Body, inkSoft)), o)
	}
	p.full = below(6,
		inset(6, 0, 0, 0, p.point),
		row(words.C("of the piece", "Out"), p.follows[0]), p.fits[0],
		row(words.C("along the grain", "Down"), p.follows[1]), p.fits[1],
		beside(8, noneGrows, newLink(words.T("Run smoothly through it"), func() { call(p.OnSmooth) })),
		rule(),
		p.edge,
		row(words.T("Curve"), p.curve),
		p.unlaid,
		newWords(words.T("Move all of it parallel"), theme.Caption, inkSoft),
		beside(8, 1, p.way, roomy(118, 36, p.parallel)),
		beside(8, noneGrows,
			newLink(words.T("Straighten it"), func() { call(p.OnStraighten) }),
			newLink(words.T("Straighten to another point"), func() { call(p.OnBetween) })),
		rule(),
		newWords(words.T("Style change, on all pieces"), theme.Caption, inkSoft),
		beside(8, 0, p.style, roomy(118, 36, p.amount)),
		p.hint,
		rule(),
		p.stages, p.stage,
		p.hand,
		beside(8, noneGrows, p.all),
	)
	p.empty = below(0, p.emptyText)
}

func (p *ByEye) showHint(why string) {
	p.hint.set(why, true)
	relay(p.full)
	call(p.OnGrown)
}

// SetView shows a view.
func (p *ByEye) SetView(v ByEyeView) {
	p.emptyText.setText(v.Empty)
	p.empty.Hidden, p.full.Hidden = v.Empty == "", v.Empty != ""
	p.point.setText(v.Point)
	for i, f := range v.Follows {
		p.follows[i].set(f.Options, f.Chosen)
		p.fits[i].setText(f.Fit)
		p.fits[i].Hidden = f.Fit == ""
	}
	p.edge.setText(v.Edge)
	p.curve.set(v.Curves, v.Curve)
	p.unlaid.set(v.Unlaid, true)
	p.style.set(v.Styles, p.styleChosen)
	p.parallel.set("")
	p.amount.set("")
	p.parallel.setUnit(v.Unit)
	p.amount.setUnit(v.Unit)
	p.stages.set(v.Stages)
	p.stage.setText(v.Stage)
	p.hand.set(v.Hand)
	p.all.setWord(v.All)
	p.all.Hidden = v.All == ""
	relay(p.full)
}

// CreateRenderer is Fyne's.
func (p *ByEye) CreateRenderer() fyne.WidgetRenderer { return emptyOrFull(p.empty, p.full) }
