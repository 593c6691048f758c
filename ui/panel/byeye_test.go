package panel

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func sampleByEye() ByEyeView {
	return ByEyeView{
		Point: "Underarm follows",
		Follows: [2]FollowView{
			{Options: []string{"as proposed: bust", "Steps", "Bust, fits the print"}, Chosen: 2, Fit: "Printed gaps follow bust within 1/64 in."},
			{Options: []string{"as proposed", "Steps", "Bust"}},
		},
		Edge: "Armhole", Curves: []string{"Printed trend", "As the nearest size", "Straight", "As size 38", "By eye"}, Curve: 4,
		Unlaid: "Armhole of Front bodice: too narrow.",
		Styles: []string{"Narrower shoulder", "Wider neckline"}, Unit: "in",
		Hand: []string{"Whole armhole 3/8 in out", "Narrower shoulder, 1/4 in"}, All: "Take back all of Front bodice",
		Stage: "Off: a correction holds at every size.",
	}
}

func openByEye(t *testing.T) *ByEye {
	t.Helper()
	p := NewByEye()
	p.SetView(sampleByEye())
	open(t, NewSide(openFold("By eye", p)), SideWidth, 900)
	return p
}

func TestByEyeShows(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openByEye(t)
		mustShow(t, p, "Underarm follows", "Printed gaps follow bust within 1/64 in.", "Armhole",
			"Armhole of Front bodice: too narrow.", "Whole armhole 3/8 in out", "Narrower shoulder, 1/4 in",
			"Take back all of Front bodice", "Off: a correction holds at every size.")
		if got := p.curve.list.Selected; got != "By eye" {
			t.Errorf("the curve reads %q", got)
		}
		tall := p.MinSize().Height
		v := sampleByEye()
		v.Unlaid, v.Hand, v.All = "", nil, ""
		p.SetView(v)
		if shows(p, "Take back all of Front bodice") || shows(p, "Corrected by eye") || p.MinSize().Height >= tall {
			t.Error("what is not there still takes room")
		}
		p.SetView(ByEyeView{Empty: "Pick an edge on the Table."})
		mustShow(t, p, "Pick an edge on the Table.")
		if shows(p, "Armhole") {
			t.Error("an edge shows though none is in hand")
		}
	})
}

// Every control reports what was done to it, once.
func TestByEyeReports(t *testing.T) {
	p := openByEye(t)
	var did []string
	say := func(format string, a ...any) { did = append(did, fmt.Sprintf(format, a...)) }
	p.OnFollow = func(down bool, i int) { say("follow %v %d", down, i) }
	p.OnCurve = func(i int) { say("curve %d", i) }
	p.OnSmooth = func() { say("smooth") }
	p.OnStraighten = func() { say("straighten") }
	p.OnBetween = func() { say("between") }
	p.OnParallel = func(text string) error { say("out %s", text); return nil }
	p.OnInward = func(text string) error { say("in %s", text); return nil }
	p.OnStyle = func(i int, text string) error { say("style %d %s", i, text); return nil }
	p.OnStages = func(on bool) { say("stages %v", on) }
	p.OnTakeBack = func(i int) { say("back %d", i) }
	p.OnTakeAll = func() { say("all") }

	p.follows[0].list.SetSelected("Steps")
	p.follows[1].list.SetSelected("Bust")
	p.curve.list.SetSelected("Straight")
	for _, l := range linksIn(p.full) {
		test.Tap(l)
	}
	retype(p.parallel, "3/8")
	press(p.parallel.entry, fyne.KeyReturn)
	press(p.way, fyne.KeyRight)
	retype(p.parallel, "1/8")
	press(p.parallel.entry, fyne.KeyReturn)
	p.style.list.SetSelected("Wider neckline")
	retype(p.amount, "1/2")
	press(p.amount.entry, fyne.KeyReturn)
	test.Tap(p.stages)
	want := "follow false 1, follow true 2, curve 2, smooth, straighten, between, back 0, back 1, all, " +
		"out 3/8, in 1/8, style 1 1/2, stages true"
	if got := strings.Join(did, ", "); got != want {
		t.Errorf("reported\n%s\nwant\n%s", got, want)
	}
	if p.parallel.entry.Text != "" || p.amount.entry.Text != "" {
		t.Error("an amount that was taken still stands in its field")
	}
}

func TestByEyeRefuses(t *testing.T) {
	p := openByEye(t)
	grown := 0
	p.OnGrown = func() { grown++ }
	p.OnStyle = func(int, string) error { return errUnread }
	retype(p.amount, "lots")
	press(p.amount.entry, fyne.KeyReturn)
	mustShow(t, p, unread)
	press(p.amount.entry, fyne.KeyEscape)
	if shows(p, unread) || p.amount.entry.Text != "" || grown != 2 {
		t.Errorf("after Escape it reads %q, grown %d times", p.amount.entry.Text, grown)
	}
}
