// Package session holds the open document: its history of labelled edits, the
// gesture under way, where it is saved, and the graded result that goes with
// it.
//
// Promise: an edit that fails, or whose pattern breaks a rule of
// Pattern.Validate or cannot be graded, changes nothing. A gesture (Preview ...
// Commit) makes one step of history however many previews it had; Cancel leaves
// no trace. Listeners hear once per change, after it. Work that was brought back
// (Recover) wants saving.
//
// A Session belongs to one goroutine, the interface's. Edits that take long to work
// out may be done beside it (Session.Beside), in their order; until they are done
// the document is the one before. Not here: widgets, what
// the edits are.
package session
