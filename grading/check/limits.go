package check

import (
	"fmt"
	"math"
	"slices"

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
	LimitDartLegs = "dart legs"
	LimitFar      = "far"
)

const sixteenth = 25.4 / 16

var limits = []Limit{
	{
		LimitSeams, "Seams may differ by", MM, sixteenth, 50, "published, seen in a stored copy",
		"Threads no. 200, 2018: its author trues to 1/16 in, many sewers to 1/8 in, a maker of patterns to 0.03 in.",
	},
	{
		LimitNotch, "Notches may miss each other by", MM, 2 * sixteenth, 50, "published for seams, seen in a stored copy",
		"Threads no. 200, 2018: many sewers true to 1/8 in; taken over from seams to the notches on them.",
	},
	{
		LimitEase, "Girths may lose ease by", MM, 10, 200, "common practice",
		"Of the whole girth: less than half the smallest step of a size chart.",
	},
	{
		LimitKink, "Lines may turn at a smooth point by", Degrees, 5, 90, "our own choice",
		"More than the printed sizes do: what the eye sees in a line, by our own trial.",
	},
	{
		LimitJoin, "Edges may bend over a seam by", Degrees, 6, 90, "rule common practice, figure our own choice",
		"The two sides of a join sum to 180 degrees; the figure is just more than clean drafts show five steps out.",
	},
	{
		LimitSquare, "Corners may be off square by", Degrees, 2.5, 45, "rule common practice, figure our own choice",
		"Necklines and hems are square to the centre; unfolded, the line bends by twice this.",
	},
	{
		LimitCentre, "Folds and centre lines may move by", MM, sixteenth, 50, "rule common practice, figure our own choice",
		"A fold or centre line stays where it is; the figure is that of a seam.",
	},
	{
		LimitGrain, "The grain may turn by", Degrees, 0.5, 45, "rule common practice, figure our own choice",
		"The grain stays parallel from size to size; half a degree is 5 mm over 60 cm.",
	},
	{
		LimitHem, "Hems may be uneven by", MM, 4 * sixteenth, 50, "common practice",
		"A hem 1/4 in higher at one end shows when it hangs.",
	},
	{
		LimitDartLegs, "Dart legs may differ by", MM, sixteenth, 50, "rule common practice, figure that of seams",
		"The legs of a dart are sewn to each other, as seams are.",
	},
	{
		LimitFar, "Sizes are taken on trust for", Steps, 3, 20, "common practice",
		"Past the print a neck and shoulders no longer grow like girths: sew a toile.",
	},
}

// Limits lists every limit that can be set, in the order they are shown.
func Limits() []Limit { return slices.Clone(limits) }

// LimitNamed is the limit of that name; false when there is none.
func LimitNamed(name string) (Limit, bool) {
	i := slices.IndexFunc(limits, func(l Limit) bool { return l.Name == name })
	if i < 0 {
		return Limit{}, false
	}
	return limits[i], true
}

// LimitOf is how far p lets the limit of that name go, in the limit's unit:
// what the sewist set, else what is usual. A name that is none's is 0.
func LimitOf(p model.Pattern, name string) float64 {
	l, _ := LimitNamed(name)
	if v, ok := p.Limits[name]; ok {
		return v
	}
	return l.Default
}

// Allows reports in plain words why the limit cannot be set to v, in its unit;
// nil when it can.
func (l Limit) Allows(v float64) error {
	if math.IsNaN(v) || v < 0 || v > l.Most {
		return fmt.Errorf("%q goes from 0 to %g %s", l.Title, l.Most, l.Unit)
	}
	return nil
}
