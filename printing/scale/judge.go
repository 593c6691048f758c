package scale

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/measure"
	"quarterstep/printing/tile"
)

// Printed is the test page as it was meant.
type Printed struct {
	Paper        tile.Paper
	Across, Down float64      // the lengths to measure, mm on true paper
	With         tile.Printer // the correction it was printed with
	Unit         measure.Unit // lengths are shown in inches, or else in mm
	// Margin is the most that the printer is known to leave white, mm; 0 where
	// it is not known.
	Margin float64
}

// Measured is what the sewist read from the page, mm.
type Measured struct {
	Across, Down float64
}

// Kind is what a verdict comes to.
type Kind int

// Kinds of verdict. The zero Kind asks for the figures again.
const (
	Again   Kind = iota // misread, or typed in another unit or for the wrong side
	Fine                // true as it is
	Correct             // out by little: corrected from now on
	Setting             // looks like a print setting: to be changed, then printed again
)

// Verdict is what the measured lengths say of the printer.
type Verdict struct {
	Kind Kind
	// Printer is the correction to print with from now on. It is the one
	// printed with where Kind is Fine or Again; where Kind is Setting it counts
	// only once the sewist has printed again and insists.
	Printer tile.Printer
	// CanInsist says, where Kind is Setting, that Printer is within what a page
	// can be corrected by.
	CanInsist bool
	// Across and Down are what came out for 1 mm of the file.
	Across, Down float64
	// Says is one or more sentences for the sewist: what it is, then what to
	// do.
	Says []string
}

// How far figures are trusted. Common practice and, where said, our own
// measurements.
const (
	// A ruler's half millimetre, read at one end: less is no error.
	readable = 0.3
	// What two readings of a ruler may be out by together, when a figure is
	// held against a print setting.
	misread = 0.7
	// A printer's own error. Rollers and drums are within 1 %; twice that is
	// taken without asking.
	mostOwn = 0.02
	// Across and down of one printer differ by less.
	mostApart = 0.015
	// No print setting goes further: four pages on a sheet, A4 on A3.
	leastSetting = 0.4
	mostSetting  = 1.6
	// What a page may be corrected by: tile.Setup takes no more.
	mostCorrection = 0.06
)

// Judge says what the lengths measured on a test page mean. It fails on lengths
// that are none, and on a page that was not meant to be measured.
func Judge(p Printed, m Measured) (Verdict, error) {
	for _, v := range []float64{p.Across, p.Down, m.Across, m.Down} {
		if !(v > 0) || math.IsInf(v, 0) {
			return Verdict{}, words.Error("type both lengths as you measured them, across and down, such as 179.5 mm")
		}
	}
	kx, ky := p.With.Scale()
	if !(kx > 0) || !(ky > 0) || math.IsInf(kx, 0) || math.IsInf(ky, 0) {
		return Verdict{}, words.Error("the correction this page was printed with is no ordinary number: print the test page again")
	}
	v := Verdict{Printer: p.With, Across: m.Across / (p.Across * kx), Down: m.Down / (p.Down * ky)}
	if math.Abs(m.Across-p.Across) <= readable && math.Abs(m.Down-p.Down) <= readable {
		v.Kind, v.Says = Fine, []string{p.fine()}
		return v, nil
	}
	if says := mistyped(p, m); says != "" {
		v.Says = []string{says}
		return v, nil
	}
	if causes := causesOf(p, v.Across, v.Down); len(causes) > 0 {
		v.Kind = Setting
		v.Says = settingSays(p, v, causes)
		return v.insist(p), nil
	}
	if min(v.Across, v.Down) < leastSetting || max(v.Across, v.Down) > mostSetting {
		v.Says = []string{words.F("These lengths are far from %s across and %s down. Measure the large frame of the test page, from line to line, and type its sides.",
			p.length(p.Across), p.length(p.Down))}
		return v, nil
	}
	if math.Abs(v.Across-v.Down) > mostApart {
		v.Says = []string{words.F("Across comes to %s and down to %s: no printer is out by so much more one way than the other. Measure both again, from line to line, with the same ruler.",
			percent(v.Across), percent(v.Down))}
		return v, nil
	}
	v.Printer = tile.Printer{Across: 1 / v.Across, Down: 1 / v.Down}
	if math.Abs(v.Across-1) > mostOwn || math.Abs(v.Down-1) > mostOwn {
		v.Kind = Setting
		v.Says = settingSays(p, v, nil)
		return v.insist(p), nil
	}
	v.Kind, v.Says = Correct, p.corrected(v)
	return v, nil
}

// insist fills in what the printer would be corrected by all the same.
func (v Verdict) insist(p Printed) Verdict {
	k := tile.Printer{Across: 1 / v.Across, Down: 1 / v.Down}
	if math.Abs(k.Across-1) <= mostCorrection && math.Abs(k.Down-1) <= mostCorrection {
		v.Printer, v.CanInsist = k, true
		v.Says = append(v.Says, words.T("If it comes out the same again, this can be made up for all the same."))
		return v
	}
	v.Printer = p.With
	return v
}

// Turned is the correction for pages that lie on their side: they go through
// the printer upright, so what is across on the page is down on the paper.
func Turned(p tile.Printer) tile.Printer {
	return tile.Printer{Across: p.Down, Down: p.Across}
}
