package board

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
)

// TestManyMovesAFrame: of the moves between two frames only the last is worked
// out, and letting go does not wait for the frame.
func TestManyMovesAFrame(t *testing.T) {
	b := newTable(t)
	b.click(b.midEdge("side seam"))
	b.said()
	start, s := b.pointAt("underarm"), b.view.Scale
	b.press(start)
	b.motion.asked = true // a frame is on its way
	for i := range 50 {
		b.drag(move(start, float32(i), 3))
	}
	b.expect("select front//underarm/0")
	b.catchUp() // the frame
	b.expect("point underarm 0.00,0.00 phase 0", fmt.Sprintf("point underarm %.2f,%.2f phase 1", 49/s, 3/s))
	b.catchUp()
	b.expect()

	b.drag(move(start, 60, 3))
	b.release(move(start, 60, 3))
	b.expect(
		fmt.Sprintf("point underarm %.2f,%.2f phase 1", 60/s, 3/s),
		fmt.Sprintf("point underarm %.2f,%.2f phase 2", 60/s, 3/s),
	)
}

// TestMovesLetGo: what Escape cancels does not go on with the next frame.
func TestMovesLetGo(t *testing.T) {
	b := newTable(t)
	b.click(b.midEdge("side seam"))
	b.press(b.pointAt("underarm"))
	b.drag(move(b.pointAt("underarm"), 20, 0))
	b.said()
	b.motion.asked = true
	b.drag(move(b.pointAt("underarm"), 40, 0))
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	b.said()
	b.catchUp()
	b.expect()
}
