package ui

import (
	"encoding/json"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"quarterstep/app/settings"
	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
)

// speaksEnglish after the test, whatever it spoke meanwhile.
func speaksEnglish(t *testing.T) {
	t.Helper()
	t.Cleanup(func() { Speak("en") })
}

func TestLanguageAtTheStart(t *testing.T) {
	speaksEnglish(t)
	for _, c := range []struct{ system, chosen, want string }{
		{"de_DE.UTF-8", "", "de"},
		{"de_AT@euro", "", "de"},
		{"C.UTF-8", "", "en"},
		{"C", "", "en"},
		{"", "", "en"},
		{"fr_FR.UTF-8", "", "en"},
		{"de_DE.UTF-8", "en", "en"},
		{"en_US.UTF-8", "de", "de"},
		{"de_DE.UTF-8", "spoilt", "de"},
	} {
		t.Setenv("LANGUAGE", "")
		t.Setenv("LC_MESSAGES", "")
		t.Setenv("LC_ALL", "")
		t.Setenv("LANG", c.system)
		if Speak(c.chosen); words.Now() != c.want {
			t.Errorf("system %q, chosen %q: speaks %s, want %s", c.system, c.chosen, words.Now(), c.want)
		}
		t.Setenv("LC_ALL", c.system)
		t.Setenv("LANG", "C")
		if Speak(c.chosen); words.Now() != c.want {
			t.Errorf("LC_ALL %q, chosen %q: speaks %s, want %s", c.system, c.chosen, words.Now(), c.want)
		}
	}
}

// The toolkit's own words go with ours, on a system of whichever language.
func TestToolkitSpeaksAlong(t *testing.T) {
	speaksEnglish(t)
	for _, system := range []string{"de_DE.UTF-8", "en_US.UTF-8", "C", "fr_CA.UTF-8", "pt_BR.UTF-8", "zh_CN.UTF-8", "nl_NL.UTF-8"} {
		t.Setenv("LC_ALL", system)
		for code, want := range map[string][2]string{"de": {"Abbrechen", "Öffnen"}, "en": {"Cancel", "Open"}} {
			Speak(code)
			if got := [2]string{lang.L("Cancel"), lang.L("Open")}; got != want {
				t.Errorf("%s on a %s system: %q, want %q", code, system, got, want)
			}
		}
	}
}

// A change of language keeps the document, its history and what is in hand.
func TestLanguageChangesAtOnce(t *testing.T) {
	speaksEnglish(t)
	w := open(t)
	at, _ := corner(t, w, "side hem")
	w.table.OnDragPoint(at, geom.Vec{}, board.DragStart)
	w.table.OnDragPoint(at, geom.Vec{X: 9}, board.DragEnd)
	for step := range stepCount {
		w.goTo(step)
		hand, table := w.hand, w.table
		english := w.rail
		w.setLanguage("de")
		if w.step != step || w.hand != hand || len(w.doc.History()) != 1 || w.table == table || w.rail == english {
			t.Errorf("step %d: the change of language left step %d, hand %v, history %v", step, w.step, w.hand, w.doc.History())
		}
		w.setLanguage("en")
	}
	w.setLanguage("de")
	if got := settings.Load(w.settingsDir).Language; got != "de" {
		t.Errorf("the next start will speak %q", got)
	}
	w.doc.Undo()
	if strings.Contains(w.win.Title(), "*") {
		t.Error("undo does not reach the new window")
	}
}

// The menu names the language in both, whichever is in use.
func TestLanguageIsFoundInAnyLanguage(t *testing.T) {
	speaksEnglish(t)
	w := open(t)
	for _, code := range []string{"en", "de"} {
		w.setLanguage(code)
		var item *fyne.MenuItem
		for _, i := range w.menu().Items {
			if strings.Contains(i.Label, "Language") && strings.Contains(i.Label, "Sprache") {
				item = i
			}
		}
		if item == nil || len(item.ChildMenu.Items) != 1+len(words.Languages()) {
			t.Fatalf("%s: the menu has no languages", code)
		}
		for k, i := range item.ChildMenu.Items[1:] {
			if i.Checked != (words.Languages()[k].Code == code) {
				t.Errorf("%s: %s is checked: %v", code, i.Label, i.Checked)
			}
		}
	}
}

func TestToolkitTextsAreWhole(t *testing.T) {
	texts, err := json.Marshal(toolkitTexts())
	if err != nil || len(toolkitTexts()) < 20 {
		t.Errorf("%s: %v", texts, err)
	}
}
