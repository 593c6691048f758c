// Package sizechart reads size charts and has the built-in ones.
//
// A chart is a CSV file a person can read and write in any table program:
//
//	# name: Street theatre wardrobe
//	# source: own measures, spring
//	# status: checked twice
//	# unit: cm
//	size,code,bust,waist,hip,back waist length
//	36,S,84,68,92,
//	38,M,88,72,96,41.5
//
// Lines that begin with # come first and say what the chart is; unit (cm, in
// or mm) is required. Then a row names the columns: size, code (a second name,
// may be left out) and any body measures, lower or upper case. Then one row
// for each size, smallest first. Columns are set apart by commas, semicolons
// or tabs. A cell is a length as package measure reads it: "66.5", "66,5",
// "26 1/2", with its own unit if it says one; an empty cell is a measure that
// size lacks. Empty rows do not count. Columns and the lines at the top may have
// their German names: Größe, Oberweite, Taille, Hüfte, Rückenlänge; Einheit.
//
// Promise: a chart that is read has sizes and second names that differ, and
// measures above 0; body measures are in mm, exact to the float. Errors say
// the row as counted in the file and the column. Not here: guessing units or
// measures, writing charts.
package sizechart
