// Package draft draws patterns from body measures: two garments of an invented
// theatre wardrobe, and one draft published in 1911 that grading is checked
// against.
//
// Promise: a garment can be drafted at any place of its chart, so what a nest
// should become is known and not only guessed. The lines are cutting lines;
// every control point is linear in the body measures of its edge's two ends:
// neck and shoulder go by steps, underarm by bust, waist by waist, side hip and
// hem by hip, and down the paper all go by back waist length where the chart
// has it, else by steps. On top of that a few places (the front's shoulder tip,
// its bust dart, its side hem, the sleeve's crown and one corner of its hem)
// are moved until seams meet on the stitching line. That part, and the peak of
// the bust dart, is not linear: a sleeve crown carried straight on
// from sizes 34 to 40 is 0.9 mm off at 48 and 2 mm at 52, all else below 1 mm.
//
// Units: millimetres. Not here: drafting for a wearer, rules of any known
// cutting system; proportions are our own, common practice at most.
package draft
