// Package summary writes a pattern's summary as a PDF: its pieces drawn small,
// and headed parts of tables and words, on as many pages as they take.
//
// Promises: nothing is left out or written over anything else; the head of a
// part never stands alone at the foot of a page; the same summary gives the
// same bytes; a letter the font lacks is shown as an empty box or question
// mark.
//
// Units: millimetres. The drawings are small and for telling pieces apart; they
// are not to be measured.
//
// Not here: what there is to say (package app), how words become PDF
// (printing/page).
package summary
