// Package draft draws patterns from body measures: two garments of an invented
// theatre wardrobe, and one draft published in 1911 that grading is checked
// against.
//
// Promise: a garment can be drafted at any place of its chart, so what a grown
// nest should look like is known and not only guessed. The lines are cutting
// lines; every control point is linear in the body measures of its edge's two
// ends, neck and shoulder by steps, underarm by bust, waist by waist, hem by
// hip, down the paper by back waist length where the chart has it, else by
// steps. On top of that a few places per piece (front shoulder end, dart
// width, crown of the sleeve, one corner of its hem) are moved until the
// seams meet on the stitching line; that part is not linear, and small.
//
// Units: millimetres. Not here: drafting for a wearer, rules of any known
// cutting system; proportions are our own, common practice at most.
package draft
