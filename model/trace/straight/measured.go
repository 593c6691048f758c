package straight

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// Measured is what distances of known length say of a map.
type Measured struct {
	Off    float64 // by what share the paper is larger than the map says; 0.03: the map shows 97 % of it
	Misfit Misfit  // of the distances, once Off is put right
	Map    Map     // with Off put right
}

// sameScale is the share within which a tape measure and a click agree on some
// tens of centimetres.
const sameScale = 0.004

// sureEnds is how far, in mm, both ends of a distance together may be clicked
// beside themselves: a distance that is off by less says nothing against the
// map, or a short one would spoil all the rest.
const sureEnds = 0.7

// Measure holds a map to distances of known length. So a sheet of targets that
// a printer made smaller, or a page of another size than was said, is noticed.
func Measure(m Map, known []Known) (Measured, error) {
	if len(known) == 0 {
		return Measured{}, words.Errorf("checking the scale: mark a distance you have measured")
	}
	var ll, lm, long float64
	for i, k := range known {
		d := m.MM(k.From).Dist(m.MM(k.To))
		if !(d >= 10) || !(k.MM >= 10 && k.MM <= 10_000) || math.IsInf(d, 0) {
			return Measured{}, words.Errorf("checking the scale: distance %d is too short or not typed, choose one of 10 cm or more", i+1)
		}
		ll, lm, long = ll+d*d, lm+d*k.MM, max(long, d)
	}
	ratio := lm / ll
	if math.Abs(ratio-1)*long < sureEnds {
		ratio = 1
	}
	out := Measured{Off: ratio - 1, Map: m.Larger(ratio)}
	out.Misfit.Points = len(known)
	for _, k := range known {
		d := math.Abs(out.Map.MM(k.From).Dist(out.Map.MM(k.To)) - k.MM)
		out.Misfit.RMS += d * d / float64(len(known))
		out.Misfit.Worst = max(out.Misfit.Worst, d)
	}
	out.Misfit.RMS = math.Sqrt(out.Misfit.RMS)
	return out, nil
}

// Larger is a map to paper that is larger by a ratio.
func (m Map) Larger(ratio float64) Map { return moved(m, geom.ScaleXY(ratio, ratio)) }

// Say is what the distances mean, for a picture made flat by a page or a mat.
func (d Measured) Say(measure.Unit) string {
	return d.say(words.T("Is what lies beside the piece as large as you said?"))
}

// SayPrinted is Say for a picture made flat by a sheet of targets.
func (d Measured) SayPrinted(measure.Unit) string {
	return d.say(words.F("The targets were printed at about %.0f %%: print them again at 100 %%, or leave it so.", 100*(1+d.Off)))
}

// SayCard is Say for a bank card lying on the paper, which no more than hints at
// the scale.
func (d Measured) SayCard() string {
	const rough = 0.01 // a click at each of a card's round corners is not surer
	if math.Abs(d.Off) <= rough {
		return words.T("By the card the scale is about right. It is small, so this is a rough check.")
	}
	off := words.Figure(100*math.Abs(d.Off), 1)
	if d.Off < 0 {
		return words.F("By the card, a rough check, all is about %s %% too large. Nothing was changed: measure a drawn length to be sure.", off)
	}
	return words.F("By the card, a rough check, all is about %s %% too small. Nothing was changed: measure a drawn length to be sure.", off)
}

// say asks back where the distances speak against the map.
func (d Measured) say(back string) string {
	switch {
	case d.Misfit.Points > 1 && d.Misfit.Worst > fairWorst:
		return words.F("Your distances do not agree with each other, by %s mm: measure them again.", words.Figure(d.Misfit.Worst, 1))
	case math.Abs(d.Off) <= sameScale:
		return words.T("Your distance agrees: the picture is to scale.")
	}
	off := words.Figure(100*math.Abs(d.Off), 1)
	if d.Off < 0 {
		return words.F("By your distance all would come out %s %% too large; now it goes by your distance. %s", off, back)
	}
	return words.F("By your distance all would come out %s %% too small; now it goes by your distance. %s", off, back)
}
