package app

import (
	"context"
	"io"

	"quarterstep/model"
	"quarterstep/model/exchange"
)

// Watch follows a drawing being brought in from beside: the context ends it, with
// the context's error, and Progress, which may be nil and is called from several
// goroutines, hears how far it is, 0 to 1. The zero Watch lets it be.
type Watch struct {
	Context  context.Context
	Progress func(float64)
}

// BringInOneSize is the function of that name, watched.
func (w Watch) BringInOneSize(path string, chart model.SizeChart, size string) (Brought, error) {
	return bringIn(w, path, chart, func(r io.Reader, c model.SizeChart) (exchange.Sheet, error) {
		return exchange.ReadOneSize(r, c, size)
	})
}

func (w Watch) ctx() context.Context {
	if w.Context == nil {
		return context.Background()
	}
	return w.Context
}

func (w Watch) err() error { return w.ctx().Err() }

// each is asked before each of so many parts of a work.
func (w Watch) each(done, of int) error {
	if w.Progress != nil && of > 0 {
		w.Progress(float64(done) / float64(of))
	}
	return w.err()
}

// part watches the i-th of n works that are done one after another.
func (w Watch) part(i, n int) Watch {
	whole := w.Progress
	if whole != nil {
		w.Progress = func(share float64) { whole((float64(i) + share) / float64(n)) }
	}
	return w
}

// reader is r until the context ends.
func (w Watch) reader(r io.Reader) io.Reader { return watched{w, r} }

type watched struct {
	Watch
	r io.Reader
}

func (w watched) Read(p []byte) (int, error) {
	if err := w.err(); err != nil {
		return 0, err
	}
	return w.r.Read(p)
}
