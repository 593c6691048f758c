package page

import (
	"bytes"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"quarterstep/assets"
)

// UTF-16 with its mark (ISO 32000-1, 7.9.2.2); the pair for U+1F9F5 is worked
// out by RFC 2781, 2.1: 0xD83E, 0xDDF5.
func TestTextString(t *testing.T) {
	for text, want := range map[string]string{
		"":       "\xFE\xFF",
		"Aä":     "\xFE\xFF\x00A\x00\xE4",
		"🧵":      "\xFE\xFF\xD8\x3E\xDD\xF5",
		"\xFF":   "\xFE\xFF\xFF\xFD",
		"a\x00b": "\xFE\xFF\x00a\x00\x00\x00b",
	} {
		if got := textString(text); got != want {
			t.Errorf("%q becomes %x, want %x", text, got, want)
		}
	}
	for text, want := range map[string]string{"Größe 38": "Größe 38", "🧵 1": "\uFFFD 1", "a\xFF": "a\uFFFD"} {
		if got := plainName(text); got != want {
			t.Errorf("the layer %q becomes %q", text, got)
		}
	}
}

// Whatever letters a title and a layer have, the file is sound by an outside
// reading of it, pdfcpu's, and the title reads back.
func TestTitlesOfAnyLetters(t *testing.T) {
	api.DisableConfigDir()
	for _, title := range []string{"Vest 🧵", "앞판", "(a\\b)", "\xFF", ""} {
		d, err := New(Options{Title: title, Wide: 210, High: 297, Regular: assets.LatoRegular, Bold: assets.LatoBold})
		if err != nil {
			t.Fatal(err)
		}
		d.AddLayer(title)
		d.AddPage().Flush()
		var out bytes.Buffer
		if err := d.Output(&out); err != nil {
			t.Fatal(err)
		}
		conf := model.NewDefaultConfiguration()
		conf.ValidationMode = model.ValidationStrict
		ctx, err := api.ReadAndValidate(bytes.NewReader(out.Bytes()), conf)
		if err != nil {
			t.Errorf("%q: %v", title, err)
			continue
		}
		if want := string([]rune(title)); ctx.Title != want {
			t.Errorf("the title %q reads back as %q", want, ctx.Title)
		}
	}
}
