package straight

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// Known is a straight distance of known length, drawn over the picture: the
// pattern's own test square, or a ruler laid beside it.
type Known struct {
	From, To geom.Point // px
	MM       float64
}

// Scan is how a flatbed's picture is brought to scale.
type Scan struct {
	Map     Map
	Misfit  Misfit     // of the known distances
	Off     [2]float64 // by what share the file's own pixels to the inch were off, across and down
	Checked [2]bool    // a known distance speaks for across, for down
}

// wrongDensity is the share from which a file's pixels to the inch are not a
// scanner's stretch any more but wrong altogether: scanners keep within half a
// percent on either axis.
const wrongDensity = 0.02

// FromScan brings a scan to scale by its pixels to the inch, checked and
// corrected by known distances. One that runs along an axis, within thirty
// degrees, speaks for that axis alone, as a scanner may stretch one and not the
// other; where the file's figure is wrong altogether, or missing, it speaks for
// both until another does.
func FromScan(perInch [2]float64, known []Known) (Scan, error) {
	has := perInch[0] > 0 && perInch[1] > 0
	if !has && len(known) == 0 {
		return Scan{}, words.Errorf("scaling the scan: the file does not say how many pixels make an inch, mark a distance you know")
	}
	if !has {
		perInch = [2]float64{254, 254}
	}
	mm := [2]float64{25.4 / perInch[0], 25.4 / perInch[1]}
	for i, k := range known {
		if !k.From.Finite() || !k.To.Finite() || k.From.Dist(k.To) < 20 {
			return Scan{}, words.Errorf("scaling the scan: distance %d is too short in the picture, mark a longer one", i+1)
		}
		if !(k.MM >= 1 && k.MM <= 10_000) {
			return Scan{}, words.Errorf("scaling the scan: type the true length of distance %d, between 1 mm and 10 m", i+1)
		}
	}
	s := Scan{}
	ratio := s.ratios(known, mm)
	if has {
		ratio = trusted(ratio, known)
	}
	for i := range mm {
		mm[i] *= ratio[i]
		if has {
			s.Off[i] = ratio[i] - 1
		}
	}
	s.Map.H = [9]float64{mm[0], 0, 0, 0, mm[1], 0, 0, 0, 1}
	s.Misfit.Points = len(known)
	for _, k := range known {
		d := math.Abs(s.Map.MM(k.From).Dist(s.Map.MM(k.To)) - k.MM)
		s.Misfit.RMS += d * d / float64(len(known))
		s.Misfit.Worst = max(s.Misfit.Worst, d)
	}
	s.Misfit.RMS = math.Sqrt(s.Misfit.RMS)
	return s, nil
}

// clicked is how far from its place a distance's end may be clicked, in pixels
// of the picture.
const clicked = 2.0

// trusted leaves an axis alone where what it would be stretched by is less than
// the clicks are sure of: then the file's own scale is the better one.
func trusted(ratio [2]float64, known []Known) [2]float64 {
	var long [2]float64 // px
	for _, k := range known {
		x, y := math.Abs(k.To.X-k.From.X), math.Abs(k.To.Y-k.From.Y)
		if ratio[0] == ratio[1] { // it speaks for both alike
			x, y = math.Hypot(x, y), math.Hypot(x, y)
		}
		long[0], long[1] = max(long[0], x), max(long[1], y)
	}
	for i := range ratio {
		if math.Abs(ratio[i]-1) < wrongDensity && math.Abs(ratio[i]-1)*long[i] < 2*clicked {
			ratio[i] = 1
		}
	}
	return ratio
}

// ratios is what each axis must be stretched by, and sets Checked.
func (s *Scan) ratios(known []Known, mm [2]float64) [2]float64 {
	// (dx u)² + (dy v)² = L² is straight in u² and v².
	var xx, xy, yy, xl, yl, all, allL float64
	for _, k := range known {
		dx, dy := (k.To.X-k.From.X)*mm[0], (k.To.Y-k.From.Y)*mm[1]
		x, y, l := dx*dx, dy*dy, k.MM*k.MM
		w := 1 / l // so that each is counted by its own length, not by its square
		xx, xy, yy = xx+w*x*x, xy+w*x*y, yy+w*y*y
		xl, yl = xl+w*x*l, yl+w*y*l
		all, allL = all+w*(x+y)*(x+y), allL+w*(x+y)*l
		lean := math.Atan2(math.Abs(dy), math.Abs(dx))
		s.Checked[0] = s.Checked[0] || lean < math.Pi/6
		s.Checked[1] = s.Checked[1] || lean > math.Pi/3
	}
	if len(known) == 0 {
		return [2]float64{1, 1}
	}
	both := math.Sqrt(allL / all)
	det := xx*yy - xy*xy
	if s.Checked[0] && s.Checked[1] {
		u, v := (xl*yy-yl*xy)/det, (yl*xx-xl*xy)/det
		if u > 0 && v > 0 {
			return [2]float64{math.Sqrt(u), math.Sqrt(v)}
		}
	}
	if math.Abs(both-1) > wrongDensity || s.Checked == ([2]bool{}) {
		return [2]float64{both, both}
	}
	out := [2]float64{1, 1}
	if s.Checked[0] {
		out[0] = both
	} else {
		out[1] = both
	}
	return out
}

// Say is what the known distances tell of the scan.
func (s Scan) Say(u measure.Unit) string {
	if s.Checked == ([2]bool{}) && s.Misfit.Points == 0 {
		return words.T("By the file's own scale. Mark a distance you know to check it.")
	}
	worst := max(math.Abs(s.Off[0]), math.Abs(s.Off[1]))
	switch {
	case s.Misfit.Points > 1 && s.Misfit.Worst > goodWorst:
		return s.Misfit.Say(u)
	case worst > wrongDensity:
		return words.F("The file's own scale was %.0f %% off: your distance counts.", 100*worst)
	case worst >= 0.0005:
		return s.andRest(words.F("The scan was %s %% off: put right.", words.Figure(100*worst, 1)))
	}
	return s.andRest(words.T("The scan is to scale."))
}

// andRest adds to a sentence which way is still unchecked.
func (s Scan) andRest(say string) string {
	switch s.Checked {
	case [2]bool{true, false}:
		return say + " " + words.T("Only across is checked: mark a distance down as well.")
	case [2]bool{false, true}:
		return say + " " + words.T("Only down is checked: mark a distance across as well.")
	}
	return say
}
