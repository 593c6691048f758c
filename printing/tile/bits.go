package tile

import "math/bits"

// bitmap is a table of bits, a word holding 64 of a row.
type bitmap struct {
	words int // to a row
	rows  []uint64
}

func newBitmap(wide, high int) bitmap {
	words := (wide + 63) / 64
	return bitmap{words: words, rows: make([]uint64, words*high)}
}

func (b bitmap) high() int { return len(b.rows) / max(1, b.words) }

func (b bitmap) row(y int) []uint64 { return b.rows[y*b.words : (y+1)*b.words] }

// has reports whether bit x of row y is set; there is none outside.
func (b bitmap) has(x, y int) bool {
	return x >= 0 && y >= 0 && x < 64*b.words && y < b.high() && b.rows[y*b.words+x/64]>>(x%64)&1 != 0
}

// set sets bits from up to to of row y.
func (b bitmap) set(y, from, to int) {
	row := b.row(y)
	for k := from / 64; k*64 < to; k++ {
		lo, hi := max(0, from-k*64), min(64, to-k*64)
		row[k] |= ^uint64(0) << lo & (^uint64(0) >> (64 - hi))
	}
}

// wipe clears the first high rows.
func (b bitmap) wipe(high int) { clear(b.rows[:high*b.words]) }

// or sets the bits of c, its first bit at (x, y), in the first high rows; what
// falls outside is left away. It gives the number of words gone through.
func (b bitmap) or(c bitmap, x, y, high int) int {
	first, shift := x>>6, uint(x&63)
	from, to := max(0, -y), min(c.high(), high-y)
	for r := from; r < to; r++ {
		row := b.row(y + r)
		for k, w := range c.row(r) {
			if w == 0 {
				continue
			}
			if i := first + k; i >= 0 && i < len(row) {
				row[i] |= w << shift
			}
			if i := first + k + 1; shift > 0 && i >= 0 && i < len(row) {
				row[i] |= w >> (64 - shift)
			}
		}
	}
	return max(0, to-from) * c.words
}

// unset looks in a row, from bit at on, for the first bit that is not set where
// mask is; -1 where there is none. The answer counts from at. Beyond its end a
// row is set.
func unset(row, mask []uint64, at int) int {
	i, shift := at>>6, uint(at&63)
	for k, want := range mask {
		if want != 0 {
			w := word(row, i+k) >> shift
			if shift > 0 {
				w |= word(row, i+k+1) << (64 - shift)
			}
			if open := want &^ w; open != 0 {
				return k*64 + bits.TrailingZeros64(open)
			}
		}
	}
	return -1
}

func word(row []uint64, i int) uint64 {
	if i < len(row) {
		return row[i]
	}
	return ^uint64(0)
}

// firstUnset is the first bit of a row that is not set; -1 where all are.
func firstUnset(row []uint64) int {
	for k, w := range row {
		if w != ^uint64(0) {
			return k*64 + bits.TrailingZeros64(^w)
		}
	}
	return -1
}
