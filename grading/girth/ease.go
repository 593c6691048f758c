package girth

import (
	"math"
	"slices"

	"quarterstep/grading"
	"quarterstep/model"
)

// Row is one girth in every printed size that has it and in the size wanted.
type Row struct {
	Measure model.Measure
	Printed []Sized // smallest size first
	Target  Girth
	// Carried is the ease the print would have at the target's body girth, mm;
	// only where Compared.
	Carried  float64
	Compared bool // false where no printed size could be measured
}

// Sized is a girth in a printed size.
type Sized struct {
	Size string
	Girth
}

// Lost is by how many mm the size wanted has less ease than the print carries
// on to; below 0 where it has more, and 0 where there is nothing to compare.
func (r Row) Lost() float64 {
	if !r.Compared {
		return 0
	}
	return r.Carried - r.Target.Ease
}

// Table is Tape.Table for once.
func Table(p model.Pattern, r grading.Result) (rows []Row, missing []Missing, err error) {
	return new(Tape).Table(p, r)
}

// printedGirths measures every printed size of the pieces round the body.
func printedGirths(p model.Pattern) (map[model.Measure][]Sized, map[model.Measure][]Missing, error) {
	printed, lacks := map[model.Measure][]Sized{}, map[model.Measure][]Missing{}
	for _, size := range printedSizes(p) {
		girths, missing, err := Printed(p, size)
		if err != nil {
			return nil, nil, err
		}
		for _, g := range girths {
			printed[g.Measure] = append(printed[g.Measure], Sized{size, g})
		}
		for _, m := range missing {
			lacks[m.Measure] = append(lacks[m.Measure], m)
		}
	}
	return printed, lacks, nil
}

// printedSizes is every size of the chart that a piece round the body was
// printed in, in the chart's order.
func printedSizes(p model.Pattern) []string {
	upper, lower := bodyPieces(p)
	places := map[int]bool{}
	for _, i := range append(upper, lower...) {
		for _, o := range p.Pieces[i].Nest {
			for _, size := range o.Sizes() {
				if place, ok := p.Chart.Place(size); ok {
					places[place] = true
				}
			}
		}
	}
	var out []string
	for place, s := range p.Chart.Sizes {
		if places[place] {
			out = append(out, s.Name)
		}
	}
	return out
}

// When the printed ease counts as growing: by trendClear mm at least over the
// printed sizes, each of them within a share trendStraight of that from the
// straight line. A hand's jitter in tracing makes about 1 mm of it, and a side
// seam that leans from bust to waist or to hip some 3 mm. Our own choice.
const (
	trendClear    = 6.0
	trendStraight = 1.0 / 8
)

// carried is the ease the printed sizes would have at a body girth: between
// two of them, straight from one to the other; beyond, their mean, or the
// straight line through them where they clearly grow or shrink on one.
func carried(printed []Sized, body float64) (ease float64, ok bool) {
	n := len(printed)
	if n == 0 {
		return 0, false
	}
	all := slices.Clone(printed)
	slices.SortFunc(all, func(a, b Sized) int {
		if a.Body < b.Body {
			return -1
		}
		return 1
	})
	for i := 1; i < n; i++ {
		if a, b := all[i-1], all[i]; a.Body <= body && body <= b.Body && a.Body < b.Body {
			return a.Ease + (body-a.Body)/(b.Body-a.Body)*(b.Ease-a.Ease), true
		}
	}
	var x, y, xx, xy float64
	for _, g := range all {
		x, y = x+g.Body/float64(n), y+g.Ease/float64(n)
	}
	for _, g := range all {
		xx += (g.Body - x) * (g.Body - x)
		xy += (g.Body - x) * (g.Ease - y)
	}
	if xx == 0 {
		return y, true
	}
	slope := xy / xx
	var off float64
	for _, g := range all {
		off = max(off, math.Abs(y+slope*(g.Body-x)-g.Ease))
	}
	rise := math.Abs(slope) * (all[n-1].Body - all[0].Body)
	if rise < trendClear || off > rise*trendStraight {
		return y, true
	}
	return y + slope*(body-x), true
}
