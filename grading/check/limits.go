package check

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// Unit is what a limit is counted in.
type Unit string

// The units of limits.
const (
	MM      Unit = "mm"
	Degrees Unit = "degrees"
	Steps   Unit = "steps"
)

// Said is the unit in the language in use, after a figure.
func (u Unit) Said() string {
	switch u {
	case Degrees:
		return words.T("degrees")
	case Steps:
		return words.C("of a limit", "steps")
	}
	return string(u)
}

// Limit is how far a check lets something go before it asks her to look.
type Limit struct {
	Name    string // stable, for programs and the file: "seams"
	Title   string // "Seams may differ by"
	Unit    Unit
	Default float64 // as usual in the trade
	Most    float64 // the highest it can be set to; the lowest is 0
	Status  string  // "published, seen in a stored copy", "common practice", "our own choice"
	Source  string  // where the usual figure is from, as a sentence
}

// The names of the limits.
const (
	LimitSeams    = "seams"
	LimitEase     = "ease"
	LimitKink     = "kink"
	LimitJoin     = "join"
	LimitSquare   = "square"
	LimitCentre   = "centre"
	LimitGrain    = "grain"
	LimitHem      = "hem"
	LimitNotch    = "notches"
	LimitDartLegs = "dart legs" // words: none
	LimitFar      = "far"
)

const sixteenth = 25.4 / 16

// usual is a limit before the language is known.
type usual struct {
	name          string
	title         words.Text
	unit          Unit
	usual, most   float64
	status, where words.Text
}

func (u usual) said() Limit {
	return Limit{u.name, u.title.String(), u.unit, u.usual, u.most, u.status.String(), u.where.String()}
}

var limits = []usual{
	{
		LimitSeams, words.Text("Seams may differ by"), MM, sixteenth, 50, words.Text("published, seen in a stored copy"),
		words.Text("Threads no. 200, 2018: its author trues to 1/16 in, many sewers to 1/8 in, a maker of patterns to 0.03 in."),
	},
	{
		LimitNotch, words.Text("Notches may miss each other by"), MM, 2 * sixteenth, 50, words.Text("published for seams, seen in a stored copy"),
		words.Text("Threads no. 200, 2018: many sewers true to 1/8 in; taken over from seams to the notches on them."),
	},
	{
		LimitEase, words.Text("Girths may lose ease by"), MM, 10, 200, words.Text("common practice"),
		words.Text("Of the whole girth: less than half the smallest step of a size chart."),
	},
	{
		LimitKink, words.Text("Lines may turn at a smooth point by"), Degrees, 5, 90, words.Text("our own choice"),
		words.Text("More than the printed sizes do: what the eye sees in a line, by our own trial."),
	},
	{
		LimitJoin, words.Text("Edges may bend over a seam by"), Degrees, 6, 90, words.Text("rule common practice, figure our own choice"),
		words.Text("The two sides of a join sum to 180 degrees; the figure is just more than clean drafts show five steps out."),
	},
	{
		LimitSquare, words.Text("Corners may be off square by"), Degrees, 2.5, 45, words.Text("rule common practice, figure our own choice"),
		words.Text("Necklines and hems are square to the centre; unfolded, the line bends by twice this."),
	},
	{
		LimitCentre, words.Text("Folds and centre lines may move by"), MM, sixteenth, 50, words.Text("rule common practice, figure our own choice"),
		words.Text("A fold or centre line stays where it is; the figure is that of a seam."),
	},
	{
		LimitGrain, words.Text("The grain may turn by"), Degrees, 0.5, 45, words.Text("rule common practice, figure our own choice"),
		words.Text("The grain stays parallel from size to size; half a degree is 5 mm over 60 cm."),
	},
	{
		LimitHem, words.Text("Hems may be uneven by"), MM, 4 * sixteenth, 50, words.Text("common practice"),
		words.Text("A hem 1/4 in higher at one end shows when it hangs."),
	},
	{
		LimitDartLegs, words.Text("Dart legs may differ by"), MM, sixteenth, 50, words.Text("rule common practice, figure that of seams"),
		words.Text("The legs of a dart are sewn to each other, as seams are."),
	},
	{
		LimitFar, words.Text("Sizes are taken on trust for"), Steps, 3, 20, words.Text("common practice"),
		words.Text("Past the print a neck and shoulders no longer grow like girths: sew a toile."),
	},
}

// Limits lists every limit that can be set, in the order they are shown.
func Limits() []Limit {
	out := make([]Limit, len(limits))
	for i, u := range limits {
		out[i] = u.said()
	}
	return out
}

// LimitNamed is the limit of that name; false when there is none.
func LimitNamed(name string) (Limit, bool) {
	i := slices.IndexFunc(limits, func(u usual) bool { return u.name == name })
	if i < 0 {
		return Limit{}, false
	}
	return limits[i].said(), true
}

// LimitOf is how far p lets the limit of that name go, in the limit's unit:
// what the sewist set, else what is usual. A name that is none's is 0.
func LimitOf(p model.Pattern, name string) float64 {
	if v, ok := p.Limits[name]; ok {
		return v
	}
	i := slices.IndexFunc(limits, func(u usual) bool { return u.name == name })
	if i < 0 {
		return 0
	}
	return limits[i].usual
}

// Allows reports in plain words why the limit cannot be set to v, in its unit;
// nil when it can.
func (l Limit) Allows(v float64) error {
	if math.IsNaN(v) || v < 0 || v > l.Most {
		return words.Errorf("%q goes from 0 to %s %s", l.Title, words.Digits(l.Most, 6), l.Unit.Said())
	}
	return nil
}
