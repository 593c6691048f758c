package app

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"quarterstep/app/settings"
	"quarterstep/assets"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/printing/scale"
	"quarterstep/printing/testpage"
	"quarterstep/printing/tile"
)

// PrinterScale is the correction remembered of a printer, for upright paper;
// none where its scale was not checked.
func PrinterScale(s settings.Settings, name string) tile.Printer {
	p, ok := s.PrinterNamed(name)
	if !ok {
		return tile.Printer{}
	}
	return tile.Printer{Across: p.Across, Down: p.Down}
}

// SetupFor is the setup for pages printed on the printer of that name: they are
// corrected by what its scale check found. Pages on their side go through the
// printer upright, so that there across is down.
func SetupFor(s settings.Settings, name string, setup tile.Setup) tile.Setup {
	setup.Printer = PrinterScale(s, name)
	if setup.Landscape && !setup.Paper.Free {
		setup.Printer = scale.Turned(setup.Printer)
	}
	if setup.Paper.Projected() {
		setup.Printer = tile.Printer{}
	}
	return setup
}

// ScaleCheck is a test page and the printer it is for.
type ScaleCheck struct {
	Paper   tile.Paper
	Unit    model.Unit
	Printer string       // its name; may be empty
	Date    string       // shown as given
	With    tile.Printer // the correction it is printed with, for upright paper
	Margin  float64      // the most that the printer is known to leave white, mm; may be 0
}

func (c ScaleCheck) page() testpage.Page {
	return testpage.Page{
		Paper: c.Paper, Unit: measure.Unit(c.Unit), Printer: c.Printer, Date: c.Date, With: c.With,
		Regular: assets.LatoRegular, Bold: assets.LatoBold,
	}
}

// Sheet is the paper the test page is written on: of a roll, a piece.
func (c ScaleCheck) Sheet() tile.Paper { return c.page().Sheet() }

// WritePDF writes the test page.
func (c ScaleCheck) WritePDF(w io.Writer) error { return testpage.Write(w, c.page()) }

// Lengths are what should be measured on the page across and down, in words.
func (c ScaleCheck) Lengths() (across, down string, err error) {
	x, y, err := c.page().Lengths()
	if err != nil {
		return "", "", err
	}
	return measure.FormatPlace(x, c.Unit), measure.FormatPlace(y, c.Unit), nil
}

// Judge says what the lengths typed mean for the printer. A figure without a
// unit is taken in the one that it fits best. Errors are sentences that name
// the length that cannot be read.
func (c ScaleCheck) Judge(across, down string) (scale.Verdict, error) {
	x, y, err := c.page().Lengths()
	if err != nil {
		return scale.Verdict{}, err
	}
	var m scale.Measured
	for _, l := range []struct {
		name, text string
		meant      float64
		to         *float64
	}{{words.C("on the test page", "across"), across, x, &m.Across}, {words.C("on the test page", "down"), down, y, &m.Down}} {
		if *l.to, err = nearestReading(l.text, l.meant); err != nil {
			return scale.Verdict{}, fmt.Errorf("%s: %w", l.name, err)
		}
	}
	p := scale.Printed{Paper: c.Sheet(), Across: x, Down: y, With: c.With, Unit: measure.Unit(c.Unit), Margin: c.Margin}
	return scale.Judge(p, m)
}

// nearestReading is a typed length in mm; without a unit, in whichever comes
// nearest to what is meant.
func nearestReading(text string, meant float64) (float64, error) {
	var best float64
	for _, u := range []measure.Unit{measure.Millimetres, measure.Centimetres, measure.Inches} {
		l, err := measure.Parse(text, u)
		if err != nil {
			return 0, err
		}
		far := func(mm float64) float64 { return math.Abs(math.Log(mm / meant)) }
		if mm := l.MM(); best == 0 || mm > 0 && far(mm) < far(best) {
			best = mm
		}
	}
	return best, nil
}

// RememberScale is the settings with the verdict's correction kept for a
// printer. It refuses a verdict that corrects nothing, and one that looks like a
// wrong print setting unless the sewist insists.
func RememberScale(s settings.Settings, printer string, v scale.Verdict, insist bool, now time.Time) (settings.Settings, error) {
	printer = strings.TrimSpace(printer)
	switch {
	case printer == "":
		return s, words.Error("say which printer this is, so that it is known again")
	case v.Kind == scale.Again:
		return s, words.Error("these figures correct nothing: measure again")
	case v.Kind == scale.Setting && !v.CanInsist:
		return s, words.Error("this is too far out to be made up for: change the print setting, and print the test page again")
	case v.Kind == scale.Setting && !insist:
		return s, words.Error("this looks like a print setting: change it, and print the test page again")
	}
	known, _ := s.PrinterNamed(printer)
	across, down := v.Printer.Scale()
	return s.WithPrinter(settings.Printer{
		Name: printer, Across: across, Down: down, Date: now.Format(time.DateOnly), Margin: known.Margin,
	}), nil
}

// RememberMargin is the settings with what a printer leaves white at an edge, as
// read from the test page, mm. It fails on a margin no printer has.
func RememberMargin(s settings.Settings, printer string, mm float64) (settings.Settings, error) {
	const most = 30.0
	if printer = strings.TrimSpace(printer); printer == "" {
		return s, words.Error("say which printer this is, so that it is known again")
	}
	if !(mm >= 0) || mm > most {
		return s, words.Errorf("a printer's own margin is between 0 and %.0f mm", most)
	}
	p, ok := s.PrinterNamed(printer)
	if !ok {
		p = settings.Printer{Name: printer, Across: 1, Down: 1}
	}
	p.Margin = mm
	return s.WithPrinter(p), nil
}
