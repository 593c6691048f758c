// Package scenetest makes small invented patterns for the tests of the Table:
// a blouse front with its neck facing, drawn by hand for this purpose and
// modelled on no published pattern. Lengths are in mm.
package scenetest
