package check

import (
	"fmt"
	"math"
	"strings"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
)

// easeDiffers is by how many mm of whole girth the ease may differ from what
// the printed sizes carry on to: 10 mm, less than half the smallest step of a
// size chart. Common practice.
const easeDiffers = 10.0

// ease finds girths at which the size wanted has lost or gained ease against
// the printed sizes.
func ease(tape *girth.Tape, p model.Pattern, r grading.Result) []Finding {
	rows, _, err := tape.Table(p, r)
	if err != nil {
		return nil // no result of this pattern: the other checks speak of that
	}
	var out []Finding
	for _, row := range rows {
		lost := row.Lost()
		if math.Abs(lost) <= easeDiffers {
			continue
		}
		out = append(out, Finding{
			Code: "ease", Measure: row.Measure, By: lost, Look: true,
			Say:  fmt.Sprintf("%s is %s %s than the printed sizes are.", capital(string(row.Measure)), show(math.Abs(lost), p), tighter(lost)),
			Help: easeHelp(p.Target),
		})
	}
	return out
}

func tighter(lost float64) string {
	if lost > 0 {
		return "tighter"
	}
	return "wider"
}

func easeHelp(t model.Target) string {
	if t.Method == model.BySteps {
		return "Grade by chart."
	}
	return "Look at what the side seams follow there, and at corrections by eye."
}

func capital(s string) string {
	return strings.ToUpper(s[:1]) + s[1:]
}
