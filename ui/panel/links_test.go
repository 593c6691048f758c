package panel

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"fyne.io/fyne/v2"
)

func sampleLinks() LinksView {
	return LinksView{
		Links: []LinkView{
			{What: "Sleeve cap fits the armhole", How: "4 mm more ease than wanted", Look: true},
			{What: "Cuff fits the sleeve hem", How: "9 mm too long", Look: true},
			{What: "Front facing follows the front neckline", How: "135 mm, within 0.1 mm in print"},
		},
		Open: 0,
		Detail: LinkDetail{
			Gauge: &GaugeView{
				To: 40, Ticks: []GaugeTick{{0, "0 mm"}, {10, "10"}, {20, "20"}, {30, "30"}, {40, "40"}},
				Low: 18, High: 25, Now: 29, Figure: "29", Look: true,
			},
			Low: "18", High: "25", Unit: "mm",
			Says:     []string{"The printed sizes carry 22 to 24 mm."},
			Remedies: []string{"Lower the cap 4 mm", "Narrow by 5 mm"},
			Gives:    []string{"Nothing", "Cap height", "Cap width"},
			Fixed:    true,
		},
		Make: MakeLinkView{Can: true, Start: "Link sleeve hem to ..."},
	}
}

// TestLinksShow holds the panel to what it says, and its buttons, fields and
// rows to what they report.
func TestLinksShow(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := NewLinks()
		var got []string
		note := func(what string) func() { return func() { got = append(got, what) } }
		p.OnPick = func(i int) { got = append(got, "pick", sampleLinks().Links[i].What) }
		p.OnRemedy = func(i int) { got = append(got, sampleLinks().Detail.Remedies[i]) }
		p.OnLow = func(text string) error { got = append(got, "from "+text); return errUnread }
		p.OnHigh = func(text string) error { got = append(got, "to "+text); return nil }
		p.OnUnlink, p.OnPrint, p.OnStart = note("unlink"), note("as in print"), note("start")
		p.SetView(sampleLinks())
		open(t, NewSide(openFold("Links", p)), SideWidth, 700)
		mustShow(t, p, "Sleeve cap fits the armhole", "wanted", "29", "0 mm", "Ease wanted", "to",
			"The printed sizes carry 22 to 24 mm.", "Cuff fits the sleeve hem", "9 mm too long",
			"Front facing follows the front neckline", "135 mm, within 0.1 mm in print", "Gives way")
		if shows(p, "4 mm more ease than wanted") {
			t.Error("the open link shows as a row too")
		}
		p.open.remedies[1].OnTapped()
		tapAt(p.rows[2], 20, 10)
		p.open.unlink.Tapped(nil)
		p.open.print.Tapped(nil)
		p.make.start.OnTapped()
		retype(p.open.low, "wide")
		press(p.open.low.entry, fyne.KeyReturn)
		mustShow(t, p, unread)
		retype(p.open.high, "27")
		press(p.open.high.entry, fyne.KeyReturn)
		want := []string{
			"Narrow by 5 mm", "pick", "Front facing follows the front neckline", "unlink", "as in print", "start", "from wide", "to 27",
		}
		if len(got) != len(want) {
			t.Fatalf("reported %q", got)
		}
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("reported %q, want %q", got[i], want[i])
			}
		}
	})
}

// TestLinkInTheMaking follows a link from its first edge to the button.
func TestLinkInTheMaking(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := NewLinks()
		made := 0
		p.OnMake = func() { made++ }
		p.SetView(LinksView{Open: -1, Empty: "None yet. Pick two edges, then Link."})
		open(t, NewSide(openFold("Links", p)), SideWidth, 700)
		mustShow(t, p, "None yet. Pick two edges, then Link.")
		v := LinksView{Open: -1, Make: MakeLinkView{UnderWay: true, Lead: "Front shoulder", Ask: "Click the edge it is linked with."}}
		p.SetView(v)
		mustShow(t, p, "Front shoulder", "Click the edge it is linked with.")
		if !p.make.link.Disabled() || shows(p, "The other way round") {
			t.Error("a link of one side can be made")
		}
		v.Make.Follow, v.Make.Ask = "Back shoulder", ""
		v.Make.Kinds = []ChoiceView{{Name: "Sewn together", How: "as long as in print"}, {Name: "Follows", How: "the same line"}}
		p.SetView(v)
		mustShow(t, p, "Back shoulder", "Sewn together", "Follows", "The other way round")
		p.make.link.OnTapped()
		if made != 1 {
			t.Errorf("made %d times", made)
		}
	})
}

// Of many links the first few stand, and every one that is to be looked at; the
// rest is one press away.
func TestManyLinksFold(t *testing.T) {
	test.NewTempApp(t)
	p := NewLinks()
	v := LinksView{Open: 2}
	for i := range 11 {
		v.Links = append(v.Links, LinkView{What: string(rune('a' + i)), Look: i == 9})
	}
	rows := func() (shown string) {
		for _, o := range p.box.Objects {
			if r, ok := o.(*linkRow); ok {
				shown += r.view.What
			}
		}
		return shown
	}
	p.SetView(v)
	if rows() != "abdj" || p.more.word != "and 6 more" {
		t.Errorf("%q stand, and %q", rows(), p.more.word)
	}
	test.Tap(p.more)
	if rows() != "abdefghijk" || p.more.word != "Show fewer" {
		t.Errorf("unfolded %q stand, and %q", rows(), p.more.word)
	}
	test.Tap(p.more)
	v.Links = v.Links[:5]
	p.SetView(v)
	if rows() != "abde" {
		t.Errorf("one alone is folded away: %q", rows())
	}
}
