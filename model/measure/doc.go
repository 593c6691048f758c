// Package measure holds lengths as a sewist writes them: inches in fractions,
// millimetres, centimetres.
//
// Promise: a Length is an exact fraction of a millimetre, with 1 in = 25.4 mm
// (the international inch of 1959), so that arithmetic never rounds: six times
// 3/16 in is 1 1/8 in. Rounding happens in Format only, to a grain the caller
// chooses. Format writes as the language in use does, Exact always with a point.
//
// Reading is generous (1 1/8, 1-1/8", 1⅛, 1.125 in, 28.6 mm, 2,5 cm, 1 1/8 Zoll) and what
// cannot be read gives one plain sentence. Not here: feet, yards, areas,
// angles.
package measure
