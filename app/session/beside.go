package session

import (
	"context"
	"errors"
	"slices"
	"time"

	"quarterstep/grading"
	"quarterstep/model"
)

// slow is how long working the document out may keep the session's goroutine. What
// took longer the last time is done beside it the next time.
var slow = 80 * time.Millisecond

// mostRead is how many printed edges are read anew on the session's goroutine; a
// piece of a dozen edges in ten sizes has 120.
var mostRead = 360

// Aside is how a session has work done beside its goroutine.
type Aside struct {
	// Run does work on another goroutine and then has done called on the session's.
	Run func(work, done func())
	// Failed says why an edit that was done beside could not be; Do and Preview had
	// returned by then.
	Failed func(error)
	// Turned is called when Busy has changed.
	Turned func()
}

// Beside has edits whose working out takes long done beside the session's
// goroutine, in the order in which they came. Do and Preview then return at once
// without an error; until it is done Pattern and Result are those of before,
// together as ever, and Undo takes back what is under way, which then stops. Grader must not be used
// while the session is Busy, but by an edit.
func (s *Session) Beside(a Aside) { s.aside = &a }

// task is an edit that waits to be worked out, or is under way.
type task struct {
	label   string
	edit    Edit
	preview bool
	again   bool               // the document is worked out anew
	forget  bool               // with nothing remembered
	dropped bool               // under way, and not wanted any more
	stop    context.CancelFunc // working it out, once under way
	ended   bool
	err     error // once ended
}

// Busy reports that an edit is under way beside the session's goroutine.
func (s *Session) Busy() bool { return s.under != nil }

// pending reports that edits are on their way into the document.
func (s *Session) pending() bool {
	for _, t := range s.tasks() {
		if !t.preview && !t.again {
			return true
		}
	}
	return false
}

// tasks are those that are wanted, oldest first.
func (s *Session) tasks() []*task {
	if s.under == nil || s.under.dropped {
		return s.queue
	}
	return append([]*task{s.under}, s.queue...)
}

// After does f once no edit is on its way into the document.
func (s *Session) After(f func()) {
	if s.pending() {
		s.after = append(s.after, f)
		return
	}
	f()
}

// waits reports that an edit made now has to be done beside.
func (s *Session) waits() bool { return s.under != nil || s.aside != nil && s.took > slow }

// reads reports that working p out takes long, for it has nests that were not read.
func (s *Session) reads(p model.Pattern) bool {
	return s.aside != nil && s.grader.Unread(p) > mostRead
}

// put has t done after all that was put before; the latest of previews that wait is
// the one that counts. Where t is done by the time put returns, its error is returned.
func (s *Session) put(t *task) error {
	if last := len(s.queue) - 1; last >= 0 && t.preview && s.queue[last].preview {
		s.queue[last] = t
	} else {
		s.queue = append(s.queue, t)
	}
	s.next()
	if t.ended {
		return t.err
	}
	return nil
}

// next begins what waits longest.
func (s *Session) next() {
	if s.under != nil {
		return
	}
	if len(s.queue) == 0 {
		for len(s.after) > 0 && !s.pending() {
			f := s.after[0]
			s.after = s.after[1:]
			f()
		}
		return
	}
	t := s.queue[0]
	s.queue = s.queue[1:]
	s.under = t
	var ctx context.Context
	ctx, t.stop = context.WithCancel(context.Background())
	s.aside.Turned()
	from, serial := s.now.pattern, s.now.serial
	var got state
	returned := false
	s.aside.Run(func() {
		if t.forget {
			s.grader = grading.Grader{}
		}
		if t.again {
			t.edit = same(from)
		}
		got, t.err = s.try(ctx, from, t.edit)
	}, func() {
		t.stop()
		s.under, t.ended = nil, true
		if t.again && s.now.serial != serial {
			t.drop() // she went to another state meanwhile
		}
		s.take(t, got)
		if t.err != nil && !errors.Is(t.err, ErrNoChange) && returned && !t.dropped {
			s.aside.Failed(t.err)
		}
		s.aside.Turned()
		if t.dropped {
			s.remember() // what was read for it stands in the place of the document's own
		}
		s.next()
	})
	returned = true
}

// remember has the nests of the document read again beside, where history went to
// one that takes long: whoever uses Grader would wait for it.
func (s *Session) remember() {
	if s.reads(s.now.pattern) {
		s.put(&task{again: true})
	}
}

// take makes what came of t the document, or what is shown.
func (s *Session) take(t *task, got state) {
	none := errors.Is(t.err, ErrNoChange)
	switch {
	case t.dropped:
	case t.again && t.err != nil:
	case t.again:
		s.now.result = got.result
		s.tell()
	case t.err != nil:
		if shown := s.shown != nil; shown && (none || !t.preview) {
			s.shown = nil
			s.tell()
		}
		if none {
			t.err = nil
		}
	case t.preview:
		s.shown = &got
		s.tell()
	default:
		s.shown = nil
		s.keep(got, t.label)
	}
}

// commitPending makes the preview that is on its way an edit; false where none is.
func (s *Session) commitPending(label string) bool {
	all := s.tasks()
	if len(all) == 0 || !all[len(all)-1].preview {
		return false
	}
	t := all[len(all)-1]
	if len(all) > 1 && all[0].preview {
		all[0].drop()
	}
	t.preview, t.label = false, label
	return true
}

// dropPreviews lets go of previews that are on their way.
func (s *Session) dropPreviews() {
	if all := s.tasks(); len(all) > 0 && all[len(all)-1].preview {
		s.dropLast()
	}
	if s.under != nil && s.under.preview {
		s.under.drop()
	}
}

// dropLast takes back the latest of what is on its way; false where nothing is.
func (s *Session) dropLast() bool {
	for i := len(s.queue) - 1; i >= 0; i-- {
		if !s.queue[i].again {
			s.queue = slices.Delete(s.queue, i, i+1)
			return true
		}
	}
	if s.under == nil || s.under.dropped || s.under.again {
		return false
	}
	s.under.drop()
	return true
}

// drop has t count no more, and what works it out stop.
func (t *task) drop() {
	t.dropped = true
	if t.stop != nil {
		t.stop()
	}
}

// Leave stops what is being worked out beside the session's goroutine, for a document
// that is put away. Nothing is done with it after that.
func (s *Session) Leave() {
	s.queue, s.after = nil, nil
	if s.under != nil {
		s.under.drop()
	}
}

// same is an edit that makes p of whatever there is.
func same(p model.Pattern) Edit {
	return func(model.Pattern) (model.Pattern, error) { return p, nil }
}

// Grader works out patterns other than the document with what was read of the
// document's nests, so that none is read twice. It belongs to the goroutine of
// the session, and to an edit while the session is Busy.
func (s *Session) Grader() *grading.Grader { return &s.grader }
