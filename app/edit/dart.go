package edit

import (
	"fmt"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// TrueDart makes the legs of a dart equal and draws the seam across it smooth in
// every size, or lets it be as graded. The error says in plain words what makes
// that impossible in the printed sizes.
func TrueDart(piece, dart string, on bool) func(model.Pattern) (model.Pattern, error) {
	return onDart(piece, dart, func(q model.Piece, d model.Dart) (model.Dart, error) {
		d.Trued = on
		if !on {
			return d, nil
		}
		return d, canBeTrued(q, d)
	})
}

// canBeTrued tries to true d in the largest printed size.
func canBeTrued(q model.Piece, d model.Dart) error {
	at, err := printedDart(q, d)
	if err != nil {
		return err
	}
	if _, err := at.True(q.Nest[len(q.Nest)-1].Edges); err != nil {
		return words.Errorf("%w, so it cannot be trued", err)
	}
	return nil
}

// printedDart is d as printed in the largest size.
func printedDart(q model.Piece, d model.Dart) (dart.Dart, error) {
	at, err := dart.Read(q, d, geom.Point{})
	if err != nil {
		return at, err
	}
	return at.Printed(d, q.Nest[len(q.Nest)-1]), nil
}

// KeepTakeUp keeps a dart as wide as the nearest printed size has it, or lets it
// grow with its leg ends.
func KeepTakeUp(piece, dart string, on bool) func(model.Pattern) (model.Pattern, error) {
	return onDart(piece, dart, func(_ model.Piece, d model.Dart) (model.Dart, error) {
		d.TakeUpKept = on
		return d, nil
	})
}

// onDart changes a dart of a piece.
func onDart(piece, dart string, f func(model.Piece, model.Dart) (model.Dart, error)) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			i, err := dartIndex(q, dart)
			if err != nil {
				return q, err
			}
			d, err := f(q, q.Darts[i])
			if err != nil {
				return q, err
			}
			q.Darts = slices.Clone(q.Darts)
			q.Darts[i] = d
			return q, nil
		})
	}
}

func dartIndex(q model.Piece, id string) (int, error) {
	i := slices.IndexFunc(q.Darts, func(d model.Dart) bool { return d.ID == id })
	if i < 0 {
		return i, words.Errorf("%s has no such dart", q.Name)
	}
	return i, nil
}

// RemoveDart lets go of a dart; its cap is an edge like others from then on.
func RemoveDart(piece, dart string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			i, err := dartIndex(q, dart)
			if err != nil {
				return q, err
			}
			q.Darts = slices.Delete(slices.Clone(q.Darts), i, i+1)
			return q, nil
		})
	}
}

// MakeDart makes a dart of the edges between two grade points, by the shorter
// way round, with its apex at a place of the line graded in r, in mm of the
// piece's own coordinates. In the printed sizes the apex lies as far from the
// middle of the two, and it follows the measures that the first of them does.
// The error says why the two make no dart.
func MakeDart(piece, from, to string, apex geom.Point, r grading.Result) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(piece)
		if i < 0 || i >= len(r.Pieces) {
			return p, words.Errorf("the pattern has no piece %q", piece)
		}
		d, err := makeDart(p.Pieces[i], r.Pieces[i], from, to, apex)
		if err != nil {
			return p, err
		}
		return p.WithPiece(i, func(q model.Piece) model.Piece {
			q.Darts = append(slices.Clone(q.Darts), d)
			return q
		}), nil
	}
}

func makeDart(q model.Piece, r grading.Piece, from, to string, apex geom.Point) (model.Dart, error) {
	a, b := q.PointIndex(from), q.PointIndex(to)
	if a < 0 || b < 0 || a == b {
		return model.Dart{}, words.Errorf("a dart of %s needs two different grade points", q.Name)
	}
	if 2*((b-a+len(q.Points))%len(q.Points)) > len(q.Points) {
		a, b = b, a
	}
	for _, other := range q.Darts {
		if overlaps(q, other, a, b) {
			return model.Dart{}, words.Errorf("the %s of %s lies there already", dartName(other), q.Name)
		}
	}
	const tol = 0.1
	if !r.Outline().Contains(apex, tol) {
		return model.Dart{}, words.Errorf("the point of the dart must lie inside %s", q.Name)
	}
	d := model.Dart{
		ID: freeDart(q), Name: words.T("dart"), From: q.Points[a].ID, To: q.Points[b].ID,
		Across: r.Points[a].Across.Follows, Along: r.Points[a].Along.Follows,
	}
	off := apex.Sub(r.Edges[a].Start().Lerp(r.Edges[b].Start(), 0.5))
	for _, o := range q.Nest {
		d.Apex = append(d.Apex, model.SizedPoint{Size: o.Size, At: o.Edges[a].Start().Lerp(o.Edges[b].Start(), 0.5).Add(off)})
	}
	at, err := dart.Read(q, d, apex)
	if err != nil {
		return d, err
	}
	return d, at.Makes(r.Edges)
}

// overlaps reports whether the cap from grade point a to b shares an edge with
// that of another dart.
func overlaps(q model.Piece, d model.Dart, a, b int) bool {
	n := len(q.Points)
	from, to := q.PointIndex(d.From), q.PointIndex(d.To)
	if from < 0 || to < 0 {
		return false
	}
	for k := a; k != b; k = (k + 1) % n {
		if (k-from+n)%n < (to-from+n)%n {
			return true
		}
	}
	return false
}

func dartName(d model.Dart) string {
	if d.Name == "" {
		return words.T("dart")
	}
	return d.Name
}

// freeDart is an ID that no dart of q has.
func freeDart(q model.Piece) string {
	for n := 1; ; n++ {
		id := fmt.Sprintf("dart-%d", n)
		if !slices.ContainsFunc(q.Darts, func(d model.Dart) bool { return d.ID == id }) {
			return id
		}
	}
}
