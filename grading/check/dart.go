package check

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/dart"
	"quarterstep/model"
)

// darts looks whether the legs of every dart are of one length, on the
// stitching line, and whether the seam across it, with the dart closed, runs on
// as smoothly as in print.
func (l *looking) darts() Checked {
	out := Checked{Check: "dart"}
	legs, turn, count := 0.0, 0.0, 0
	for i, q := range l.p.Pieces {
		for k, d := range q.Darts {
			g := l.r.Pieces[i].Darts
			if k >= len(g) {
				continue
			}
			count++
			legs, turn = math.Max(legs, math.Abs(g[k].LegsDiffer)), math.Max(turn, g[k].Kink)
			out.Findings = append(out.Findings, l.dart(q, d, l.r.Pieces[i], g[k])...)
		}
	}
	if count > 0 {
		out.Title = words.T("Darts")
		out.Say = words.F("legs equal within %s, seams across them turn by up to %s", show(legs, l.p), degrees(turn))
	}
	return out
}

func (l *looking) dart(q model.Piece, d model.Dart, r grading.Piece, g grading.Dart) []Finding {
	name := d.Name
	if name == "" {
		name = words.T("dart")
	}
	at := Finding{Piece: q.ID, Point: d.To, Where: g.Apex, Look: true, Action: trueIt(q, d, r, g)}
	var out []Finding
	if off := math.Abs(g.LegsDiffer); off > l.limit(LimitDartLegs) {
		f := at
		f.Code, f.By = "dart-legs", off
		f.What = words.F("Legs of the %s of %s differ", name, q.Name)
		f.Much = show(off, l.p)
		across, along := q.AcrossAlong(g.Leg2.Sub(g.Leg1))
		switch {
		case math.Abs(across) > math.Abs(along):
			f.Say = words.F("The one leg of the %s of %s is %s longer than the other.", name, q.Name, show(off, l.p))
		case g.LegsDiffer < 0 != (along < 0):
			f.Say = words.F("The lower leg of the %s of %s is %s longer than the upper.", name, q.Name, show(off, l.p))
		default:
			f.Say = words.F("The upper leg of the %s of %s is %s longer than the lower.", name, q.Name, show(off, l.p))
		}
		f.Help = words.T("True the seam across the dart: both legs are then drawn to their mean.")
		out = append(out, f)
	}
	if printed := printedKink(q, d); g.Kink > printed+l.limit(LimitKink) {
		f := at
		f.Code, f.By = "dart-kink", g.Kink
		f.What = words.F("Seam across the %s of %s turns", name, q.Name)
		f.Much = words.F("%s with the dart closed, %s in print", degrees(g.Kink), degrees(printed))
		f.Say = words.F("With the %s of %s closed, the seam across it turns by %s; the printed one by %s.", name, q.Name, inWords(g.Kink), inWords(printed))
		f.Help = words.T("True the seam across the dart, or close it and drag the curve handles beside it into one line.")
		out = append(out, f)
	}
	if g.Why != "" {
		f := at
		f.Code, f.Action = "dart-left", Action{}
		f.What = words.F("The %s of %s is left as graded", name, q.Name)
		f.Say = words.F("The %s of %s is left as graded: %s.", name, q.Name, g.Why)
		f.Help = words.T("Choose a size nearer the printed ones, or let the dart be as graded.")
		out = append(out, f)
	}
	return out
}

// trueIt offers to true a dart; Show where it is already, or cannot be.
func trueIt(q model.Piece, d model.Dart, r grading.Piece, g grading.Dart) Action {
	at, err := dart.Read(q, d, g.Apex)
	if err == nil {
		_, err = at.True(r.Edges)
	}
	if err != nil || d.Trued {
		return Action{}
	}
	return Action{Do: TrueDart, Label: words.T("True the seam across it"), Piece: q.ID, Dart: d.ID}
}

// printedKink is the most degrees by which the seam turns at the closed dart in
// any printed size.
func printedKink(q model.Piece, d model.Dart) float64 {
	var most float64
	for _, o := range q.Nest {
		at, err := dart.Read(q, d, o.Edges[0].Start())
		if err != nil {
			return 0
		}
		kink, _ := at.Printed(d, o).Kink(o.Edges)
		most = math.Max(most, kink)
	}
	return most
}
