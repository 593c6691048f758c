package crew

import (
	"errors"
	"strings"
	"sync/atomic"
	"testing"
)

func TestTry(t *testing.T) {
	plain := errors.New("plain")
	if err := Try(func() error { return plain }); err != plain {
		t.Errorf("an error became %v", err)
	}
	if err := Try(func() error { return nil }); err != nil {
		t.Errorf("nothing became %v", err)
	}
	var none []int
	err := Try(func() error { return errors.New(strings.Repeat("x", none[3])) })
	var s *Slip
	if !errors.As(err, &s) || strings.Contains(err.Error(), "index") || !strings.Contains(s.Detail(), "index out of range") || !strings.Contains(s.Detail(), "TestTry") {
		t.Errorf("a slip became %v", err)
	}
}

func TestGroup(t *testing.T) {
	var done atomic.Int32
	var g Group
	for range 10 {
		g.Go(func() { done.Add(1) })
	}
	g.Wait()
	if done.Load() != 10 {
		t.Errorf("%d of 10 parts were done", done.Load())
	}
}

func slipping() { panic("here") }

func TestASlipInAPartComesOutOfWait(t *testing.T) {
	var done atomic.Int32
	err := Try(func() error {
		var outer Group
		outer.Go(func() {
			var g Group
			g.Go(slipping)
			g.Go(func() { done.Add(1) })
			g.Wait()
			done.Add(100)
		})
		outer.Wait()
		return nil
	})
	var s *Slip
	if !errors.As(err, &s) || s.What != "here" || !strings.Contains(s.Where, "slipping") {
		t.Errorf("it came out as %v", err)
	}
	if done.Load() != 1 {
		t.Errorf("done: %d", done.Load())
	}
}
