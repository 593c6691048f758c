// Package crew has several processors share a work, and lets no slip in it end
// the program.
//
// Promise: a panic in any part of a Group's work comes out of its Wait, where
// whoever asked for the work can answer it; one inside Try becomes an error that
// says in plain words what happened and keeps where for whoever mends it. Without
// this a panic on a goroutine of its own ends the program, and what was not saved
// with it.
//
// Not here: how work is cut into parts, and stopping it before its end.
package crew
