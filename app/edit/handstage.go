package edit

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
)

// Stages says whether a new correction belongs to the size it is made at: the
// printed sizes keep their line, and the sizes beyond go on from the corrected
// one. Corrections made before stay what they are.
func Stages(on bool) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Target.Stages = on
		return p, nil
	}
}

// stage is the size a new correction belongs to, none where it is to hold
// whatever the target, and by how much it must be written larger so that it
// shows in full at a target beside that size.
type stage struct {
	stage string
	times float64
}

// stageAt is the stage of a new correction of q: the chart size nearest to the
// target, where the pattern keeps stages and that size is not printed.
func stageAt(p model.Pattern, q model.Piece) stage {
	if !p.Target.Stages || len(p.Chart.Sizes) == 0 {
		return stage{"", 1}
	}
	i := min(max(int(math.Round(p.Target.Place)), 0), len(p.Chart.Sizes)-1)
	size := p.Chart.Sizes[i].Name
	if _, printed := q.Printed(size); printed {
		return stage{"", 1}
	}
	return stage{size, 1 / grading.StageShare(q, p.Chart, size, p.Target.Place)}
}

// StageAt is the size that a correction of piece q made now will belong to; ""
// where it holds at every size.
func StageAt(p model.Pattern, q model.Piece) string { return stageAt(p, q).stage }

// stagesOn is an error that names the first correction of p that belongs to a
// size chart c does not have.
func stagesOn(p model.Pattern, c model.SizeChart) error {
	for _, k := range Corrections(p) {
		if _, ok := c.Place(k.Stage); k.Stage != "" && !ok {
			return words.Errorf("the chart %s has no size %s; take this correction back first: %s", c.Name, k.Stage, k.What)
		}
	}
	return nil
}
