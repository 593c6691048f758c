package girth

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// lineKind is the line drawn on a piece for each girth, pointName the word in
// the name of a grade point at the same height.
var (
	lineKind  = map[model.Measure]model.LineKind{model.Bust: model.BustLine, model.Waist: model.WaistLine, model.Hip: model.HipLine}
	pointName = map[model.Measure]string{model.Bust: "underarm", model.Waist: "waist", model.Hip: "hip"}
)

// at measures the piece at m: width on paper, what allowances and darts take of
// it, all in mm. why is a sentence where it cannot be measured. A line drawn
// where the level is no use, such as a bust line that on the stitching line
// still meets the armhole, gives way to the grade point.
func (s *sheet) at(m model.Measure) (width, allowances, darts float64, why string) {
	sewn, err := s.sewn()
	if err != nil {
		return 0, 0, 0, words.F("The seam allowances of %s do not fit into it.", s.q.Name)
	}
	if h, ok := s.drawnLevel(m); ok {
		width, allowances, darts, why = s.across(sewn, h, m)
		if why == "" {
			return width, allowances, darts, ""
		}
	}
	if m == model.Waist {
		if edges := s.waistSeam(); len(edges) > 0 {
			return s.alongSeam(sewn, edges)
		}
	}
	if h, ok := s.pointLevel(sewn, m); ok {
		if w, a, d, no := s.across(sewn, h, m); no == "" || why == "" {
			return w, a, d, no
		}
	}
	if why == "" {
		why = words.F("%s has no %s line and no grade point named %s: draw the one or name the other.", s.q.Name, m.Said(), saidPoint(m))
	}
	return 0, 0, 0, why
}

// saidPoint is the name of the grade point looked for, in the language in use.
func saidPoint(m model.Measure) string {
	if m == model.Bust {
		return words.T("underarm")
	}
	return m.Said()
}

// drawnLevel is the height along the grain of the line drawn for m: the middle
// of its two ends, so that a line that tilts counts at its middle.
func (s *sheet) drawnLevel(m model.Measure) (float64, bool) {
	for _, l := range s.lines {
		if l.Kind == lineKind[m] && len(l.Path) > 0 {
			return s.height(l.Path.Start().Lerp(l.Path.End(), 0.5)), true
		}
	}
	return 0, false
}

// pointLevel is the height on the stitching line of the grade point named for
// m, one at the side before others.
func (s *sheet) pointLevel(sewn []geom.Path, m model.Measure) (float64, bool) {
	found := -1
	for k, g := range s.q.Points {
		w := wordsOf(g.Name)
		if !slices.Contains(w, pointName[m]) || slices.Contains(w, "dart") {
			continue
		}
		if found < 0 || slices.Contains(w, "side") && !slices.Contains(wordsOf(s.q.Points[found].Name), "side") {
			found = k
		}
	}
	if found < 0 {
		return 0, false
	}
	return s.height(sewn[found].Start()), true
}

// height is how far down the grain a place lies, mm.
func (s *sheet) height(p geom.Point) float64 { return geom.Vec(p).Dot(s.q.GrainDir()) }

// side is how far across the grain a place lies, mm.
func (s *sheet) side(p geom.Point) float64 { return -geom.Vec(p).Dot(s.q.GrainDir().Perp()) }

// place is the point at a height and side.
func (s *sheet) place(side, height float64) geom.Point {
	return geom.Point(s.q.FromAcrossAlong(side, height))
}
