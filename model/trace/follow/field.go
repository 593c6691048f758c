package follow

import (
	"context"
	"sync"

	"quarterstep/assets/words"
)

// Field is a sheet made ready for following: its printed lines as dashes, and
// which may go on in which. It may be used from several goroutines.
type Field struct {
	web *web
	ink inkMap

	mu   sync.Mutex
	kept []*tree
}

// Prepare finds the printed lines of a sheet. It takes about a second for
// twelve million pixels and is meant for the background: progress, which may
// be nil, is told the share done from 0 to 1, and ctx ends it early with the
// context's error.
func Prepare(ctx context.Context, s Sheet, progress func(float64)) (*Field, error) {
	if err := s.check(); err != nil {
		return nil, words.Errorf("looking for printed lines: %w", err)
	}
	if progress == nil {
		progress = func(float64) {}
	}
	for s.PerMM > finestPerMM {
		s = s.halved()
	}
	pts, err := ridges(ctx, s, func(share float64) { progress(0.8 * share) })
	if err != nil {
		return nil, words.Errorf("looking for printed lines: %w", err)
	}
	runs := chains(pts, s.Gray.Rect.Dx(), s.Gray.Rect.Dy())
	progress(0.9)
	if err := ctx.Err(); err != nil {
		return nil, words.Errorf("looking for printed lines: %w", err)
	}
	f := newField(dashes(runs))
	progress(1)
	return f, nil
}

// newField makes dashes ready for following.
func newField(ds []dash) *Field {
	w := newWeb(ds)
	w.crowd = crowdOf(w, newInkMap(ds, w.dotDirections)) // a dotted line beside, not one across
	return &Field{web: w, ink: newInkMap(ds, anyDirection)}
}
