package exchange

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/tdewolff/canvas"

	"quarterstep/model/geom"
)

// randomPath is path data of up to six commands of any kind, written as
// compactly as may be. Straight commands do not follow each other, because
// the other reader makes one line of two in one direction, even there and back.
func randomPath(r *rand.Rand) string {
	args := map[byte]int{'L': 2, 'H': 1, 'V': 1, 'C': 6, 'S': 4, 'Q': 4, 'T': 2}
	const bent, any = "CSQAcsqa", "CSQAcsqaLHVTlhvt"
	num := func() string {
		s := strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", 80*r.Float64()-40), "0"), ".")
		s = strings.Replace(s, "0.", ".", 1)
		if strings.HasPrefix(s, "-") {
			return s // a minus sign needs no space before it
		}
		return " " + s
	}
	d, letters := "M"+num()+num(), any
	for range 1 + r.Intn(6) {
		c := letters[r.Intn(len(letters))]
		d += string(c)
		if upper(c) == 'A' {
			d += fmt.Sprintf("%d %d %d %d%d", 20+r.Intn(40), 20+r.Intn(40), r.Intn(360)-180, r.Intn(2), r.Intn(2)) + num() + num()
		}
		for range args[upper(c)] {
			d += num()
		}
		if letters = any; strings.ContainsRune("LHVT", rune(upper(c))) {
			letters = bent
		}
	}
	return d
}

// TestPathDataAgainstAnotherReader reads random path data with
// github.com/tdewolff/canvas as well: both must give the same extent, within
// 0.002, or within the 0.3 to which that reader draws its arcs.
func TestPathDataAgainstAnotherReader(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 1000 {
		d := randomPath(r)
		runs, trouble := parsePath(d, 1)
		other, err := canvas.ParseSVGPath(d)
		if trouble != "" || err != nil {
			t.Fatalf("%s: refused at %q; the other reader says %v", d, trouble, err)
		}
		var read geom.Path
		for _, run := range runs {
			read = append(read, run.path...)
		}
		tol := 2e-3
		if strings.ContainsAny(d, "Aa") {
			tol = 0.3
		}
		b, o := read.Bounds(), other.ReplaceArcs().Bounds()
		for _, pair := range [][2]float64{{b.Min.X, o.X0}, {b.Min.Y, o.Y0}, {b.Max.X, o.X1}, {b.Max.Y, o.Y1}} {
			if math.Abs(pair[0]-pair[1]) > tol {
				t.Errorf("%s: extent %v, the other reader has %v", d, b, o)
				break
			}
		}
	}
}
