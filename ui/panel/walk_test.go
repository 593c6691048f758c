package panel

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// sampleWalk is a cap of 525 mm in an armhole of 496 mm.
func sampleWalk() WalkView {
	return WalkView{
		Say:  "The sleeve cap laid along the armhole, back underarm to front underarm, both meeting at the shoulder",
		Word: "ease", Ease: "29 mm", EaseSay: "4 mm more than wanted", Look: true,
		Follow: WalkSide{Name: "Sleeve cap", Length: "525 mm", Long: 525, Marks: []WalkMark{
			{At: 0, Name: "back underarm"},
			{At: 141, Name: "back notch", Notch: true, Double: true},
			{At: 265, Name: "shoulder"},
			{At: 398, Name: "front notch", Notch: true},
			{At: 525, Name: "front underarm"},
		}},
		Lead: WalkSide{Name: "Armhole", Length: "496 mm", Long: 496, Marks: []WalkMark{
			{At: 0}, {At: 137, Notch: true, Double: true}, {At: 249}, {At: 372, Notch: true}, {At: 496},
		}},
		Parts: []WalkPart{
			{Lead: [2]float64{0, 137}, Follow: [2]float64{0, 141}, Figure: "+4 mm", Short: "+4"},
			{Lead: [2]float64{137, 249}, Follow: [2]float64{141, 265}, Figure: "+12 mm", Short: "+12", Look: true},
			{Lead: [2]float64{249, 372}, Follow: [2]float64{265, 398}, Figure: "+10 mm", Short: "+10"},
			{Lead: [2]float64{372, 496}, Follow: [2]float64{398, 525}, Figure: "+3 mm", Short: "+3"},
		},
		MeetLead: 249, MeetFollow: 265,
		Most: "Most of the extra sits between the back notch and the shoulder.",
	}
}

func TestWalkShows(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		w := NewWalk()
		w.SetView(sampleWalk())
		win := open(t, w, 815, WalkHeight)
		mustShow(t, w, "Seam walk", "29 mm", "4 mm more than wanted", "Sleeve cap", "525 mm", "Armhole", "496 mm",
			"back underarm", "back notch", "shoulder", "front notch", "front underarm", "+4", "+12 mm", "+10", "+3",
			"Most of the extra sits between the back notch and the shoulder.")
		win.Resize(fyne.NewSize(560, WalkHeight))
		mustShow(t, w, "back underarm", "shoulder", "front underarm", "+12 mm")
		if shows(w, "back notch") {
			t.Error("names run into each other where there is little room")
		}
		w.SetShort(true)
		mustShow(t, w, "Seam walk", "29 mm", "4 mm more than wanted", "Sleeve cap", "496 mm", "+12 mm")
		if w.MinSize().Height != WalkShort || shows(w, sampleWalk().Say) {
			t.Errorf("the short strip is %.0f high", w.MinSize().Height)
		}
		w.SetView(WalkView{Empty: "Take a seam in hand."})
		mustShow(t, w, "Take a seam in hand.")
		if shows(w, "+12 mm") || shows(w, "Sleeve cap") {
			t.Error("without a seam the last one still shows")
		}
	})
}

// TestWalkIsToScale lays both sides to one scale, meeting where they are to.
func TestWalkIsToScale(t *testing.T) {
	v := sampleWalk()
	l := layWalk(v, 128, 779)
	if f, e := l.follow(265), l.lead(249); math.Abs(f-e) > 1e-9 {
		t.Errorf("the shoulders lie at %.2f and %.2f", f, e)
	}
	if long := l.follow(525) - l.follow(0); math.Abs(long-(l.lead(496)-l.lead(0))*525/496) > 1e-9 {
		t.Errorf("525 mm are drawn %.1f px long", long)
	}
	if l.follow(0) < 128-1e-9 || l.follow(525) > 779+1e-9 || l.lead(0) < 128 || l.lead(496) > 779 {
		t.Error("a bar reaches beyond its room")
	}
}

// TestWalkClicks presses a part, a mark of either side, and what is neither.
func TestWalkClicks(t *testing.T) {
	w := NewWalk()
	part, follow, lead := -1, -1, -1
	w.OnPart = func(i int) { part = i }
	w.OnMark = func(f bool, i int) {
		if f {
			follow = i
		} else {
			lead = i
		}
	}
	w.SetView(sampleWalk())
	open(t, w, 815, WalkHeight)
	l := w.lay()
	tapAt(w, float32(l.follow(200)), (w.rows().follow+walkBar+w.rows().lead)/2)
	tapAt(w, float32(l.follow(398))+2, w.rows().follow+5)
	tapAt(w, float32(l.lead(137))-2, w.rows().lead+5)
	if part != 1 || follow != 3 || lead != 1 {
		t.Errorf("part %d, follower's mark %d, leader's mark %d", part, follow, lead)
	}
	part = -1
	tapAt(w, 400, 20)
	if part != -1 {
		t.Error("a click on the title showed a part")
	}
	w.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(l.follow(60)), w.rows().follow+walkBar+8)}})
	if w.over != 0 || w.Cursor() != desktop.PointerCursor {
		t.Errorf("over part %d", w.over)
	}
	w.MouseOut()
	if w.over != -1 {
		t.Error("the pointer left and the part is still lit")
	}
}
