package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

func sampleGaps() GrowthView {
	return GrowthView{
		Piece:   "Front was printed in size 12 only.",
		Choices: []ChoiceView{{Name: "Gaps I type", Figure: "1 gap"}, {Name: "Cut and spread"}, {Name: "Same in all sizes"}},
		Gaps: &GapsView{
			Say: "How far each grade point moves from 12 to 14, in inches.", Point: -1,
			Points: []PointView{{"Neck point", "0", "0"}, {"Underarm", "3/16", "0"}},
		},
	}
}

func sampleSpread() GrowthView {
	v := sampleGaps()
	v.Choice, v.Gaps = 1, nil
	v.Spread = &SpreadView{
		Title: "Cut lines, opened for 18", Cut: 1,
		Cuts:    []ChoiceView{{Name: "1 Neck", How: "1/16 of bust", Figure: "5/16 in"}, {Name: "2 Lengthwise", How: "1/8 in a size", Figure: "3/8 in"}},
		Follows: []string{"Steps", "Bust"}, Asks: "Opens each size by", Share: "1/8", Unit: "in",
	}
	return v
}

func openGrowth(t *testing.T) *Growth {
	t.Helper()
	p := NewGrowth()
	p.SetView(sampleGaps())
	open(t, NewSide(openFold("How it grows", p)), SideWidth, 900)
	return p
}

func TestGrowthShowsWhatIsChosen(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openGrowth(t)
		mustShow(t, p, "Front was printed in size 12 only.", "Gaps I type", "1 gap", "Underarm", "3/16")
		high := p.MinSize().Height
		p.SetView(sampleSpread())
		mustShow(t, p, "Cut lines, opened for 18", "1 Neck", "1/16 of bust", "5/16 in", "Opens each size by", "Take this cut line out")
		for _, gone := range []string{"Underarm", "3/16"} {
			if shows(p, gone) {
				t.Errorf("%q still shows", gone)
			}
		}
		v := sampleSpread()
		v.Spread.Cuts, v.Spread.Cut, v.Spread.Title = nil, -1, ""
		p.SetView(v)
		if shows(p, "Take this cut line out") || shows(p, "1 Neck") || !shows(p, "Usual cut lines") {
			t.Errorf("without cut lines it reads %q", seen(p))
		}
		p.SetView(sampleGaps())
		if p.MinSize().Height != high {
			t.Errorf("filled again it is %v high, was %v", p.MinSize().Height, high)
		}
	})
}

func TestGrowthReports(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openGrowth(t)
		var said []string
		say := func(words ...string) { said = append(said, strings.Join(words, " ")) }
		p.OnChoice = func(i int) { say("choice", string(rune('0'+i))) }
		p.OnCut = func(i int) { say("cut", string(rune('0'+i))) }
		p.OnTakeOut = func(i int) { say("out", string(rune('0'+i))) }
		p.OnDefaults = func() { say("usual") }
		p.OnAdd = func(crosswise bool) { say("add", map[bool]string{true: "crosswise", false: "lengthwise"}[crosswise]) }
		p.OnShare = func(text string) error { say("share", text); return nil }
		p.ways.rows[2].Tapped(nil)
		p.SetView(sampleSpread())
		p.spread.cuts.rows[0].Tapped(nil)
		for _, o := range linksIn(p) {
			o.Tapped(nil)
		}
		retype(p.spread.share, "3/16")
		press(p.spread.share.entry, fyne.KeyReturn)
		want := "choice 2|cut 0|usual|add lengthwise|add crosswise|out 1|share 3/16"
		if got := strings.Join(said, "|"); got != want {
			t.Errorf("reported %s, want %s", got, want)
		}
	})
}

func linksIn(o fyne.CanvasObject) []*link {
	var out []*link
	walk(o, func(o fyne.CanvasObject) {
		if l, ok := o.(*link); ok {
			out = append(out, l)
		}
	})
	return out
}

// Tab takes what was typed and goes on, figure by figure; a refusal keeps it.
func TestTabGoesFromGapToGap(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openGrowth(t)
		v := sampleGaps()
		var got []string
		set := func(column string, put func(*PointView, string)) func(int, string) error {
			return func(i int, text string) error {
				if text == "wide" {
					return errUnread
				}
				got = append(got, v.Gaps.Points[i].Name+" "+column+" "+text)
				put(&v.Gaps.Points[i], text)
				p.SetView(v)
				return nil
			}
		}
		p.OnOut = set("out", func(r *PointView, text string) { r.Out = text })
		p.OnDown = set("down", func(r *PointView, text string) { r.Down = text })
		tapAt(p.points, p.points.Size().Width*0.5, p.points.rowHeight()*1.5)
		for _, text := range []string{"1/8", "1/4", "3/8"} {
			retype(p.points.cell, text)
			press(p.points.cell.entry, fyne.KeyTab)
		}
		want := "Neck point out 1/8|Neck point down 1/4|Underarm out 3/8"
		if strings.Join(got, "|") != want {
			t.Errorf("typed %s, want %s", strings.Join(got, "|"), want)
		}
		retype(p.points.cell, "wide")
		press(p.points.cell.entry, fyne.KeyTab)
		if !p.points.down || p.points.row != 1 || !shows(p, unread) {
			t.Errorf("refused words let Tab go on to row %d: %q", p.points.row, seen(p))
		}
		press(p.points.cell.entry, fyne.KeyEscape)
		if p.points.cell.refused {
			t.Error("Escape does not bring the figure back")
		}
	})
}
