package spread_test

import (
	"strings"
	"testing"

	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// What cannot be cut is refused in words that say which line, of which piece,
// and why. The rule about darts: T. Horlamus, Threads no. 101, "a cut may cross
// a dart but must not run lengthwise through it".
func TestRefusals(t *testing.T) {
	dart := func(q model.Piece) model.Piece {
		corners := []geom.Point{{}, {X: 200}, {X: 200, Y: 300}, {X: 120, Y: 300}, {X: 100, Y: 300}, {Y: 300}}
		d := ring("Sheet", corners, []string{"top", "right", "bottom", "mouth", "bottom by the fold", "fold"}, 5, q.Cuts...)
		d.Darts = []model.Dart{{ID: "d", From: "mouth", To: "bottom by the fold", Apex: []model.SizedPoint{{At: geom.Pt(110, 180)}}}}
		return d
	}
	inner := func(q model.Piece) model.Piece {
		fish := geom.Polyline(geom.Pt(100, 80), geom.Pt(110, 150), geom.Pt(100, 250), geom.Pt(90, 150), geom.Pt(100, 80))
		q.Lines = []model.Line{{ID: "f", Kind: model.DartLine, Drawn: []model.SizedPath{{Path: fish}}}}
		return q
	}
	line := func(x0, y0, x1, y1 float64) model.Cut {
		return model.Cut{ID: "x", From: geom.Pt(x0, y0), To: geom.Pt(x1, y1), Measure: model.Bust, Share: 0.25}
	}
	two := sheet(200, 300, down("1", 60, 150, 0.25))
	two.Edges[1].Kind = model.Fold
	for name, tc := range map[string]struct {
		q    model.Piece
		want string // empty: it can be cut
	}{
		"off the piece":            {sheet(200, 300, line(250, 0, 250, 300)), "does not run across"},
		"along an edge":            {sheet(200, 300, line(200, 0, 200, 300)), "does not run across"},
		"through a dart's mouth":   {dart(sheet(1, 1, line(110, 10, 110, 100))), "lengthwise through a dart"},
		"along a dart's leg":       {dart(sheet(1, 1, line(120, 10, 120, 300))), "lengthwise through a dart"},
		"across a dart":            {dart(sheet(1, 1, line(20, 220, 180, 220))), ""},
		"beside a dart":            {dart(sheet(1, 1, line(80, 10, 80, 100))), ""},
		"along a dart inside":      {inner(sheet(200, 300, line(100, 0, 101, 300))), "lengthwise through a dart"},
		"across a dart inside":     {inner(sheet(200, 300, line(0, 150, 200, 150))), ""},
		"two the same way crossed": {sheet(200, 300, line(90, 0, 110, 300), line(110, 0, 90, 300)), "crosses cut line 1"},
		"two crossed square":       {sheet(200, 300, line(90, 0, 90, 300), line(0, 100, 200, 100)), ""},
		"aslant over the fold":     {sheet(200, 300, line(0, 50, 200, 250)), "off its line"},
		"between two folds":        {two, "off its line"},
		"no size":                  {model.Piece{Name: "Sheet"}, "no size"},
	} {
		_, err := spread.Read(tc.q)
		switch {
		case tc.want == "" && err != nil:
			t.Errorf("%s: %v", name, err)
		case tc.want != "" && (err == nil || !strings.Contains(err.Error(), tc.want) || !strings.Contains(err.Error(), "Sheet")):
			t.Errorf("%s: got %v, want an error that says %q and names the piece", name, err, tc.want)
		}
	}
}

func TestTooMuchOverlapIsRefused(t *testing.T) {
	s := read(t, sheet(200, 300, down("1", 60, 150, 0.25)))
	if _, err := s.Edges((grows{model.Bust: -796}).by); err != nil {
		t.Errorf("overlapped by 199 of 200 mm: %v", err)
	}
	if _, err := s.Edges((grows{model.Bust: -804}).by); err == nil || !strings.Contains(err.Error(), "Sheet") {
		t.Errorf("overlapped by 201 of 200 mm: %v", err)
	}
}
