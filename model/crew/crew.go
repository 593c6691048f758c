package crew

import (
	"fmt"
	"runtime/debug"
	"sync"

	"quarterstep/assets/words"
)

// Slip is a panic caught: a fault of the program, not of what it was given.
type Slip struct {
	What  any    // as given to panic
	Where string // the calls that led to it
}

// Error is for the sewist.
func (s *Slip) Error() string {
	return words.T("this could not be done for a fault of Quarterstep itself; nothing of yours was changed: save your work, then try another way")
}

// Detail is for whoever mends it.
func (s *Slip) Detail() string { return fmt.Sprintf("%v\n%s", s.What, s.Where) }

// Try does work; a panic in it is returned as a Slip.
func Try(work func() error) (err error) {
	defer func() {
		if what := recover(); what != nil {
			err = slip(what)
		}
	}()
	return work()
}

// slip keeps where a panic began, however many goroutines it came through.
func slip(what any) *Slip {
	if s, ok := what.(*Slip); ok {
		return s
	}
	return &Slip{what, string(debug.Stack())}
}

// Group is parts of a work, each on a goroutine of its own. The zero Group is
// ready.
type Group struct {
	parts sync.WaitGroup
	once  sync.Once
	slip  *Slip
}

// Go begins a part.
func (g *Group) Go(part func()) {
	g.parts.Go(func() {
		defer func() {
			if what := recover(); what != nil {
				g.once.Do(func() { g.slip = slip(what) })
			}
		}()
		part()
	})
}

// Wait waits for all parts. Where one of them had a panic, so has Wait, with a
// *Slip.
func (g *Group) Wait() {
	g.parts.Wait()
	if g.slip != nil {
		panic(g.slip)
	}
}
