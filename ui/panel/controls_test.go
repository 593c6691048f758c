package panel

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

// TestKeyboard: what can be pressed can be pressed by Space and Enter, switched
// off it cannot, and letters go on to the window.
func TestKeyboard(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		n := 0
		b := newIconButton(theme.Plus, "", func() { n++ })
		win := open(t, b, 40, 40)
		var letter rune
		var key fyne.KeyName
		win.Canvas().SetOnTypedRune(func(r rune) { letter = r })
		win.Canvas().SetOnTypedKey(func(k *fyne.KeyEvent) { key = k.Name })
		win.Canvas().Focus(b)
		press(b, fyne.KeySpace, fyne.KeyReturn)
		b.TypedRune('n')
		press(b, fyne.KeyF2)
		if n != 2 || letter != 'n' || key != fyne.KeyF2 {
			t.Errorf("pressed %d times, letter %q, key %q", n, letter, key)
		}
		b.setOff(true)
		press(b, fyne.KeySpace)
		test.Tap(b)
		if n != 2 {
			t.Error("a button switched off still presses")
		}
	})
}

func TestTwoWay(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		var turns []bool
		s := newTwoWay("in", "cm", "")
		s.onTurn = func(second bool) { turns = append(turns, second) }
		open(t, s, 100, 40)
		tapAt(s, 5, 10)
		tapAt(s, 90, 10)
		tapAt(s, 95, 10)
		press(s, fyne.KeyLeft, fyne.KeySpace)
		want := []bool{true, false, true}
		if len(turns) != len(want) || turns[0] != want[0] || turns[1] != want[1] || turns[2] != want[2] {
			t.Errorf("turned %v, want %v", turns, want)
		}
		s.set(false)
		if len(turns) != 3 {
			t.Error("being set is reported as a turn")
		}
	})
}

func TestCheck(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		var turns []bool
		c := newCheck("Nest")
		c.onTurn = func(on bool) { turns = append(turns, on) }
		open(t, c, 100, 30)
		c.set(true)
		test.Tap(c)
		press(c, fyne.KeySpace)
		if len(turns) != 2 || turns[0] || !turns[1] {
			t.Errorf("from ticked it turned %v", turns)
		}
		mustShow(t, c, "Nest")
	})
}

func TestPick(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		got := -1
		p := newPick(100)
		p.onPick = func(i int) { got = i }
		open(t, p, 160, 40)
		p.set([]string{"Steps", "Bust", "Waist"}, 1)
		if got != -1 {
			t.Error("being set is reported as a choice")
		}
		mustShow(t, p, "Bust")
		p.list.SetSelected("Waist")
		if got != 2 {
			t.Errorf("chose place %d, want 2", got)
		}
		p.set([]string{"Steps", "Bust", "Waist"}, -1)
		if p.list.Selected != "" {
			t.Errorf("with none chosen it shows %q", p.list.Selected)
		}
	})
}

func TestFold(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		var folds []bool
		f := NewFold("Checks", newWords("inside", theme.Body, ink))
		f.OnFold = func(open bool) { folds = append(folds, open) }
		open(t, f, 320, 300)
		f.SetState("2 to look at", true)
		mustShow(t, f, "Checks", "2 to look at")
		if shows(f, "inside") {
			t.Error("folded, it shows its content")
		}
		folded := f.MinSize().Height
		test.Tap(f.head)
		mustShow(t, f, "inside", "2 to look at")
		if f.MinSize().Height <= folded {
			t.Error("open, it takes no more room than folded")
		}
		press(f.head, fyne.KeyReturn)
		if f.Open() || len(folds) != 2 || !folds[0] || folds[1] {
			t.Errorf("folds reported: %v", folds)
		}
		f.SetOpen(true)
		if len(folds) != 2 {
			t.Error("SetOpen is reported as the sewist's doing")
		}
	})
}

func TestNote(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		n := newNote(200)
		open(t, n, 200, 100)
		if n.Visible() {
			t.Error("an empty note shows")
		}
		n.set("Cap is too full.", true)
		mustShow(t, n, "Cap is too full.")
		n.set("", false)
		if n.Visible() {
			t.Error("a note that was emptied still shows")
		}
	})
}
