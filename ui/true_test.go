package ui

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// openTrue is the window on the demo blouse at size 48, its sleeve cap raised
// by mm, at the True step.
func openTrue(t *testing.T, mm float64) *Window {
	t.Helper()
	w := open(t)
	place, ok := w.doc.Pattern().Chart.Place("48")
	if !ok {
		t.Fatal("the chart has no 48")
	}
	w.do("size 48", edit.Place(float64(place)))
	if mm != 0 {
		w.do("raise the cap", edit.MovePoint("sleeve", pointID(t, w, "sleeve", "crown"), geom.Vec{Y: -mm}))
	}
	w.goTo(stepTrue)
	return w
}

func pointID(t *testing.T, w *Window, piece, name string) string {
	t.Helper()
	p := w.doc.Pattern()
	for _, g := range p.Pieces[p.PieceIndex(piece)].Points {
		if g.Name == name {
			return g.ID
		}
	}
	t.Fatalf("%s has no %s", piece, name)
	return ""
}

func inSeam(t *testing.T, w *Window) grading.Seam {
	t.Helper()
	l, ok := w.linkInHand(w.doc.Pattern())
	s, walked := seamOf(w.doc.Result(), l)
	if !ok || !walked {
		t.Fatalf("no seam in hand: %v", l.ID)
	}
	return s
}

func (w *Window) shownLinks() panel.LinksView { return w.linksView(w.doc.Pattern(), w.doc.Result()) }

// TestTrueTakesTheWorstSeam enters the step with a cap that is too full: it is
// in hand, walked, and said on the rail; the first remedy makes it fit in one
// step that can be undone.
func TestTrueTakesTheWorstSeam(t *testing.T) {
	w := openTrue(t, 15)
	if w.trues.link != "cap" || w.walk.Hidden || !w.joinBar.Hidden || !w.folds["Links"].Open() || !w.folds["Checks"].Open() {
		t.Fatalf("in hand is %q; the walk is hidden: %v", w.trues.link, w.walk.Hidden)
	}
	p, r := w.doc.Pattern(), w.doc.Result()
	if s := trueState(p, r); s.State != "1 to look at" || s.Mark != panel.LookAt {
		t.Errorf("the rail says %q", s.State)
	}
	s := inSeam(t, w)
	if s.Off() < 2 {
		t.Fatalf("the cap is %.1f mm over", s.Off())
	}
	walk := w.walkOf(p, r, p.Links[slices.IndexFunc(p.Links, func(l model.Link) bool { return l.ID == "cap" })])
	if !walk.Look || len(walk.Parts) != 4 || walk.Follow.Name != "Sleeve cap" || walk.Lead.Name != "Armhole" {
		t.Errorf("the walk shows %d parts of %s along %s", len(walk.Parts), walk.Follow.Name, walk.Lead.Name)
	}
	var names []string
	for _, m := range walk.Follow.Marks {
		names = append(names, m.Name)
	}
	if got := strings.Join(names, ", "); got != "back underarm, back notch, shoulder tip, front notch, front underarm" {
		t.Errorf("the marks are %s", got)
	}
	v := w.shownLinks()
	if v.Open < 0 || len(v.Detail.Remedies) == 0 || !strings.HasPrefix(v.Detail.Remedies[0], "Lower the cap ") {
		t.Fatalf("offered is %q", v.Detail.Remedies)
	}
	steps := len(w.doc.History())
	w.links.OnRemedy(0)
	if s := inSeam(t, w); math.Abs(s.Off()) > 0.01 {
		t.Errorf("after it the cap is %.3f mm off", s.Off())
	}
	if len(w.doc.History()) != steps+1 || seamsOff(w.doc.Pattern(), w.doc.Result()) != 0 {
		t.Errorf("steps %q, %d seams off", w.doc.History(), seamsOff(w.doc.Pattern(), w.doc.Result()))
	}
	if say := w.shownLinks().Detail.GiveSay; !strings.HasPrefix(say, "The cap is ") || !strings.HasSuffix(say, " lower.") {
		t.Errorf("what gave way is said as %q", say)
	}
	w.doc.Undo()
	if inSeam(t, w).Off() < 2 {
		t.Error("undo did not bring the full cap back")
	}
}

// TestTypedEase sets the ease wanted by its two fields.
func TestTypedEase(t *testing.T) {
	w := openTrue(t, 15)
	if err := w.links.OnHigh("wide"); err == nil {
		t.Error("no complaint about an ease that cannot be read")
	}
	if err := w.links.OnHigh("60"); err != nil {
		t.Fatal(err)
	}
	if s := inSeam(t, w); s.Wanted.Low != 18 || s.Wanted.High != 60 || s.Off() != 0 {
		t.Errorf("wanted is %v, off by %.1f", s.Wanted, s.Off())
	}
	if err := w.links.OnLow("2,5 cm"); err != nil {
		t.Fatal(err)
	}
	if s := inSeam(t, w); s.Wanted.Low != 25 || s.Wanted.High != 60 {
		t.Errorf("wanted is %v", s.Wanted)
	}
	w.links.OnPrint()
	if s := inSeam(t, w); math.Abs(s.Wanted.Low-22) > 0.1 || s.Wanted.Low != s.Wanted.High {
		t.Errorf("as in print is %v", s.Wanted)
	}
}

// TestLinkByMouse takes the shoulders' link off and makes it again: an edge, K,
// the other edge, and with Shift one more on either side.
func TestLinkByMouse(t *testing.T) {
	w := openTrue(t, 0)
	p := w.doc.Pattern()
	was := p.Links[slices.IndexFunc(p.Links, func(l model.Link) bool { return l.ID == "shoulders" })]
	w.takeLink(was)
	w.links.OnUnlink()
	if slices.ContainsFunc(w.doc.Pattern().Links, func(l model.Link) bool { return l.ID == "shoulders" }) {
		t.Fatal("the link is still there")
	}
	at := func(s model.Stretch, i int) scene.Ref { return scene.Ref{Piece: s.Piece, Edge: s.Edges[i]} }
	w.hand = at(was.Lead, 1)
	w.rune('k')
	if !w.shownLinks().Make.UnderWay || w.shownLinks().Make.Follow != "" {
		t.Fatal("K begins no link")
	}
	w.linkTo(at(was.Lead, 0), true)
	w.linkTo(at(was.Follow, 0), false)
	w.linkTo(at(was.Follow, 1), true)
	steps := len(w.doc.History())
	w.links.OnMake()
	links := w.doc.Pattern().Links
	got := links[len(links)-1]
	same := slices.Equal(got.Lead.Edges, was.Lead.Edges) && slices.Equal(got.Follow.Edges, was.Follow.Edges)
	if !same || got.Kind != model.Sewn || got.Lead.Reverse != got.Follow.Reverse {
		t.Errorf("made %+v, want %+v", got, was)
	}
	if len(w.doc.History()) != steps+1 || w.trues.link != got.ID || w.shownLinks().Make.UnderWay {
		t.Errorf("steps %q, in hand %q", w.doc.History(), w.trues.link)
	}
	w.rune('k')
	w.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.trues.make.underWay() {
		t.Error("Escape does not let the link go")
	}
}

// TestAFollowersLineMovesItsLeader drags the facing's neck point: the front's
// moves, the facing keeps no correction of its own, and the status bar says
// whose line it is.
func TestAFollowersLineMovesItsLeader(t *testing.T) {
	w := openTrue(t, 0)
	before := w.doc.Result()
	p := w.doc.Pattern()
	f := p.PieceIndex("front-facing")
	id := pointID(t, w, "front-facing", "neck point")
	k := p.Pieces[f].PointIndex(id)
	at := scene.Ref{Piece: "front-facing", Point: id}
	by := geom.Vec{X: 3, Y: -5}
	w.table.OnDragPoint(at, geom.Vec{}, board.DragStart)
	w.table.OnDragPoint(at, by, board.DragMove)
	if !strings.Contains(w.trues.led.say, "front bodice neckline*: it moves with it") && !strings.Contains(w.trues.led.say, "belongs to the *front bodice") {
		t.Errorf("it says %q", w.trues.led.say)
	}
	w.table.OnDragPoint(at, by, board.DragEnd)
	now := w.doc.Pattern()
	if n := len(now.Pieces[f].Hand.Moves); n != 0 {
		t.Errorf("the facing has %d corrections of its own", n)
	}
	if n := len(now.Pieces[now.PieceIndex("front")].Hand.Moves); n != 1 {
		t.Errorf("the front has %d corrections", n)
	}
	moved := w.doc.Result().Pieces[f].Edges[k].Start().Sub(before.Pieces[f].Edges[k].Start())
	if moved.Sub(by).Len() > 0.05 {
		t.Errorf("the facing's point moved %v, want %v", moved, by)
	}
	if h := w.doc.History(); h[len(h)-1] != "move neck point" {
		t.Errorf("the step is called %q", h[len(h)-1])
	}
	if w.trues.led.on {
		t.Error("the hand still holds a led line")
	}
}

// TestJoinedPiecesStayInTheHand lays back and front together at the shoulder,
// looks over the join, and drags a point: the pieces hold still until the hand
// lets go, and then lie on each other again.
func TestJoinedPiecesStayInTheHand(t *testing.T) {
	w := openTrue(t, 0)
	p := w.doc.Pattern()
	w.takeLink(p.Links[slices.IndexFunc(p.Links, func(l model.Link) bool { return l.ID == "shoulders" })])
	w.hand = scene.Ref{Piece: "back"}
	w.joinPieces(true)
	if w.joinBar.Hidden || w.trues.refused != nil {
		t.Fatalf("not laid together: %v", w.trues.refused)
	}
	in := w.sceneOf(w.doc.Pattern(), w.doc.Result())
	if len(in.Pattern.Pieces) != 2 || len(in.Placement) != 2 {
		t.Fatalf("%d pieces lie on the Table, %d placed", len(in.Pattern.Pieces), len(in.Placement))
	}
	still := w.trues.laid.Placement["back"]
	at := scene.Ref{Piece: "back", Point: pointID(t, w, "back", "neck point")}
	w.table.OnDragPoint(at, geom.Vec{}, board.DragStart)
	w.table.OnDragPoint(at, geom.Vec{Y: 9}, board.DragMove)
	if w.trues.laid.Placement["back"] != still {
		t.Error("the piece slid under the hand")
	}
	bent := w.joinView(w.doc.Pattern(), w.doc.Result(), p.Links[slices.IndexFunc(p.Links, func(l model.Link) bool { return l.ID == "shoulders" })])
	if !bent.Look || !strings.Contains(bent.Say, "bends") {
		t.Errorf("a neck point 9 mm off is called %q", bent.Say)
	}
	w.table.OnDragPoint(at, geom.Vec{Y: 9}, board.DragEnd)
	if w.trues.laid.Placement["back"] == still {
		t.Error("let go, the pieces do not lie on each other again")
	}
	w.links.OnPick(slices.IndexFunc(p.Links, func(l model.Link) bool { return l.ID == "sleeve-seam" }))
	if w.trues.refused == nil {
		t.Error("a seam of one piece with itself was laid together")
	}
}

// TestWalkShowsItsPlaces clicks a part and a mark of the walk.
func TestWalkShowsItsPlaces(t *testing.T) {
	w := openTrue(t, 0)
	p := w.doc.Pattern()
	w.takeLink(p.Links[slices.IndexFunc(p.Links, func(l model.Link) bool { return l.ID == "cap" })])
	w.hand = scene.Ref{Piece: "sleeve"}
	w.refresh()
	w.walk.OnPart(3)
	if got := w.refName(w.hand); w.hand.Piece != "sleeve" || got != "front cap" {
		t.Errorf("the last part takes %s of %s in hand", got, w.hand.Piece)
	}
	walk, _ := w.walkInHand()
	for i, m := range walk.Lead.Marks {
		w.walk.OnMark(false, i)
		if w.hand.Piece != m.Piece || m.Point != "" && w.hand.Point != m.Point {
			t.Errorf("mark %d takes %+v in hand, want %s of %s", i, w.hand, m.Name, m.Piece)
		}
	}
	if w.trues.link != "cap" {
		t.Errorf("looking at the marks, %s came in hand", w.trues.link)
	}
}
