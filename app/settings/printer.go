package settings

import (
	"slices"
	"strings"
)

// Printer is what the scale check found of one printer.
type Printer struct {
	Name string `json:"name"`
	// Across and Down are what lengths on the page are multiplied by before
	// they are printed, on upright paper; 1 is a true printer.
	Across float64 `json:"across"`
	Down   float64 `json:"down"`
	Date   string  `json:"date,omitempty"`   // of the check, 2026-03-01
	Margin float64 `json:"margin,omitempty"` // what it leaves white at an edge, mm; 0 while not told
}

// sane are the corrections that can be meant: what is beyond was spoilt.
func (p Printer) sane() bool {
	const least, most = 0.9, 1.1
	ok := func(k float64) bool { return k >= least && k <= most }
	return p.Name != "" && len(p.Name)+len(p.Date) <= maxWords && ok(p.Across) && ok(p.Down) && p.Margin >= 0 && p.Margin < 100
}

// PrinterNamed is what is remembered of a printer; false where nothing is.
func (s Settings) PrinterNamed(name string) (Printer, bool) {
	for _, p := range s.Printers {
		if strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	return Printer{}, false
}

// WithPrinter is s with p remembered in place of what was known of it.
func (s Settings) WithPrinter(p Printer) Settings {
	s = s.WithoutPrinter(p.Name)
	s.Printers = append(s.Printers, p)
	return s
}

// WithoutPrinter is s with a printer forgotten.
func (s Settings) WithoutPrinter(name string) Settings {
	s.Printers = slices.DeleteFunc(slices.Clone(s.Printers), func(p Printer) bool { return strings.EqualFold(p.Name, name) })
	return s
}
