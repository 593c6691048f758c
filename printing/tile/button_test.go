package tile_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
	"quarterstep/printing/tile"
)

// On any set of sheets, every join between two of them has a button, every
// button is whole when the sheets meet, each quarter printed once, and on no
// sheet alone.
func TestButtonsAreWholeOnlyTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := a4()
		s.Overlap = rapid.SampledFrom([]float64{0, 10, 14}).Draw(t, "overlap")
		stepX, stepY := 190-s.Overlap, 277-s.Overlap
		var placed []tile.Placed
		for _, c := range rapid.SliceOfN(rapid.IntRange(0, 15), 1, 16).Draw(t, "cells") {
			placed = append(placed, at(oblong("Patch", 20, 20), stepX*float64(c%4)+60, stepY*float64(c/4)+60))
		}
		plan, err := tile.Layout(placed, s)
		if err != nil {
			t.Fatal(err)
		}
		whole := map[[2]int][4]int{}
		for _, sh := range plan.Sheets {
			joins := map[tile.Side]int{}
			for _, b := range sh.Buttons {
				key := [2]int{int(math.Round(b.At.X)), int(math.Round(b.At.Y))}
				n, alone := whole[key], 0
				for q, mine := range b.Quarters {
					if mine {
						n[q]++
						alone++
					}
				}
				whole[key] = n
				if alone == 0 || alone == 4 {
					t.Fatalf("%s prints %d quarters of a button", sh.Name, alone)
				}
				for side, d := range map[tile.Side]float64{
					tile.Left: b.At.X - sh.Own.Min.X, tile.Right: b.At.X - sh.Own.Max.X,
					tile.Up: b.At.Y - sh.Own.Min.Y, tile.Down: b.At.Y - sh.Own.Max.Y,
				} {
					if math.Abs(d) < 1e-6 {
						joins[side]++
					}
				}
			}
			for side := tile.Left; side <= tile.Down; side++ {
				if sh.Beside[side] != "" && joins[side] == 0 {
					t.Fatalf("%s has no button on side %d", sh.Name, side)
				}
			}
		}
		for key, n := range whole {
			if n != [4]int{1, 1, 1, 1} {
				t.Fatalf("the button at %v has quarters %v", key, n)
			}
		}
	})
}

// A button fits in the overlap of 10 mm, so that sheets that stand in for a
// blank one can print its quarter.
func TestButtonFitsTheOverlap(t *testing.T) {
	plan := layout(t, []tile.Placed{at(oblong("Cloak", 500, 500), 1, 1)}, a4())
	n := 0
	for _, sh := range plan.Sheets {
		for _, b := range sh.Buttons {
			n++
			if !sh.Window.Contains(b.At.Add(geom.Vec{X: b.R, Y: b.R})) && !sh.Window.Contains(b.At.Add(geom.Vec{X: -b.R, Y: -b.R})) {
				t.Errorf("%s: the button at %v leaves the window", sh.Name, b.At)
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d buttons", n)
	}
}
