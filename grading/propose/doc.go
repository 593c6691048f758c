// Package propose finds the links of a pattern by itself, for the sewist to
// accept: which edge follows which, and what is sewn to what.
//
// How: names say what an edge is (words.go), print says whether it fits. A
// facing's line must lie on its leader's, every printed size of it, as a stiff
// sheet of paper; the two sides of a seam must be as long on the stitching line
// as such seams are, and keep that from size to size. Edges without a name are
// told by their lengths alone, where several sizes agree and nothing else
// comes in question; those are never sure.
//
// Promise: what is proposed joins edges that are there. An edge follows one line
// and is sewn to one partner; no fold or centre line is sewn, and no hem but a
// sleeve's to its cuff. The pattern with all proposals taken in is as sound as
// it was, and nothing more is proposed for it.
//
// Units: millimetres. Not here: whether a seam fits at the size wanted (package
// seam and grading/check).
package propose
