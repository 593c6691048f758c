// Package dart folds a piece's darts shut and draws them true: legs equal, the
// seam across the closed dart smooth, and the cap shaped so that the folded
// dart is caught in the seam.
//
// It works on the edges of a piece at one size and promises:
//
//   - Close turns one side of the piece about the dart's apex, and nothing else:
//     no length and no curve of it changes.
//   - Keep moves one leg end along its own seam until the dart is as wide as
//     wanted within 1e-6 mm; all other grade points stay.
//   - True moves the two leg ends along their own legs to one distance from the
//     apex, within 1e-9 mm, turns the curves beside them into one direction
//     across the join, within 0.05 degrees, and draws the cap as the mirror
//     image of the seam that it is folded onto. The seam's other ends stay.
//   - What is right already stays the very same path.
//
// Which way a dart is folded, and that legs are made equal and the end of a
// dart is drawn with the dart folded, is common practice: a dart in a side seam
// is folded towards the hem, all others towards the centre of the body.
//
// Units: millimetres; angles in degrees. The package knows darts with one apex
// that end in the outline; a fish-eye dart inside a piece is a line to it.
package dart
