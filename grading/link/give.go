package link

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
)

const (
	// solvedTol is within how many mm a seam that gives way meets its ease.
	solvedTol = 0.002
	tries     = 14
	rounds    = 12
)

var errTogether = words.Fault("cannot be kept together with another seam of the piece")

// Seam is a sewn link whose follower may give way.
type Seam struct {
	Print *seam.Print
	// Lead is how long the leader's side is sewn, mm, less any of its stretches
	// that lie on the follower itself, which are Own.
	Lead float64
	Own  []model.Stretch
	Aim  float64 // the ease it is to have
}

// Gave is how a follower gave way for one of its seams.
type Gave struct {
	By  float64 // mm; 0 where it fits as it is
	Why error   // why it could not; nil where the seam is solved
}

// Piece is a follower that gives way for its seams, one after the other and
// again until all fit.
type Piece struct {
	Piece  model.Piece
	Edges  []geom.Path
	Shared []bool // edges that follow another piece's line, and stay; may be nil
	marks  []geom.Affine
}

// Give makes every one of the piece's seams fit to 0.01 mm, or leaves the piece
// as it was for those it cannot, with the reason. It reports for each seam what
// was done.
func (f *Piece) Give(seams []Seam) []Gave {
	out := f.try(seams)
	for i := range out {
		if out[i].Why == nil || len(seams) == 1 {
			continue
		}
		// Without the one that cannot be kept the others may.
		rest := append(append([]Seam(nil), seams[:i]...), seams[i+1:]...)
		gave := f.Give(rest)
		return append(append(append([]Gave(nil), gave[:i]...), Gave{Why: out[i].Why}), gave[i:]...)
	}
	return out
}

// try is Give for all seams or none.
func (f *Piece) try(seams []Seam) []Gave {
	out := make([]Gave, len(seams))
	before, marks := f.Edges, f.marks
	undo := func() []Gave {
		f.Edges, f.marks = before, marks
		for i := range out {
			out[i].By = 0
		}
		return out
	}
	for range rounds {
		fits := true
		for i, s := range seams {
			off, err := f.off(s, f.Edges)
			if err == nil && math.Abs(off) <= solvedTol {
				continue
			}
			fits = false
			if err == nil {
				var k float64
				if k, err = f.give(s); err == nil {
					out[i].By += k
				}
			}
			if err != nil {
				out[i].Why = err
				return undo()
			}
		}
		if fits {
			return out
		}
		if len(seams) == 1 {
			return out
		}
	}
	for i := range out {
		out[i].Why = errTogether
	}
	return undo()
}

// off is how much more ease a seam has than it should, mm.
func (f *Piece) off(s Seam, edges []geom.Path) (float64, error) {
	tape := seam.NewTape(f.Piece, edges)
	long, err := tape.Stretch(f.Piece, s.Print.Link.Follow)
	if err != nil {
		return 0, err
	}
	lead := s.Lead
	for _, own := range s.Own {
		l, err := tape.Stretch(f.Piece, own)
		if err != nil {
			return 0, err
		}
		lead += l
	}
	return long - lead - s.Aim, nil
}

// give makes one seam fit: the secant method, from a first step of as much as
// the seam is off.
func (f *Piece) give(s Seam) (float64, error) {
	l := s.Print.Link
	w, err := WayOf(l.Refit, f.Piece, f.Edges, l.Follow, f.Shared)
	if err != nil {
		return 0, err
	}
	k, edges, err := f.solve(s, w)
	if err != nil {
		return 0, err
	}
	f.Edges = edges
	if w.Marks != nil {
		f.marks = append(f.marks[:len(f.marks):len(f.marks)], w.Marks(k))
	}
	return k, nil
}

// solve finds how far to go.
func (f *Piece) solve(s Seam, w Way) (float64, []geom.Path, error) {
	k0 := 0.0
	off0, err := f.off(s, f.Edges)
	if err != nil {
		return 0, nil, err
	}
	k1 := math.Copysign(min(max(math.Abs(off0), 0.1), w.Most/2), -off0)
	for range tries {
		edges := w.Apply(k1)
		off1, err := f.off(s, edges)
		if err != nil {
			return 0, nil, err
		}
		if math.Abs(off1) <= solvedTol {
			return k1, edges, nil
		}
		if off1 == off0 || k1 == k0 {
			break
		}
		next := k1 - off1*(k1-k0)/(off1-off0)
		k0, off0, k1 = k1, off1, next
		if !(math.Abs(k1) <= w.Most) {
			return 0, nil, words.Errorf("would have to give way by more than %.0f mm", w.Most)
		}
	}
	return 0, nil, words.Error("cannot be made to fit that way")
}

// Mark is where a place drawn on the piece goes with it.
func (f *Piece) Mark(p geom.Path) geom.Path {
	for _, m := range f.marks {
		p = p.Transform(m)
	}
	return p
}
