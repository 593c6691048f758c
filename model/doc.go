// Package model is the document: a Pattern with its pieces, printed nests,
// size chart, links, target and hand corrections.
//
// Promise: values are never changed in place. An edit takes a Pattern and
// returns another; the two share whatever did not change. Nothing computed is
// kept here: the graded line follows from what is.
//
// Units: millimetres, x right and y down as the paper lies; body measures are
// in millimetres too. Across and along are directions of the piece: along is
// its grain, across is a quarter turn from it.
//
// Not here: grading (package grading), files (model/store, model/exchange).
package model
