package panel

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// The links above the help go to its sections, each further down than the one before.
func TestHelpGoesToItsSections(t *testing.T) {
	test.NewTempApp(t)
	var v HelpView
	for i := range 30 {
		term := TermView{Term: fmt.Sprint(i), Means: "something said of it"}
		v.Steps, v.Words, v.Keys = append(v.Steps, term), append(v.Words, term), append(v.Keys, term)
	}
	v.Cautions = []string{"mind this"}
	content, scroll := NewHelp(v)
	test.NewTempWindow(t, content).Resize(fyne.NewSize(820, 500))
	links := linksIn(content)
	if len(links) != 4 {
		t.Fatalf("there are %d links", len(links))
	}
	at := float32(-1)
	for _, l := range links {
		l.press()
		if scroll.Offset.Y <= at {
			t.Errorf("%s is at %g, the one before it at %g", l.word, scroll.Offset.Y, at)
		}
		at = scroll.Offset.Y
	}
}
