// Package targetsheet writes the sheets of targets that a sewist prints, cuts
// apart and lays round a piece before she photographs it.
//
// Promise: every target lies within 0.01 mm of where model/trace/target has it,
// and keeps 8 mm from the paper's edges, which home printers leave white (common
// practice); the file asks not to be scaled, and has a square of 5 cm and one of
// 2 in to measure whether it was.
//
// Units: millimetres on the page, x right and y down. Not here: what a target
// looks like and which is which (model/trace/target).
package targetsheet
