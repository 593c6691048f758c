// Package printing holds what a print job is made of; printing/tile lays it
// over sheets, printing/pdf writes them.
//
// Units: millimetres, x right and y down. PDF points exist only in
// printing/pdf. Not here: grading, the choice of what to print (package app).
package printing
