// Package view is how the Table is looked at: a place of the paper in
// millimetres against a place of the window in pixels, and what lies under the
// pointer.
//
// Units: paper in mm, x right and y down; window in the toolkit's pixels from
// the board's upper left corner, the same way round. One scale serves both
// directions. It draws nothing, knows no pieces and no window toolkit.
package view
