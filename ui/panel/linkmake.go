package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// MakeLinkView is a link in the making: two sides, picked on the Table.
type MakeLinkView struct {
	UnderWay bool
	Can      bool   // an edge is in hand that could be linked
	Start    string // "Link front neckline to ..."
	Lead     string // "Front neckline"
	Follow   string // "" while the other side is awaited
	Ask      string // "Click the edge it is linked with."
	Kinds    []ChoiceView
	Kind     int
}

// makePart makes a link.
type makePart struct {
	start  *Push
	title  *saying
	sides  [2]*saying
	ask    *saying
	kinds  *choiceList
	turn   *link
	link   *Push
	letGo  *Push
	making *fyne.Container
	box    *fyne.Container
}

// pushAir is what a push needs beside its word, px.
const pushAir = 32

func newMakePart(p *Links) *makePart {
	m := &makePart{
		title: newBold(words.T("Link in the making"), theme.Body, ink),
		ask:   newWrapped("", theme.Caption, inkSoft, sideContent),
	}
	for i := range m.sides {
		m.sides[i] = newWrapped("", theme.Body, ink, sideContent)
	}
	m.start = NewPush("", func() { call(p.OnStart) })
	m.link = NewPush(words.C("do it", "Link"), func() { call(p.OnMake) })
	m.link.Importance = widget.HighImportance
	m.letGo = NewPush(words.T("Let go"), func() { call(p.OnLetGo) })
	m.turn = newLink(words.T("The other way round"), func() { call(p.OnTurn) })
	m.kinds = newChoiceList(func(i int) { call1(p.OnKind, i) })
	m.making = below(6, rule(), m.title, m.sides[0], m.sides[1], m.ask, m.kinds.box,
		beside(8, noneGrows, m.turn), fyneGrid(2, m.link, m.letGo))
	m.box = below(6, m.making, m.start)
	return m
}

func (m *makePart) set(v MakeLinkView) {
	m.making.Hidden, m.start.Hidden = !v.UnderWay, v.UnderWay || !v.Can
	if word := m.title.fit(v.Start, theme.Px(sideContent)-pushAir); m.start.Text != word {
		m.start.SetText(word) // names may be long
	}
	m.sides[0].setText(v.Lead)
	m.sides[1].setText(v.Follow)
	m.sides[1].Hidden = v.Follow == ""
	m.ask.setText(v.Ask)
	m.ask.Hidden = v.Ask == ""
	m.kinds.set(v.Kinds, v.Kind)
	m.turn.Hidden = v.Follow == ""
	if v.Follow == "" {
		m.link.Disable()
	} else {
		m.link.Enable()
	}
	relay(m.making)
	relay(m.box)
}
