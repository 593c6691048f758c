// Package ui is the window: it wires the open document (app/session) to the
// Table (ui/board) and to what is around it (ui/panel).
//
// Widgets hold no document. After every change of the session the window builds
// view structs anew and hands them out; what the sewist does comes back through
// callbacks and becomes an edit of the session, a drag as preview and commit.
//
// Everything here runs on the window's own goroutine.
package ui
