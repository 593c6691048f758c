package panel

import (
	"testing"

	"fyne.io/fyne/v2/test"
)

// A link found is accepted, left out and shown by mouse; all at once by one
// button; without any, one looks for them.
func TestProposals(t *testing.T) {
	p := NewProposals()
	var did []string
	note := func(what string) func(int) {
		return func(i int) { did = append(did, what+string(rune('0'+i))) }
	}
	p.OnPick, p.OnAccept, p.OnLeave = note("pick"), note("accept"), note("leave")
	p.OnAll = func() { did = append(did, "all") }
	p.OnFind = func() { did = append(did, "find") }
	p.SetView(ProposalsView{Title: "2 links found", All: "Accept all 2", Found: []ProposalView{
		{What: "Front facing follows the front neckline", How: "within 0.1 mm in print"},
		{What: "Sleeve cap fits the armhole", How: "which half of the cap is the back one is a guess", Look: true, Chosen: true},
	}})
	open(t, p, sideContent, 400)
	for _, want := range []string{"2 links found", "Front facing follows the front neckline", "within 0.1 mm in print", "Accept", "Leave out", "Accept all 2"} {
		if !shows(p, want) {
			t.Errorf("%q does not show", want)
		}
	}
	test.Tap(p.rows[0].accept)
	test.Tap(p.rows[1].leave)
	test.Tap(p.rows[1])
	test.Tap(p.all)
	p.SetView(ProposalsView{Find: "Find links"})
	if p.Visible() || !p.Search().Visible() || p.find.Text != "Find links" {
		t.Error("with nothing found the list still shows, or one cannot look")
	}
	test.Tap(p.find)
	want := []string{"accept0", "leave1", "pick1", "all", "find"}
	if len(did) != len(want) {
		t.Fatalf("did %v, want %v", did, want)
	}
	for i := range want {
		if did[i] != want[i] {
			t.Errorf("did %v, want %v", did, want)
		}
	}
	p.SetView(ProposalsView{})
	if p.Visible() || p.Search().Visible() {
		t.Error("with nothing to say it still takes room")
	}
}
