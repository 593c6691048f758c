// Package check looks a graded pattern over for what a sewist should see before
// she cuts: what, by how much, where, and what would help.
//
// Promise: nothing is changed. A finding is either something to look at or
// said for information. Thresholds are named constants with their source.
//
// Units: millimetres, in the piece's own coordinates.
package check
