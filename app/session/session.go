package session

import (
	"context"
	"errors"
	"slices"
	"time"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/crew"
)

// maxSteps is how many steps of history are kept.
const maxSteps = 500

// ErrNoChange is what an Edit returns to say there is nothing to do: no step
// is added and no listener called.
var ErrNoChange = words.Fault("nothing to change")

// Edit is a change of the document. It must not write into what it is given.
type Edit func(model.Pattern) (model.Pattern, error)

// Session is the open document; make one with New or Open.
type Session struct {
	grader    grading.Grader
	past      []state
	now       state
	future    []state
	shown     *state // a gesture under way, not in the history
	serial    int    // of the latest state made
	saved     int    // serial that closing would not lose; -1 none
	before    int    // steps of recovered work that came before this history
	stamp     stamp  // of the file at path when it was read or written
	path      string
	pictures  map[string][]byte
	listeners []func()

	aside *Aside
	took  time.Duration // what working out took last, of nests that were read
	under *task         // done beside, until it comes back
	queue []*task
	after []func()
}

// state is one version of the document; label names the edit that made it.
type state struct {
	pattern model.Pattern
	result  grading.Result
	label   string
	serial  int
}

// New opens p as a document that has no file yet. It fails when p breaks a
// rule of Pattern.Validate or cannot be graded.
func New(p model.Pattern) (*Session, error) { return NewUntil(context.Background(), p) }

// NewUntil is New until ctx ends, whose error it then returns, as soon as the work
// allows.
func NewUntil(ctx context.Context, p model.Pattern) (*Session, error) {
	s := &Session{}
	next, err := s.try(ctx, p, same(p))
	if err != nil {
		return nil, words.Errorf("opening the pattern: %w", err)
	}
	s.now = next
	return s, nil
}

// grade looks whether p can be a document and works it out. An empty document,
// which has no chart yet, has an empty result.
func (s *Session) grade(ctx context.Context, p model.Pattern) (grading.Result, error) {
	if err := p.Validate(); err != nil {
		return grading.Result{}, err
	}
	if len(p.Chart.Sizes) == 0 {
		return grading.Result{}, nil
	}
	return s.grader.GradeUntil(ctx, p)
}

func (s *Session) current() state {
	if s.shown != nil {
		return *s.shown
	}
	return s.now
}

// Previewing reports whether a gesture is under way.
func (s *Session) Previewing() bool { return s.shown != nil }

// Pattern is the document as shown: the preview of a gesture while one is
// under way.
func (s *Session) Pattern() model.Pattern { return s.current().pattern }

// Result is the graded pattern as shown.
func (s *Session) Result() grading.Result { return s.current().result }

// Do makes one edit and one step of history, labelled as it reads after
// "Undo". It ends a gesture under way without keeping it. What takes long may be
// done beside, see Beside.
func (s *Session) Do(label string, e Edit) error {
	if s.waits() {
		s.dropPreviews()
		return s.put(&task{label: label, edit: e})
	}
	hadPreview := s.shown != nil
	p, err := s.edited(s.now.pattern, e)
	if err == nil && s.reads(p) {
		return s.put(&task{label: label, edit: same(p)})
	}
	s.shown = nil
	next := state{}
	if err == nil {
		next, err = s.try(context.Background(), p, same(p))
	}
	if err != nil {
		if hadPreview {
			s.tell()
		}
		if errors.Is(err, ErrNoChange) {
			return nil
		}
		return err
	}
	s.keep(next, label)
	return nil
}

// Preview shows an edit of the committed document without keeping it; the
// latest preview replaces the one before. On an error the one before stays. What
// takes long may be done beside, see Beside.
func (s *Session) Preview(e Edit) error {
	if s.waits() {
		return s.put(&task{edit: e, preview: true})
	}
	p, err := s.edited(s.now.pattern, e)
	if err == nil && s.reads(p) {
		return s.put(&task{edit: same(p), preview: true})
	}
	next := state{}
	if err == nil {
		next, err = s.try(context.Background(), p, same(p))
	}
	if errors.Is(err, ErrNoChange) {
		s.Cancel()
		return nil
	}
	if err != nil {
		return err
	}
	s.shown = &next
	s.tell()
	return nil
}

// Commit keeps the preview as one step of history. Without a preview it does
// nothing.
func (s *Session) Commit(label string) {
	if s.commitPending(label) || s.shown == nil {
		return
	}
	next := *s.shown
	s.shown = nil
	s.keep(next, label)
}

// Cancel drops the preview.
func (s *Session) Cancel() {
	s.dropPreviews()
	if s.shown == nil {
		return
	}
	s.shown = nil
	s.tell()
}

// edited is the pattern that an edit makes of another.
func (s *Session) edited(from model.Pattern, e Edit) (p model.Pattern, err error) {
	err = s.caught(func() (err error) {
		p, err = e(from)
		return err
	})
	return p, err
}

// try makes a state of an edit of a pattern. A fault of the program on the way leaves the
// document as it was, as any other error does.
func (s *Session) try(ctx context.Context, from model.Pattern, e Edit) (next state, err error) {
	p, err := s.edited(from, e)
	if err != nil {
		return state{}, err
	}
	if began := time.Now(); s.grader.Unread(p) == 0 {
		defer func() {
			if ctx.Err() == nil { // else it was not worked out to its end
				s.took = time.Since(began)
			}
		}()
	}
	err = s.caught(func() (err error) {
		next.pattern = p
		next.result, err = s.grade(ctx, p)
		return err
	})
	if err != nil {
		return state{}, err
	}
	return next, nil
}

// caught does work in which a fault of the program becomes an error.
func (s *Session) caught(work func() error) error {
	err := crew.Try(work)
	var slip *crew.Slip
	if errors.As(err, &slip) {
		s.grader = grading.Grader{} // what it remembers may be half done
	}
	return err
}

func (s *Session) keep(next state, label string) {
	s.past = append(s.past, s.now)
	if len(s.past) > maxSteps {
		s.past = append([]state{}, s.past[len(s.past)-maxSteps:]...)
	}
	s.serial++
	next.label, next.serial = label, s.serial
	s.now, s.future = next, nil
	s.tell()
}

// Again works the document out anew, as it stands: what the result says is said
// in the language in use. It is no step of history; a gesture under way is
// dropped.
func (s *Session) Again() {
	s.dropPreviews()
	s.shown = nil
	if s.aside != nil && (s.Busy() || s.grader.Count() > mostRead || s.took > slow) {
		s.put(&task{again: true, forget: true})
		return
	}
	s.grader = grading.Grader{}
	if next, err := s.try(context.Background(), s.now.pattern, same(s.now.pattern)); err == nil {
		s.now.result = next.result
	}
	s.tell()
}

// Undo goes one step back; a gesture under way is dropped instead, and so is the
// latest edit that is still on its way.
func (s *Session) Undo() {
	if s.dropLast() {
		s.shown = nil
		s.tell()
		return
	}
	if s.shown != nil {
		s.Cancel()
		return
	}
	if len(s.past) == 0 {
		return
	}
	s.future = append(s.future, s.now)
	s.now = s.past[len(s.past)-1]
	s.past = s.past[:len(s.past)-1]
	s.remember()
	s.tell()
}

// Redo takes the latest Undo back.
func (s *Session) Redo() {
	if s.shown != nil || s.pending() || len(s.future) == 0 {
		return
	}
	s.past = append(s.past, s.now)
	s.now = s.future[len(s.future)-1]
	s.future = s.future[:len(s.future)-1]
	s.remember()
	s.tell()
}

// UndoLabel names what Undo would take back; empty when there is nothing.
func (s *Session) UndoLabel() string {
	for _, t := range slices.Backward(s.tasks()) {
		if !t.preview && !t.again {
			return t.label
		}
	}
	if len(s.past) == 0 {
		return ""
	}
	return s.now.label
}

// RedoLabel names what Redo would do again; empty when there is nothing.
func (s *Session) RedoLabel() string {
	if len(s.future) == 0 || s.pending() {
		return ""
	}
	return s.future[len(s.future)-1].label
}

// History names the steps Undo can take back, oldest first.
func (s *Session) History() []string {
	var out []string
	for _, st := range append(slices.Clone(s.past), s.now)[1:] {
		out = append(out, st.label)
	}
	return out
}

// Listen has f called after every change of what is shown or of the saved
// state.
func (s *Session) Listen(f func()) { s.listeners = append(s.listeners, f) }

func (s *Session) tell() {
	for _, f := range s.listeners {
		f()
	}
}
