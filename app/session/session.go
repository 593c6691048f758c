// Package session holds the current document: its history of labelled edits,
// the gesture under way, where it is saved, and the graded result that goes
// with it. No widgets.
package session

import (
	"quarterstep/grading"
	"quarterstep/model"
)

// Session is the open document. The zero Session is not usable; see New.
// All methods belong to one goroutine, the interface's.
type Session struct {
	grader grading.Grader
	past   []state
	now    state
	future []state
	shown  *state // gesture under way, not yet in the history
	saved  int    // serial of the state on disk, -1 for never
	serial int
	path   string
	listen []func()
}

type state struct {
	pattern model.Pattern
	result  grading.Result
	label   string
	serial  int
}

// Edit is a change of the document.
type Edit func(model.Pattern) (model.Pattern, error)
