package panel

import (
	"fyne.io/fyne/v2"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// spreadPart is the part of the Growth panel about cut lines: the list of them,
// and what the one in hand goes by.
type spreadPart struct {
	box    *fyne.Container
	say    *saying
	title  *saying
	cuts   *choiceList
	one    *fyne.Container // the cut line in hand
	follow *pick
	asks   *saying
	share  *field
	means  *saying
	status *saying
	chosen int
}

func newSpreadPart(p *Growth) *spreadPart {
	s := &spreadPart{
		say:    newWrapped("", theme.Caption, inkSoft, sideContent),
		title:  newWords("", theme.Caption, inkSoft),
		follow: newPick(150),
		asks:   newCut("", theme.Body, ink),
		means:  newWrapped("", theme.Caption, inkSoft, sideContent),
		status: newWrapped("", theme.Caption, inkSoft, sideContent),
	}
	s.cuts = newChoiceList(func(i int) { call1(p.OnCut, i) })
	s.follow.onPick = func(i int) { call1(p.OnFollow, i) }
	s.share = newField("", func(text string) error { return askText(p.OnShare, text) })
	s.one = below(6,
		beside(8, 1, newWords(words.T("Opens with"), theme.Body, ink), s.follow),
		beside(8, 0, s.asks, roomy(112, controlHeight, s.share)),
		s.means, s.status,
		beside(0, noneGrows, newLink(words.T("Take this cut line out"), func() { call1(p.OnTakeOut, s.chosen) })),
	)
	s.box = below(6,
		s.say,
		beside(2, noneGrows,
			newLink(words.T("Usual cut lines"), func() { call(p.OnDefaults) }),
			newLink(words.T("Add lengthwise"), func() { call1(p.OnAdd, false) }),
			newLink(words.T("Add crosswise"), func() { call1(p.OnAdd, true) })),
		s.title, s.cuts.box, s.one,
	)
	return s
}

func (s *spreadPart) set(v SpreadView) {
	s.chosen = v.Cut
	s.say.setText(v.Say)
	s.say.Hidden = v.Say == ""
	s.title.setText(v.Title)
	s.title.Hidden = v.Title == ""
	s.cuts.set(v.Cuts, v.Cut)
	s.one.Hidden = v.Cut < 0
	s.follow.set(v.Follows, v.Follow)
	s.asks.setText(v.Asks)
	s.share.set(v.Share)
	s.share.setUnit(v.Unit)
	s.means.setText(v.Means)
	s.means.Hidden = v.Means == ""
	s.status.setText(v.Status)
	s.status.Hidden = v.Status == ""
	relay(s.one)
	relay(s.box)
}
