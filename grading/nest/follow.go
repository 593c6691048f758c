package nest

import (
	"strings"

	"quarterstep/model"
	"quarterstep/model/glossary"
)

// Follows is the measure a grade point goes by, across and along the grain.
type Follows struct{ Across, Along model.Measure }

// usualFollows says what each grade point of q usually follows, by its name and
// place on the piece. A measure the chart lacks gives way to the next likely
// one and in the end to steps. These are the habits of the trade's hand
// grading, where the frame (neck and shoulder) does not grow like the girth:
// common practice.
func usualFollows(q model.Piece, chart model.SizeChart) []Follows {
	out := make([]Follows, len(q.Points))
	kind := garmentPart(q)
	level := levels(q)
	for i, g := range q.Points {
		out[i] = Follows{available(chart, defaultAcross(kind, g, level[i])), available(chart, model.BackWaist)}
	}
	return out
}

// part is what a piece is for, as far as the defaults care.
type part int

const (
	body part = iota
	sleeve
	band // facings, collars, bands: they go with the neck
	lower
)

var partWords = []struct {
	word string
	is   part
}{
	{"facing", band},
	{"collar", band},
	{"band", band},
	{"binding", band},
	{"sleeve", sleeve},
	{"cuff", sleeve},
	{"skirt", lower},
	{"trouser", lower},
	{"pants", lower},
	{"shorts", lower},
}

func garmentPart(q model.Piece) part {
	name := glossary.English(q.Name)
	for _, w := range partWords {
		if strings.Contains(name, w.word) {
			return w.is
		}
	}
	return body
}

func defaultAcross(kind part, g model.GradePoint, at level) model.Measure {
	switch kind {
	case band:
		return model.Neck
	case sleeve:
		return model.UpperArm
	}
	name := glossary.English(g.Name)
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(name, w) {
				return true
			}
		}
		return false
	}
	switch {
	case has("neck"):
		return model.Neck
	case has("shoulder"):
		return model.Shoulder
	case has("underarm", "bust", "armhole"):
		return model.Bust
	case has("waist"):
		return model.Waist
	case has("hem", "hip"):
		return model.Hip
	}
	if kind == lower {
		if at == atNeck || at == atShoulder || at == atBust {
			return model.Waist
		}
		return model.Hip
	}
	return [...]model.Measure{model.Neck, model.Shoulder, model.Bust, model.Waist, model.Hip}[at]
}

// available is m if the chart has it for every size, else the measure next
// likely to move the same place, in the end steps.
func available(chart model.SizeChart, m model.Measure) model.Measure {
	next := map[model.Measure]model.Measure{
		model.Hip: model.Waist, model.Waist: model.Bust, model.UpperArm: model.Bust,
	}
	for m != "" && m != model.Steps {
		if chart.Has(m) {
			return m
		}
		m = next[m]
	}
	return model.Steps
}

// level is a height on a bodice, from the top.
type level int

const (
	atNeck level = iota
	atShoulder
	atBust
	atWaist
	atHip
)

// levels places each grade point at a height by the bust, waist and hip lines
// drawn on the piece, and where there are none by its share of the height of
// the largest size: neck and shoulder in the top eighth, the waist between
// three fifths and six sevenths (a hip-length bodice; common practice).
func levels(q model.Piece) []level {
	out := make([]level, len(q.Points))
	if len(q.Nest) == 0 {
		return out
	}
	f := newFrame(q.GrainDir())
	o := q.Nest[len(q.Nest)-1]
	top, bottom := 0.0, 0.0
	heights := make([]float64, len(o.Edges))
	for i, e := range o.Edges {
		heights[i] = f.of(e.Start())[1]
		if i == 0 || heights[i] < top {
			top = heights[i]
		}
		if i == 0 || heights[i] > bottom {
			bottom = heights[i]
		}
	}
	bust, okB := lineHeight(q, model.BustLine, o.Size, f)
	waist, okW := lineHeight(q, model.WaistLine, o.Size, f)
	hip, okH := lineHeight(q, model.HipLine, o.Size, f)
	if !okB {
		bust = top + 0.40*(bottom-top)
	}
	if !okW {
		waist = top + 0.72*(bottom-top)
	}
	if !okH {
		hip = bottom
	}
	frameEnd := top + 0.125*(bottom-top)
	for i, h := range heights {
		switch {
		case h <= frameEnd:
			out[i] = atShoulder
		case h <= (bust+waist)/2:
			out[i] = atBust
		case h <= (waist+hip)/2:
			out[i] = atWaist
		default:
			out[i] = atHip
		}
	}
	return out
}

func lineHeight(q model.Piece, kind model.LineKind, size string, f frame) (float64, bool) {
	for _, l := range q.Lines {
		if l.Kind != kind {
			continue
		}
		for _, d := range l.Drawn {
			if d.Size == size || d.Size == "" {
				return (f.of(d.Path.Start())[1] + f.of(d.Path.End())[1]) / 2, true
			}
		}
	}
	return 0, false
}
