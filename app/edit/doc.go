// Package edit is the changes a sewist can make to a pattern, each a function
// that takes a pattern and gives another (see session.Edit). Nothing is changed
// in place.
//
// Units: millimetres, movements in the piece's own coordinates. An edit that
// names a piece, point or edge that is not there returns an error that says so.
package edit
