package tile

import (
	"testing"

	"pgregory.net/rapid"
)

// blob is a raster of any shape, gaps and empty rows included.
func blob(t *rapid.T, name string) raster {
	r := raster{wide: rapid.IntRange(1, 90).Draw(t, name+" wide")}
	for range rapid.IntRange(1, 12).Draw(t, name+" high") {
		var row []run
		for range rapid.IntRange(0, 2).Draw(t, "runs") {
			a := rapid.IntRange(0, r.wide-1).Draw(t, "from")
			row = append(row, run{a, rapid.IntRange(a+1, r.wide).Draw(t, "to")})
		}
		r.rows = append(r.rows, merge(row))
	}
	return r
}

func (r raster) covers(x, y int) bool {
	if y < 0 || y >= len(r.rows) {
		return false
	}
	for _, q := range r.rows[y] {
		if x >= q.a && x < q.b {
			return true
		}
	}
	return false
}

// tooNear looks at every pair of cells.
func tooNear(a, b raster, dx, dy int) bool {
	for y, runs := range a.rows {
		for _, q := range runs {
			for x := q.a; x < q.b; x++ {
				for i := -pad; i <= pad; i++ {
					for j := -pad; j <= pad; j++ {
						if b.covers(x+dx+i, y+dy+j) {
							return true
						}
					}
				}
			}
		}
	}
	return false
}

// Wherever one piece lies beside another, the bitmap says what looking at every
// pair of cells says.
func TestClashIsWhatCellsSay(t *testing.T) {
	near, clear := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		a, b := blob(t, "a"), blob(t, "b")
		c := clashOf(a, b)
		for range 20 {
			dx := rapid.IntRange(-a.wide-4, b.wide+4).Draw(t, "dx")
			dy := rapid.IntRange(-len(a.rows)-4, len(b.rows)+4).Draw(t, "dy")
			want := tooNear(a, b, dx, dy)
			if c.has(dx-c.dx, dy-c.dy) != want {
				t.Fatalf("at (%d, %d): too near %v", dx, dy, want)
			}
			if want {
				near++
			} else {
				clear++
			}
		}
	})
	if near < 100 || clear < 100 {
		t.Errorf("%d places too near and %d clear: too few to tell", near, clear)
	}
}

// A row of bits laid over another at any place leaves free what both leave
// free.
func TestBitsLaidOver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, small := rapid.IntRange(1, 200).Draw(t, "wide"), rapid.IntRange(1, 150).Draw(t, "small")
		floor, stamp := newBitmap(wide, 3), newBitmap(small, 2)
		stamp.set(0, 0, small)
		stamp.set(1, rapid.IntRange(0, small-1).Draw(t, "from"), small)
		x, y := rapid.IntRange(-160, 210).Draw(t, "x"), rapid.IntRange(-2, 3).Draw(t, "y")
		floor.or(stamp, x, y, 3)
		for j := range 3 {
			first := -1
			for i := range wide {
				want := stamp.has(i-x, j-y)
				if floor.has(i, j) != want {
					t.Fatalf("bit (%d, %d) is %v", i, j, !want)
				}
				if !want && first < 0 {
					first = i
				}
			}
			if got := firstUnset(floor.row(j)); first >= 0 && got != first {
				t.Fatalf("row %d: the first free bit is %d, not %d", j, got, first)
			}
		}
	})
}
