package stopwatch

import (
	"strings"
	"testing"
	"time"
)

// TestLaps holds the line of a stretch against one reckoned by hand: 3 ms of
// drawing, 5 ms of grading within 9 ms of showing, reached after 20 ms, of which the
// processors computed 4 in the first and 5 in the second lap; the window's own
// thread computed half of that, 4.5 in the first turn and 10.5 in the second.
func TestLaps(t *testing.T) {
	var out strings.Builder
	now, used := time.UnixMilli(1000), time.Duration(0)
	w := newWatching(&out, func() time.Time { return now }, clocks{
		cpu: func() time.Duration { return used }, thread: func() time.Duration { return used / 2 },
	})
	pass := func(ms int) { now = now.Add(time.Duration(ms) * time.Millisecond) }

	show := w.lap("show")
	pass(2)
	used = 4 * time.Millisecond
	grade := w.lap("grade")
	pass(5)
	grade()
	pass(2)
	show()
	draw := w.lap("draw")
	pass(3)
	used = 9 * time.Millisecond
	draw()
	w.turned()
	used = 30 * time.Millisecond
	w.reached(20 * time.Millisecond)
	if got, want := out.String(), "1012 20.00 30.00 12.00 9.00 10.50 grade=5.00/0.00 show=4.00/2.00 draw=3.00/2.50\n"; got != want {
		t.Errorf("the stretch was written as %q, want %q", got, want)
	}

	w.turned()
	w.reached(time.Millisecond)
	out.Reset()
	w.reached(time.Millisecond)
	if out.String() != "" {
		t.Errorf("an idle moment was written down: %q", out.String())
	}
	w.reached(4 * time.Millisecond)
	if got, want := out.String(), "1012 4.00 0.00 0.00 0.00 0.00\n"; got != want {
		t.Errorf("a stretch of the toolkit's own was written as %q, want %q", got, want)
	}
}

// TestOff: unless the environment asks for it a lap is nothing and makes nothing.
func TestOff(t *testing.T) {
	if watch != nil {
		t.Skip("QUARTERSTEP_FRAMES is set")
	}
	if n := testing.AllocsPerRun(100, func() { Lap("show")() }); n != 0 {
		t.Errorf("a lap makes %g things while it is off", n)
	}
	never := func(func()) { t.Error("the window is asked while the stopwatch is off") }
	Watch(never, never)
}
