package model

import (
	"strings"

	"quarterstep/assets/words"
)

// Problem is one rule a pattern breaks, and where. Piece, Size and Place are
// as the sewist knows them and empty where they do not apply.
type Problem struct {
	Rule  int // as numbered at Pattern.Validate
	Piece string
	Size  string
	Place string // an edge, a notch, a link, the size chart ...
	Say   string // what is wrong
}

// Error is "Front bodice, size 40, side seam: the line is broken ...".
func (p Problem) Error() string {
	var where []string
	if p.Piece != "" {
		where = append(where, p.Piece)
	}
	if p.Size != "" {
		where = append(where, words.F("size %s", p.Size))
	}
	if p.Place != "" {
		where = append(where, p.Place)
	}
	if len(where) == 0 {
		return p.Say
	}
	return strings.Join(where, ", ") + ": " + p.Say
}

// Problems is all that is wrong with a pattern, in the order found.
type Problems []Problem

// Error is one line for each problem.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}
