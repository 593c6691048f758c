package quarterstep_test

import (
	"os"
	"testing"

	"quarterstep/assets/words"
	"quarterstep/assets/words/gather"
)

// TestWordsAreTranslated holds what a sewist can see to being said through the
// catalogue, and every language to having all of it, with the figures of the
// English.
func TestWordsAreTranslated(t *testing.T) {
	messages, bare, err := gather.In(".")
	if err != nil {
		t.Fatal(err)
	}
	if len(messages) < 1000 {
		t.Errorf("only %d texts were gathered", len(messages))
	}
	for _, b := range bare {
		t.Errorf("%s:%d: %q is not said through the catalogue (see assets/words)", b.File, b.Line, b.Text)
	}
	for _, l := range words.Languages()[1:] {
		text, err := os.ReadFile("assets/words/po/" + l.Code + ".po")
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range gather.Faults(messages, gather.Read(text)) {
			t.Errorf("%s: %s", l.Code, fault)
		}
	}
}
