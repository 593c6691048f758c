package session

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// apron is an invented pattern: one piece, printed in 38 and 40.
func apron(t rapid.TB) model.Pattern {
	t.Helper()
	chart, ok := sizechart.ByID("en13402-women")
	if !ok {
		t.Fatalf("no chart")
	}
	q := model.Piece{ID: "q1", Name: "Apron"}
	for i, name := range []string{"top", "side", "hem", "centre"} {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprintf("p%d", i+1)})
		q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprintf("e%d", i+1), Name: name})
	}
	for i, size := range []string{"38", "40"} {
		w := 220 + 10*float64(i)
		a, b, c, d := geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, 400), geom.Pt(0, 400)
		q.Nest = append(q.Nest, model.Outline{Size: size, Edges: []geom.Path{geom.Polyline(a, b), geom.Polyline(b, c), geom.Polyline(c, d), geom.Polyline(d, a)}})
	}
	return model.Pattern{Name: "0", Chart: chart, Pieces: []model.Piece{q}, Target: model.Target{Place: 3}}
}

func open1(t rapid.TB) *Session {
	t.Helper()
	s, err := New(apron(t))
	if err != nil {
		t.Fatalf("opening: %v", err)
	}
	return s
}

func rename(name string) Edit {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Name = name
		return p, nil
	}
}

func retarget(place float64) Edit {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Target.Place = place
		return p, nil
	}
}

var errNo = errors.New("no")

func refuse(p model.Pattern) (model.Pattern, error) { return model.Pattern{}, errNo }

func nothing(p model.Pattern) (model.Pattern, error) { return p, ErrNoChange }

func must(t rapid.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatalf("%v", err)
	}
}

// counted is s with a count of what its listeners heard.
func counted(s *Session) *int {
	n := new(int)
	s.Listen(func() { *n++ })
	return n
}

func TestDoUndoRedo(t *testing.T) {
	s := open1(t)
	heard := counted(s)
	if s.UndoLabel() != "" || s.RedoLabel() != "" || len(s.History()) != 0 || s.Dirty() {
		t.Errorf("a new document has a past: %q %q %v", s.UndoLabel(), s.RedoLabel(), s.History())
	}
	must(t, s.Do("rename to A", rename("A")))
	must(t, s.Do("grade to 48", retarget(8)))
	if got := s.History(); !slices.Equal(got, []string{"rename to A", "grade to 48"}) || s.UndoLabel() != "grade to 48" || !s.Dirty() {
		t.Errorf("history %v, undo %q", got, s.UndoLabel())
	}
	if s.Result().Size != "48" {
		t.Errorf("the result is for size %q", s.Result().Size)
	}
	s.Undo()
	if s.UndoLabel() != "rename to A" || s.RedoLabel() != "grade to 48" || s.Pattern().Target.Place != 3 || s.Result().Size != "38" || s.Pattern().Name != "A" {
		t.Errorf("after undo: %q %q, size %s", s.UndoLabel(), s.RedoLabel(), s.Result().Size)
	}
	s.Undo()
	s.Undo() // beyond the start: nothing
	if s.Dirty() || s.Pattern().Name != "0" {
		t.Errorf("back at the start: dirty %v, name %s", s.Dirty(), s.Pattern().Name)
	}
	s.Redo()
	s.Redo()
	s.Redo() // beyond the end: nothing
	if s.Result().Size != "48" || s.RedoLabel() != "" {
		t.Errorf("after redo: size %s, redo %q", s.Result().Size, s.RedoLabel())
	}
	s.Undo()
	must(t, s.Do("rename to B", rename("B")))
	if s.RedoLabel() != "" || !slices.Equal(s.History(), []string{"rename to A", "rename to B"}) {
		t.Errorf("a new edit keeps an old future: %v, %q", s.History(), s.RedoLabel())
	}
	if *heard != 8 {
		t.Errorf("listeners heard %d times, want 8", *heard)
	}
}

func TestAnEditThatFailsChangesNothing(t *testing.T) {
	s := open1(t)
	must(t, s.Do("rename", rename("A")))
	s.Undo()
	before, heard := *s, counted(s)
	for say, e := range map[string]Edit{
		"refused":            refuse,
		"off the chart":      retarget(99),
		"breaks a rule":      retarget(math.NaN()),
		"nothing to do":      nothing,
		"nothing, by a wrap": func(p model.Pattern) (model.Pattern, error) { return p, fmt.Errorf("moving: %w", ErrNoChange) },
	} {
		want := say != "nothing to do" && say != "nothing, by a wrap"
		if err := s.Do(say, e); (err != nil) != want {
			t.Errorf("%s: Do gave %v", say, err)
		}
		if err := s.Preview(e); (err != nil) != want {
			t.Errorf("%s: Preview gave %v", say, err)
		}
		s.Commit(say)
	}
	if !reflect.DeepEqual(s.Pattern(), before.now.pattern) || s.RedoLabel() != "rename" || len(s.History()) != 0 || s.serial != before.serial {
		t.Error("a failed edit left a trace")
	}
	if *heard != 0 {
		t.Errorf("listeners heard %d times of nothing", *heard)
	}
}

func TestAGestureIsOneStep(t *testing.T) {
	s := open1(t)
	heard := counted(s)
	for _, place := range []float64{4, 5, 6} {
		must(t, s.Preview(retarget(place)))
	}
	if !s.Previewing() || s.Result().Size != "44" || s.Dirty() || len(s.History()) != 0 || *heard != 3 {
		t.Errorf("preview: size %s, dirty %v, history %v, heard %d", s.Result().Size, s.Dirty(), s.History(), *heard)
	}
	if err := s.Preview(refuse); !errors.Is(err, errNo) || s.Result().Size != "44" {
		t.Errorf("a preview that fails: %v, size %s", err, s.Result().Size)
	}
	s.Commit("grade to 44")
	if s.Previewing() || !slices.Equal(s.History(), []string{"grade to 44"}) || *heard != 4 {
		t.Errorf("commit: history %v, heard %d", s.History(), *heard)
	}
	s.Commit("again")
	s.Cancel()
	if len(s.History()) != 1 || *heard != 4 {
		t.Errorf("without a gesture: history %v, heard %d", s.History(), *heard)
	}
	must(t, s.Preview(retarget(9)))
	s.Cancel()
	if s.Previewing() || s.Result().Size != "44" || *heard != 6 {
		t.Errorf("cancel: size %s, heard %d", s.Result().Size, *heard)
	}
	must(t, s.Preview(retarget(9)))
	must(t, s.Preview(nothing)) // back where it started
	if s.Previewing() || *heard != 8 {
		t.Errorf("a gesture back to its start: heard %d", *heard)
	}
	must(t, s.Preview(retarget(9)))
	s.Undo() // drops the gesture, not the step
	if s.Previewing() || len(s.History()) != 1 {
		t.Errorf("undo in a gesture: history %v", s.History())
	}
	must(t, s.Preview(retarget(9)))
	s.Redo() // does nothing
	if !s.Previewing() {
		t.Error("redo in a gesture ended it")
	}
	must(t, s.Do("rename", rename("A")))
	if s.Previewing() || s.Pattern().Target.Place != 6 || s.Pattern().Name != "A" {
		t.Errorf("an edit in a gesture kept it: place %v", s.Pattern().Target.Place)
	}
	must(t, s.Preview(retarget(9)))
	heardBefore := *heard
	if err := s.Do("refused", refuse); !errors.Is(err, errNo) || s.Previewing() || *heard != heardBefore+1 {
		t.Errorf("a refused edit in a gesture: %v, heard %d more", err, *heard-heardBefore)
	}
}

func TestHistoryHasAnEnd(t *testing.T) {
	s := open1(t)
	for i := range maxSteps + 20 {
		must(t, s.Do(strconv.Itoa(i+1), rename(strconv.Itoa(i+1))))
	}
	got := s.History()
	if len(got) != maxSteps || got[0] != "21" || got[maxSteps-1] != "520" {
		t.Errorf("%d steps, from %s to %s", len(got), got[0], got[len(got)-1])
	}
	for range maxSteps + 20 {
		s.Undo()
	}
	if s.Pattern().Name != "20" {
		t.Errorf("undone as far as %s, want 20", s.Pattern().Name)
	}
}

func TestEmptyDocument(t *testing.T) {
	s, err := New(model.Pattern{})
	must(t, err)
	if !reflect.DeepEqual(s.Result(), grading.Result{}) {
		t.Errorf("result %+v", s.Result())
	}
	p := apron(t)
	must(t, s.Do("bring in", func(model.Pattern) (model.Pattern, error) { return p, nil }))
	if s.Result().Size != "38" {
		t.Errorf("size %q after bringing in", s.Result().Size)
	}
	if _, err := New(model.Pattern{Pieces: p.Pieces}); err == nil {
		t.Error("pieces without a chart were opened")
	}
}

// Whatever is done, undone, redone and previewed, the document is the one a
// plain list of names says it is.
func TestHistoryAgainstAList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := open1(t)
		list, at, previewing := []string{"0"}, 0, ""
		fresh := 0
		t.Repeat(map[string]func(*rapid.T){
			"do": func(t *rapid.T) {
				fresh++
				name := strconv.Itoa(fresh)
				must(t, s.Do(name, rename(name)))
				list, previewing = append(slices.Clone(list[:at+1]), name), ""
				at++
			},
			"preview": func(t *rapid.T) {
				fresh++
				previewing = strconv.Itoa(fresh)
				must(t, s.Preview(rename(previewing)))
			},
			"commit": func(*rapid.T) {
				s.Commit(previewing)
				if previewing != "" {
					list = append(slices.Clone(list[:at+1]), previewing)
					at, previewing = at+1, ""
				}
			},
			"cancel": func(*rapid.T) {
				s.Cancel()
				previewing = ""
			},
			"undo": func(*rapid.T) {
				s.Undo()
				if previewing == "" && at > 0 {
					at--
				}
				previewing = ""
			},
			"redo": func(*rapid.T) {
				s.Redo()
				if previewing == "" && at < len(list)-1 {
					at++
				}
			},
			"": func(t *rapid.T) {
				want := list[at]
				if previewing != "" {
					want = previewing
				}
				if got := s.Pattern().Name; got != want {
					t.Fatalf("the document is %s, want %s", got, want)
				}
				if got := s.History(); !slices.Equal(got, list[1:at+1]) {
					t.Fatalf("history %v, want %v", got, list[1:at+1])
				}
				if s.Dirty() != (at != 0) {
					t.Fatalf("dirty %v at step %d", s.Dirty(), at)
				}
			},
		})
	})
}
