// Package glossary reads the sewing words in the names of pieces, edges, points
// and lines, so that the program understands "Vorderteil" as it does "Front".
//
// Promise: English says in lower-case English words what a name says, whatever
// language the program speaks: German words are read with their compounds
// ("Ärmelmanschette" is "sleeve cuff"), their endings, and with umlauts written
// as such or as ae, oe, ue. A word it does not know stays as it is, so a name
// without German words is only put in lower case, and a name in two languages is
// read in both. The result is for comparing, never for showing or keeping: it
// says what is meant, not how one would write it.
//
// The words are those of German sewing magazines and of the trade, from memory.
//
// Not here: what a word means for a garment (grading/propose and others decide
// that by the English words); the names of size charts' measures.
package glossary
