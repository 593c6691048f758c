package session_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/store"
)

// sequences is the variable that says how many random sequences are tried; a
// few unless told.
const sequences = "QUARTERSTEP_SEQUENCES"

// bytesOf is the document as its file would hold it.
func bytesOf(t *testing.T, s *session.Session) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := store.Write(&b, store.File{Pattern: s.Pattern()}); err != nil {
		t.Fatalf("writing: %v", err)
	}
	return b.Bytes()
}

// TestRandomSequences does edits of every kind, gestures, undo and redo in any
// order: undone to the start the document is the one it began as, redone to the
// end the one it became, to the last bit; nothing fails but edits, by an error.
func TestRandomSequences(t *testing.T) {
	n := 30
	if told, err := strconv.Atoi(os.Getenv(sequences)); err == nil {
		n = told
	}
	var starts []*session.Session
	for _, demo := range []func() (model.Pattern, error){app.DemoBlouse, app.DemoWaistcoat} {
		p, err := demo()
		if err != nil {
			t.Fatal(err)
		}
		s, err := session.New(p)
		if err != nil {
			t.Fatal(err)
		}
		starts = append(starts, s)
	}
	done := 0
	for seed := range n {
		start := starts[seed%len(starts)]
		s, err := session.New(start.Pattern())
		if err != nil {
			t.Fatal(err)
		}
		done += tryAtRandom(t, s, uint64(seed))
	}
	if done < 2*n {
		t.Errorf("only %d edits in %d sequences were possible", done, n)
	}
	t.Logf("%d sequences, %d edits", n, done)
}

// tryAtRandom is one sequence; it counts the edits that were possible.
func tryAtRandom(t *testing.T, s *session.Session, seed uint64) int {
	t.Helper()
	first := bytesOf(t, s)
	r := rand.New(rand.NewPCG(seed, 7))
	done := 0
	var labels []string
	defer func() {
		if fault := recover(); fault != nil {
			t.Fatalf("sequence %d, after %v: %v", seed, labels, fault)
		}
	}()
	for range 4 + r.IntN(12) {
		label, e := randomEdit(r, s)
		labels = append(labels, label)
		switch r.IntN(10) {
		case 0:
			s.Undo()
		case 1:
			s.Redo()
		case 2:
			_ = s.Preview(e) // it may be impossible, and then nothing happens
			s.Cancel()
		case 3, 4:
			if s.Preview(e) == nil {
				s.Commit(label)
				done++
			}
		default:
			if s.Do(label, e) == nil {
				done++
			}
		}
	}
	last := bytesOf(t, s)
	for s.RedoLabel() != "" { // what an undo left
		s.Redo()
	}
	end := bytesOf(t, s)
	for s.UndoLabel() != "" {
		s.Undo()
	}
	if !bytes.Equal(bytesOf(t, s), first) {
		t.Fatalf("sequence %d: undone, it is not what it was; edits %v", seed, labels)
	}
	back := false
	for s.RedoLabel() != "" {
		back = back || bytes.Equal(bytesOf(t, s), last)
		s.Redo()
	}
	if now := bytesOf(t, s); !bytes.Equal(now, end) || !back && !bytes.Equal(now, last) {
		t.Fatalf("sequence %d: redone, it is not what it became; edits %v", seed, labels)
	}
	return done
}

// randomEdit is one of every kind of edit, somewhere on the document.
func randomEdit(r *rand.Rand, s *session.Session) (string, session.Edit) {
	p, res := s.Pattern(), s.Result()
	q := p.Pieces[r.IntN(len(p.Pieces))]
	i := p.PieceIndex(q.ID)
	k := r.IntN(len(q.Points))
	point, edge, next := q.Points[k].ID, q.Edges[k].ID, q.Points[(k+1)%len(q.Points)].ID
	by := geom.Vec{X: r.NormFloat64() * 8, Y: r.NormFloat64() * 8}
	size := p.Chart.Sizes[r.IntN(len(p.Chart.Sizes))].Name
	printed := q.Nest[r.IntN(len(q.Nest))]
	on := r.IntN(2) == 0
	shape := printed.Edges[k]
	middle := shape[len(shape)/2].P0
	kinds := []func() (string, session.Edit){
		func() (string, session.Edit) { return "move a point", edit.MovePoint(q.ID, point, by) },
		func() (string, session.Edit) {
			return "bend an edge", edit.MoveControl(q.ID, edge, r.IntN(6), by)
		},
		func() (string, session.Edit) { return "move an edge", edit.MoveEdge(q.ID, edge, by) },
		func() (string, session.Edit) { return "move an edge out", edit.ShiftEdge(q.ID, edge, by.X) },
		func() (string, session.Edit) { return "lock a point", edit.LockPoint(q.ID, point, on) },
		func() (string, session.Edit) { return "smooth through", edit.SmoothThrough(q.ID, point) },
		func() (string, session.Edit) {
			return "keep a curve", edit.KeepCurve(q.ID, edge, model.StraightCurve, "")
		},
		func() (string, session.Edit) {
			return "keep a printed curve", edit.KeepCurve(q.ID, edge, model.NearestCurve, printed.Size)
		},
		func() (string, session.Edit) { return "let the trend have it", edit.TrendCurve(q.ID, edge) },
		func() (string, session.Edit) { return "straighten", edit.Straighten(q.ID, point, next, res) },
		func() (string, session.Edit) { return "take all back", edit.TakeBackAll(q.ID) },
		func() (string, session.Edit) {
			return "choose a size", edit.Place(float64(r.IntN(len(p.Chart.Sizes))))
		},
		func() (string, session.Edit) {
			return "choose a place between", edit.Place(r.Float64() * float64(len(p.Chart.Sizes)-1))
		},
		func() (string, session.Edit) {
			return "choose the method", edit.Method([]model.Method{model.ByChart, model.BySteps}[r.IntN(2)])
		},
		func() (string, session.Edit) {
			return "type a measure", edit.Measure(p.Chart.Measures[r.IntN(len(p.Chart.Measures))], 600+700*r.Float64())
		},
		func() (string, session.Edit) {
			return "choose the unit", edit.Unit([]model.Unit{model.Inches, model.Centimetres}[r.IntN(2)])
		},
		func() (string, session.Edit) { return "lay a piece", edit.LayPiece(q.ID, by) },
		func() (string, session.Edit) { return "name a piece", edit.Rename(q.ID, "Yoke "+size) },
		func() (string, session.Edit) { return "cut so many", edit.Cut(q.ID, r.IntN(5)) },
		func() (string, session.Edit) { return "type a gap", edit.SetGap(q.ID, point, on, by.X) },
		func() (string, session.Edit) {
			return "follow a measure", edit.Follow(q.ID, point, on, p.Chart.Measures[r.IntN(len(p.Chart.Measures))])
		},
		func() (string, session.Edit) { return "add a point", edit.AddPoint(q.ID, printed.Size, middle) },
		func() (string, session.Edit) { return "remove a point", edit.RemovePoint(q.ID, point) },
		func() (string, session.Edit) {
			return "mend a point", edit.MendPoint(q.ID, point, printed.Size, printed.Edges[k].Start().Add(by.Scale(0.2)))
		},
		func() (string, session.Edit) { return "add a notch", edit.AddNotch(q.ID, edge, r.Float64()) },
		func() (string, session.Edit) { return "stages", edit.Stages(on) },
		func() (string, session.Edit) { return "stack", edit.Stack(q.ID, edit.OnPoint(point)) },
		func() (string, session.Edit) { return "one size for all", edit.OneForAll(q.ID, on) },
		func() (string, session.Edit) { return "add cuts", edit.DefaultCuts(q.ID) },
		func() (string, session.Edit) {
			return "add a lengthen line", edit.AddLengthenLine(q.ID, res.Pieces[i].Edges, middle)
		},
	}
	for _, n := range q.Notches {
		kinds = append(kinds, func() (string, session.Edit) { return "remove a notch", edit.RemoveNotch(q.ID, n.ID) })
	}
	for _, d := range q.Darts {
		kinds = append(
			kinds,
			func() (string, session.Edit) { return "true a dart", edit.TrueDart(q.ID, d.ID, on) },
			func() (string, session.Edit) { return "keep a dart's width", edit.KeepTakeUp(q.ID, d.ID, on) },
		)
	}
	for _, g := range edit.LengthGroups(p) {
		kinds = append(kinds, func() (string, session.Edit) { return "make longer", edit.SetLength(g.ID, by.X*2) })
	}
	if len(p.Links) > 0 {
		l := p.Links[r.IntN(len(p.Links))]
		kinds = append(
			kinds,
			func() (string, session.Edit) { return "unlink", edit.Unlink(l.ID) },
			func() (string, session.Edit) { return "set the ease", edit.SetEase(l.ID, by.X, by.X+5) },
			func() (string, session.Edit) {
				return "let a seam give way", edit.SetRefit(l.ID, []model.Refit{model.NoRefit, model.EndAlong, model.StartAcross}[r.IntN(3)])
			},
		)
	}
	label, e := kinds[r.IntN(len(kinds))]()
	return fmt.Sprintf("%s of %s", label, q.Name), e
}
