package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// linkPart is the link that is open, with what can be done about it.
type linkPart struct {
	mark     *mark
	title    *saying
	gauge    *gauge
	low      *field
	high     *field
	ease     *fyne.Container
	hint     *note
	says     []*saying
	sayBox   *fyne.Container
	why      *note
	remedies [2]*Push
	remedy   *fyne.Container
	give     *pick
	giveRow  *fyne.Container
	giveSay  *saying
	print    *link
	unlink   *link
	box      *fyne.Container
}

func newLinkPart(p *Links) *linkPart {
	o := &linkPart{
		mark:    newMark(theme.Full, 15, inkSoft),
		title:   newWrapped("", theme.Body, ink, sideContent-24),
		gauge:   newGauge(),
		hint:    newNote(sideContent),
		why:     newNote(sideContent),
		give:    newPick(150),
		giveSay: newWrapped("", theme.Caption, inkSoft, sideContent),
		sayBox:  below(2),
	}
	o.title.bold = true
	o.low = newField("mm", func(text string) error { return askText(p.OnLow, text) })
	o.high = newField("mm", func(text string) error { return askText(p.OnHigh, text) })
	hint := func(why string) {
		o.hint.set(why, true)
		relay(o.box)
		p.grown()
	}
	o.low.onHint, o.high.onHint = hint, hint
	for i := range o.remedies {
		o.remedies[i] = NewPush("", func() { call1(p.OnRemedy, i) })
	}
	o.remedies[0].Importance = widget.HighImportance
	o.give.onPick = func(i int) { call1(p.OnGive, i) }
	o.print = newLink(words.T("As in print"), func() { call(p.OnPrint) })
	o.unlink = newLink(words.T("Unlink"), func() { call(p.OnUnlink) })
	o.ease = beside(8, 0, newWords(words.T("Ease wanted"), theme.Body, ink), roomy(86, controlHeight, o.low), newWords(words.C("from a length to a length", "to"), theme.Body, ink), roomy(86, controlHeight, o.high))
	o.remedy = container.New(sideOrBelow{8}, o.remedies[0], o.remedies[1])
	o.giveRow = beside(8, 1, newWords(words.T("Gives way"), theme.Body, ink), o.give)
	o.box = below(7,
		beside(9, 1, o.mark, o.title),
		o.gauge, o.ease, o.hint, o.sayBox, o.why, o.remedy, o.giveRow, o.giveSay,
		beside(8, noneGrows, o.unlink, o.print),
	)
	return o
}

func (o *linkPart) set(l LinkView, v LinkDetail) {
	o.mark.set(theme.Full, inkSoft)
	if l.Look {
		o.mark.set(theme.Look, inkSoft)
	}
	o.title.setText(l.What)
	o.gauge.Hidden, o.ease.Hidden = v.Gauge == nil, v.Unit == ""
	if v.Gauge != nil {
		o.gauge.set(*v.Gauge)
	}
	o.low.set(v.Low)
	o.high.set(v.High)
	o.low.setUnit(v.Unit)
	o.high.setUnit(v.Unit)
	o.say(v.Says)
	o.why.set(v.Why, true)
	o.remedy.Hidden = len(v.Remedies) == 0
	for i, b := range o.remedies {
		b.Hidden = i >= len(v.Remedies)
		if !b.Hidden && b.Text != v.Remedies[i] {
			b.SetText(v.Remedies[i])
		}
	}
	o.giveRow.Hidden = len(v.Gives) == 0
	o.give.set(v.Gives, v.Give)
	o.giveSay.setText(v.GiveSay)
	o.giveSay.Hidden = v.GiveSay == ""
	o.print.Hidden = !v.Fixed
	relay(o.box)
}

func (o *linkPart) say(sentences []string) {
	for len(o.says) < len(sentences) {
		s := newWrapped("", theme.Caption, inkSoft, sideContent)
		o.says = append(o.says, s)
		o.sayBox.Add(s)
	}
	for i, s := range o.says {
		s.Hidden = i >= len(sentences)
		if !s.Hidden {
			s.setText(sentences[i])
		}
	}
	o.sayBox.Hidden = len(sentences) == 0
	relay(o.sayBox)
}
