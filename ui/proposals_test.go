package ui

import (
	"path/filepath"
	"testing"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/model"
)

// The links of a nest brought in are shown to accept, one or all, each choice
// one step back; what is left out stays out.
func TestLinksFoundAreShownToAccept(t *testing.T) {
	w := open(t)
	path := filepath.Join("..", "testdata", "nests", "blouse-eu-36-42.svg")
	got, err := app.BringInByAnyChart(path, w.charts())
	w.broughtIn(path, got, err)
	view := func() int { return len(w.proposalsView(w.doc.Pattern()).Found) }
	if view() != 6 || !w.folds["Links"].Open() || len(w.doc.Pattern().Links) != 0 {
		t.Fatalf("%d links found, %d linked, the panel open: %v", view(), len(w.doc.Pattern().Links), w.folds["Links"].Open())
	}
	v := w.proposalsView(w.doc.Pattern())
	if f := v.Found[0]; f.What != "Front facing follows the front neckline" || f.How != "within 0.1 mm in print" || v.All != "Accept all 6" {
		t.Errorf("found first: %+v; %q", f, v.All)
	}

	w.proposals.OnPick(4)
	in := w.sceneOf(w.doc.Pattern(), w.doc.Result())
	if len(in.Runs) != 3 || in.Runs[2].Piece != w.hand.Piece {
		t.Errorf("the cap and both armholes do not stand out: %v", in.Runs)
	}
	w.proposals.OnPick(4)
	if in := w.sceneOf(w.doc.Pattern(), w.doc.Result()); len(in.Runs) != 0 {
		t.Errorf("pressed again, they still stand out")
	}

	w.proposals.OnAccept(0)
	if p := w.doc.Pattern(); len(p.Links) != 1 || p.Links[0].Kind != model.SameLine || view() != 5 {
		t.Errorf("accepting one: %d links, %d found", len(p.Links), view())
	}
	w.proposals.OnLeave(0)
	if view() != 4 || len(w.doc.History()) != 1 {
		t.Errorf("leaving one out: %d found, history %v", view(), w.doc.History())
	}
	w.proposals.OnAll()
	h := w.doc.History()
	if p := w.doc.Pattern(); len(p.Links) != 5 || view() != 0 || len(h) != 2 || h[1] != "accept 4 links" {
		t.Errorf("accepting all: %d links, %d found, history %v", len(p.Links), view(), h)
	}
	w.doc.Undo()
	if view() != 4 || len(w.doc.Pattern().Links) != 1 {
		t.Errorf("undone: %d found, %d linked", view(), len(w.doc.Pattern().Links))
	}
	w.proposals.OnFind()
	if view() != 5 {
		t.Errorf("looked for again: %d found", view())
	}
}

// A pattern opened has nothing proposed until she asks, and says when nothing
// more is found.
func TestFindLinks(t *testing.T) {
	w := open(t)
	if v := w.proposalsView(w.doc.Pattern()); len(v.Found) != 0 || v.Find != "Find links" || v.None != "" {
		t.Errorf("before asking: %+v", v)
	}
	w.proposals.OnFind()
	if v := w.proposalsView(w.doc.Pattern()); len(v.Found) != 0 || v.None == "" {
		t.Errorf("all is linked: %+v", v)
	}
	w.do("unlink", edit.Unlink("cap"))
	if v := w.proposalsView(w.doc.Pattern()); len(v.Found) != 1 || v.All != "Accept it" || v.Found[0].What != "Sleeve cap fits the armhole" {
		t.Errorf("after unlinking the cap: %+v", v)
	}
}
