package board

import (
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/view"
)

func TestArrowKeysAskForSteps(t *testing.T) {
	b := newTable(t)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	b.mods = fyne.KeyModifierShift
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	b.mods = 0
	b.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyLeft, Modifier: fyne.KeyModifierControl})
	b.expect("nudge 1.5875,0.0000 step 0", "nudge 0.0000,-6.3500 step 1", "nudge -0.3969,0.0000 step 2")
	b.SetUnit(model.Centimetres)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	b.expect("nudge 0.0000,1.0000 step 0")
	b.TypedShortcut(&fyne.ShortcutUndo{})
	b.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyS, Modifier: fyne.KeyModifierControl})
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2})
	b.TypedRune('n')
	b.TypedRune('3')
	b.expect("shortcut Undo", "shortcut CustomDesktop:Control+S", "key F2", "rune n", "rune 3")
}

func TestTabGoesRoundTheHandles(t *testing.T) {
	b := newTable(t)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	b.expect()
	b.click(b.at(geom.Pt(120, 200)))
	b.said()
	var seen []string
	for range 9 {
		b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
		seen = append(seen, b.in.Select.Point)
	}
	if seen[0] != "cf-neck" || seen[8] != "cf-hem" || len(slices.Compact(slices.Sorted(slices.Values(seen)))) != 9 {
		t.Errorf("Tab went through %v", seen)
	}
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	if b.in.Select.Point != "cf-neck" {
		t.Errorf("after the last came %s", b.in.Select.Point)
	}
	b.mods = fyne.KeyModifierShift
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	if b.in.Select.Point != "cf-hem" {
		t.Errorf("before the first came %s", b.in.Select.Point)
	}
}

// Without the pointer on the Table it grows about what is in hand, so that it does
// not go out of sight; what is out of sight already does not count.
func TestZoomKeepsWhatIsInHandInPlace(t *testing.T) {
	b := newTable(t)
	b.click(b.at(geom.Pt(120, 200)))
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	h, ok := b.inHand()
	if !ok {
		t.Fatal("nothing is in hand")
	}
	b.MouseOut()
	for _, grow := range []func(){func() { b.ZoomBy(1.25) }, b.TrueSize} {
		before := b.view.ToPx(h.At)
		if grow(); b.view.ToPx(h.At).Sub(before).Len() > 1e-6 {
			t.Errorf("what is in hand went from %v to %v", before, b.view.ToPx(h.At))
		}
	}
	b.setView(b.view.Slide(view.Px{X: -b.view.ToPx(h.At).X - 20}))
	w, high := b.paperSize()
	middle := view.Px{X: w / 2, Y: high / 2}
	was := b.view.ToMM(middle)
	if b.ZoomBy(1.25); b.view.ToMM(middle).Dist(was) > 1e-6 {
		t.Error("out of sight, what is in hand moves the middle")
	}
}

func TestKeysOfTheView(t *testing.T) {
	b := newTable(t)
	fit := b.view
	b.TypedRune('+')
	if r := b.view.Scale / fit.Scale; math.Abs(r-1.25) > 1e-9 {
		t.Errorf("+ made it %g times as large", r)
	}
	b.TypedRune('-')
	b.TypedRune('9')
	if math.Abs(b.Percent()-100) > 1e-9 {
		t.Errorf("true size is %g %%", b.Percent())
	}
	b.SetScreen(4)
	b.TrueSize()
	if b.view.Scale != 4 {
		t.Errorf("on a screen of 4 px a mm true size is %g px a mm", b.view.Scale)
	}
	b.TypedRune('0')
	if b.view != fit {
		t.Errorf("0 shows %v, not %v", b.view, fit)
	}
	b.TypedRune('r')
	if b.Tool() != Measure {
		t.Error("R does not measure")
	}
	b.expect("tool 2")
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	b.expect("select ///0", "key Escape")
}
