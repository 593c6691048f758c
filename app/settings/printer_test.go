package settings

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

func TestPrintersAreRemembered(t *testing.T) {
	dir := t.TempDir()
	attic := Printer{Name: "Attic", Across: 1.004, Down: 0.998, Date: "2026-03-01", Margin: 4.5}
	before := Settings{}.WithPrinter(Printer{Name: "attic", Across: 1, Down: 1}).WithPrinter(Printer{Name: "Hall", Across: 1, Down: 1.01})
	s := before.WithPrinter(attic)
	if p, ok := before.PrinterNamed("Attic"); !ok || p.Across != 1 {
		t.Errorf("the settings before have changed: %+v", p)
	}
	if err := s.Save(dir); err != nil {
		t.Fatal(err)
	}
	got := Load(dir)
	if p, ok := got.PrinterNamed("ATTIC"); !ok || p != attic || len(got.Printers) != 2 {
		t.Errorf("read back %+v", got.Printers)
	}
	if got = got.WithoutPrinter("hall"); len(got.Printers) != 1 {
		t.Errorf("forgotten: %+v", got.Printers)
	}
	if _, ok := got.PrinterNamed("Hall"); ok {
		t.Error("a forgotten printer is known")
	}
}

// A correction that nobody can have measured prints nothing.
func TestSpoiltPrintersAreLeftOut(t *testing.T) {
	dir := t.TempDir()
	text := `{"printers": [{"name": "Hall", "across": 0, "down": 1}, {"name": "", "across": 1, "down": 1},
		{"name": "Attic", "across": 1.5, "down": 1}, {"name": "Cellar", "across": 1, "down": 1, "margin": -3},
		{"name": "Loft", "across": 1.01, "down": 0.99}]}`
	if err := os.WriteFile(filepath.Join(dir, fileName), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if got := Load(dir).Printers; !reflect.DeepEqual(got, []Printer{{Name: "Loft", Across: 1.01, Down: 0.99}}) {
		t.Errorf("%+v", got)
	}
}
