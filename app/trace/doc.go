// Package trace is what a hand needs to trace a piece off a flat picture: where
// a click means to go, the printed line between two corners, and the line of
// the next size as those traced already let expect it. A list of clicks in a
// file is traced by the same rules as clicks in the window.
//
// Promise: nothing here changes a document. What is doubtful of a line comes
// with it, and a line that is not printed comes straight, with a doubt that
// says so. A clicks file is read within bounds, and what is wrong with it is
// told by its piece, size and corner.
//
// Units: mm from the picture's upper left corner.
//
// Not here: the picture itself (app/paper), the steps that can be undone
// (app/edit), and what is drawn of it all (ui).
package trace
