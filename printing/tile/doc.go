// Package tile lays pieces over sheets of paper and says what belongs on each
// sheet: its window on the layout, its name, where it is trimmed and glued,
// and the joining buttons that are whole only where sheets meet.
//
// Two planes, both in millimetres, x right and y down. The layout is the
// floor on which all pieces lie; a sheet's window is the part of it that the
// sheet shows. A page is one sheet of paper with (0, 0) at its upper left
// corner; Plan.OnPage takes the layout to it.
//
// Paper off a roll, or a page for a projector, is one sheet as long as the pieces
// need; Layout settles its size in Plan.Setup.
//
// Promises: pieces are only turned and shifted, never stretched, and their
// grain runs down the sheets; pieces that Arrange places keep
// Clear mm apart; all that is drawn inside the layout is on at least one sheet
// that is printed; the same input gives the same plan.
//
// Not here: drawing (printing/pdf), and which lines a piece has (app).
package tile
