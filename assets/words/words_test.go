package words

import (
	"errors"
	"io/fs"
	"strings"
	"testing"

	"github.com/leonelquinteros/gotext"
)

// in makes the program speak what a catalogue holds until the test ends.
func in(t *testing.T, catalogue string) {
	t.Helper()
	po := gotext.NewPo()
	po.Parse([]byte("msgid \"\"\nmsgstr \"\"\n\"Plural-Forms: nplurals=2; plural=(n != 1);\\n\"\n\n" + catalogue))
	now.Store(spokenFrom("de", po))
	t.Cleanup(func() { now.Store(nil) })
}

func TestWaysOfSaying(t *testing.T) {
	in(t, `msgid "Save"
msgstr "Sichern"

msgctxt "of a print"
msgid "Copies"
msgstr "Exemplare"

msgid "%s is %d wide"
msgstr "%[2]d breit ist %[1]s"

msgid "%d page"
msgid_plural "%d pages"
msgstr[0] "%d Seite"
msgstr[1] "%d Seiten"

msgid "One line"
msgid_plural "%d lines"
msgstr[0] "Eine Linie"
msgstr[1] "%d Linien"

msgid "reading %s: %w"
msgstr "beim Lesen von %s: %w"

msgid "too wide"
msgstr "zu breit"
`)
	wrapped := Errorf("reading %s: %w", "a.svg", fs.ErrNotExist)
	for got, want := range map[string]string{
		T("Save"):                          "Sichern",
		T("Copies"):                        "Copies", // in no context there is none
		C("of a print", "Copies"):          "Exemplare",
		F("%s is %d wide", "Cuff", 3):      "3 breit ist Cuff",
		N(1, "%d page", "%d pages", 1):     "1 Seite",
		N(0, "%d page", "%d pages", 0):     "0 Seiten",
		N(1, "One line", "%d lines", 1):    "Eine Linie",
		N(1, "One hem", "%d hems", 1):      "One hem",
		T("Not in it"):                     "Not in it",
		Text("too wide").String():          "zu breit",
		Text("").String():                  "", // not the catalogue's head
		Fault("too wide").Error():          "zu breit",
		Figure(2.5, 1):                     "2,5",
		Small("Side seam"):                 "Side seam",
		strings.Fields(wrapped.Error())[0]: "beim",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if !errors.Is(wrapped, fs.ErrNotExist) {
		t.Error("what an error wraps is lost in translation")
	}
}

func TestLanguageOfTheSystem(t *testing.T) {
	t.Cleanup(func() { now.Store(nil) })
	for code, want := range map[string]string{"de_AT.UTF-8": "de", "DE": "de", "en-GB": "en", "": "en"} {
		if err := Use(code); err != nil || Now() != want {
			t.Errorf("Use(%q): %v, speaks %s", code, err, Now())
		}
	}
	_ = Use("de")
	if err := Use("tlh"); err == nil || Now() != "de" {
		t.Errorf("a language that is not spoken: %v, speaks %s", err, Now())
	}
}
