package board

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

func (b *table) keyed(names ...fyne.KeyName) {
	for _, n := range names {
		b.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// The arrow keys move the cross-hair by a px, with Shift by ten, the pointer
// with it; Enter clicks there, once for each place; a mouse that moves takes over.
func TestTraceByArrowKeys(t *testing.T) {
	b := newTable(t)
	b.SetTool(Trace)
	var placed, pointed []geom.Point
	b.OnPlace = func(at geom.Point) { placed = append(placed, at) }
	b.OnPointer = func(at geom.Point) { pointed = append(pointed, at) }
	b.keyed(fyne.KeyReturn)
	if len(placed) != 0 {
		t.Error("Enter clicked before there was a cross-hair")
	}
	b.keyed(fyne.KeyRight)
	from := b.pointer
	b.keyed(fyne.KeyRight, fyne.KeyRight, fyne.KeyUp)
	b.mods = fyne.KeyModifierShift
	b.keyed(fyne.KeyDown)
	b.mods = 0
	if d := b.pointer.Sub(from); d.X != 2 || d.Y != 9 {
		t.Errorf("moved by %v px, not 2 and 9", d)
	}
	b.keyed(fyne.KeyReturn, fyne.KeyReturn)
	if len(placed) != 1 || placed[0] != b.View().ToMM(b.pointer) || len(pointed) != 5 {
		t.Errorf("placed %v at %v, pointed %d times", placed, b.View().ToMM(b.pointer), len(pointed))
	}
	b.SetTrace(&scene.Trace{Lines: []scene.TracedLine{{Asked: true}}})
	b.said()
	b.keyed(fyne.KeyReturn)
	b.expect("key Return")
	b.SetTrace(nil)
	w, _ := b.paperSize()
	was := b.View().Origin
	b.mods = fyne.KeyModifierShift
	for range int(w) / crossLarge {
		b.keyed(fyne.KeyRight)
	}
	b.mods = 0
	if b.pointer.X > w-crossRim+1 || b.View().Origin.X <= was.X {
		t.Errorf("at the rim the paper does not slide: at %v, from %v to %v", b.pointer, was, b.View().Origin)
	}
	b.parts.cross.drop()
	if b.keyed(fyne.KeyReturn); len(placed) != 1 {
		t.Error("Enter clicked where no cross-hair is")
	}
}

// Tab takes the cross-hair from place to place that was traced or clicked.
func TestTabGoesRoundTracedPlaces(t *testing.T) {
	b := newTable(t)
	b.SetTool(Trace)
	spots := []geom.Point{geom.Pt(100, 80), geom.Pt(200, 80), geom.Pt(150, 180)}
	b.SetTrace(&scene.Trace{Corners: []scene.TraceCorner{{At: spots[0]}}, Next: spots[1:2], Targets: []scene.TraceTarget{{At: spots[2], Number: 1}}})
	if !b.AcceptsTab() {
		t.Fatal("Tab passes the Table by")
	}
	for i := range 4 {
		b.keyed(fyne.KeyTab)
		if got := b.View().ToMM(b.pointer); got.Dist(spots[i%3]) > 0.01 {
			t.Errorf("Tab %d goes to %v, not %v", i+1, got, spots[i%3])
		}
	}
	b.mods = fyne.KeyModifierShift
	b.keyed(fyne.KeyTab)
	if got := b.View().ToMM(b.pointer); got.Dist(spots[2]) > 0.01 {
		t.Errorf("back it goes to %v", got)
	}
}

// The see-through ruler taken by key: arrows slide it by the steps of the unit,
// Ctrl turns it, its words follow, and Escape gives the keys back.
func TestRulerByKeys(t *testing.T) {
	b := newTable(t)
	b.SetUnit(model.Centimetres)
	told := 0
	b.OnRuler = func() { told++ }
	b.SetRuler(true)
	r := b.parts.ruler
	if b.RulerWords() != nil {
		t.Error("a ruler laid by the mouse has the keys")
	}
	b.TakeRuler()
	was := r.zero
	b.keyed(fyne.KeyRight, fyne.KeyRight, fyne.KeyDown)
	if d := r.zero.Sub(was); math.Abs(d.X-2) > 1e-9 || math.Abs(d.Y-1) > 1e-9 {
		t.Errorf("slid by %v mm", d)
	}
	turn := func(key fyne.KeyName, mod fyne.KeyModifier) {
		b.TypedShortcut(&desktop.CustomShortcut{KeyName: key, Modifier: mod})
	}
	for range 6 {
		turn(fyne.KeyRight, fyne.KeyModifierControl|fyne.KeyModifierShift)
	}
	if r.dir != (geom.Vec{Y: 1}) {
		t.Errorf("six times fifteen degrees end at %v", r.dir)
	}
	turn(fyne.KeyLeft, fyne.KeyModifierControl)
	if got := math.Atan2(r.dir.Y, r.dir.X) * 180 / math.Pi; math.Abs(got-89) > 1e-6 {
		t.Errorf("turned to %v degrees", got)
	}
	if words := strings.Join(b.RulerWords(), " "); !strings.Contains(words, "turned 89°") || told != 11 {
		t.Errorf("said %q, told %d times", words, told)
	}
	b.said()
	b.keyed(fyne.KeyEscape)
	if b.RulerWords() != nil || !b.Ruler() {
		t.Error("Escape did not give the keys back, or took the ruler away")
	}
	b.keyed(fyne.KeyRight)
	b.expect("nudge 1.0000,0.0000 step 0")
}
