package tile_test

import (
	"math"
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/tile"
)

func onPaper(t testing.TB, name string) tile.Setup {
	t.Helper()
	s := a4()
	var err error
	if s.Paper, err = tile.ParsePaper(name); err != nil {
		t.Fatal(err)
	}
	return s
}

// A roll is cut where the pieces end: three pieces side by side take the length
// of the longest, with the margins and half a millimetre above and below. Line
// widths count: 0.45 mm.
func TestRollIsAsLongAsItTakes(t *testing.T) {
	s := onPaper(t, "roll 914 mm") // prints 894.4 mm across
	pieces := []printing.Piece{oblong("Front", 300, 700), oblong("Back", 280, 690), oblong("Cuff", 90, 300)}
	plan := layout(t, arranged(t, pieces, s), s)
	if len(plan.Sheets) != 1 || plan.Cover() {
		t.Fatalf("%d sheets, cover %v", len(plan.Sheets), plan.Cover())
	}
	w, h := plan.Setup.Size()
	if want := 700 + 0.45 + 1 + 20; w != 914.4 || math.Abs(h-want) > 0.01 {
		t.Errorf("the page is %g x %g mm, want %g high", w, h, want)
	}
	if b := plan.Panel; !plan.Sheets[0].Window.Grow(1e-6).Contains(b.Max) || b.Min.X < 300+280+90 {
		t.Errorf("the scale check lies at %v", b)
	}
}

// Where there is no room beside the pieces, the roll is longer by the scale
// check.
func TestRollMakesRoomForTheScaleCheck(t *testing.T) {
	s := onPaper(t, "roll 610 mm")
	placed := arranged(t, []printing.Piece{oblong("Cloak", 580, 900)}, s)
	plan := layout(t, placed, s)
	_, h := plan.Setup.Size()
	if plan.Cover() || h < 900+tile.PanelHeight || h > 900+tile.PanelHeight+40 {
		t.Errorf("cover %v, page %.1f mm high", plan.Cover(), h)
	}
	outline := placed[0].Piece.Outline.Transform(placed[0].At).Bounds()
	if plan.Panel.Intersects(outline.Grow(4)) || !plan.Sheets[0].Window.Grow(1e-6).Contains(plan.Panel.Max) {
		t.Errorf("the scale check lies at %v, the piece at %v", plan.Panel, outline)
	}
}

// Beyond the longest page a roll goes on on the next.
func TestLongRollHasSeveralPages(t *testing.T) {
	s := onPaper(t, "roll 610 mm")
	var pieces []printing.Piece
	for range 4 {
		pieces = append(pieces, oblong("Train", 500, 1600))
	}
	plan := layout(t, arranged(t, pieces, s), s)
	if _, h := plan.Setup.Size(); len(plan.Sheets) != 2 || math.Abs(h-5080) > 1e-6 || plan.Cover() {
		t.Errorf("%d pages of %g mm, cover %v", len(plan.Sheets), h, plan.Cover())
	}
}

// A projector's page is as large as the pieces, whatever lies where.
func TestProjectorPageFitsThePieces(t *testing.T) {
	s := onPaper(t, "projector")
	placed := []tile.Placed{at(oblong("Front", 300, 700), -400, 50), at(oblong("Back", 280, 690), 40, -200)}
	plan := layout(t, placed, s)
	w, h := plan.Setup.Size()
	if math.Abs(w-(720+0.45+1+20)) > 0.01 || math.Abs(h-(950+0.45+1+20)) > 0.01 {
		t.Errorf("the page is %g x %g mm", w, h)
	}
	if len(plan.Sheets) != 1 || plan.Cover() || !plan.Panel.Empty() {
		t.Errorf("%d sheets, cover %v", len(plan.Sheets), plan.Cover())
	}
	if q := plan.OnPage(plan.Sheets[0]).Apply(geom.Pt(-400, -200)); math.Abs(q.X-10.725) > 0.01 || math.Abs(q.Y-10.725) > 0.01 {
		t.Errorf("the corner of the pieces comes to %v", q)
	}
}

func TestFreePagesRefuse(t *testing.T) {
	roll, beam := onPaper(t, "roll 610 mm"), onPaper(t, "projector")
	if _, err := tile.Arrange([]printing.Piece{oblong("Cloak", 700, 500)}, roll); err == nil ||
		!strings.Contains(err.Error(), "Cloak") || !strings.Contains(err.Error(), "wider roll") {
		t.Errorf("a piece wider than the roll: %v", err)
	}
	apart := []tile.Placed{at(oblong("Front", 300, 300), 0, 0), at(oblong("Back", 300, 300), 500, 0)}
	if _, err := tile.Layout(apart, roll); err == nil || !strings.Contains(err.Error(), "closer together") {
		t.Errorf("pieces beside the roll: %v", err)
	}
	apart[1].At = geom.Translate(geom.Vec{X: 6000})
	if _, err := tile.Layout(apart, beam); err == nil || !strings.Contains(err.Error(), "fewer pieces") {
		t.Errorf("pieces beside a page: %v", err)
	}
	dot := printing.Piece{Name: "Dot", Outline: geom.Polyline(geom.Pt(5, 5), geom.Pt(5, 5.01), geom.Pt(5, 5))}
	if _, err := tile.Arrange([]printing.Piece{dot}, a4()); err == nil || !strings.Contains(err.Error(), "Dot") || !strings.Contains(err.Error(), "point") {
		t.Errorf("a piece without size: %v", err)
	}
	for want, change := range map[string]func(*tile.Setup){
		"wider roll":       func(s *tile.Setup) { s.Paper.Width = 180 },
		"not for a projec": func(s *tile.Setup) { *s = beam; s.Projector.Line = 20 },
		"50 mm or 2 in":    func(s *tile.Setup) { *s = beam; s.Projector.Square = 3 },
		"ordinary numbers": func(s *tile.Setup) { *s = beam; s.Projector.Line = math.NaN() },
		"choose a paper":   func(s *tile.Setup) { s.Paper = tile.Paper{Free: true} },
	} {
		s := roll
		change(&s)
		if err := s.Validate(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", want, err)
		}
	}
}

// Without pieces there is a page with the scale check alone, of a size that can
// be printed.
func TestFreePaperWithoutPieces(t *testing.T) {
	for _, name := range []string{"roll 610 mm", "projector"} {
		plan := layout(t, nil, onPaper(t, name))
		if w, h := plan.Setup.Size(); !plan.Cover() || w < tile.PanelWidth || h < tile.PanelHeight || h > 300 {
			t.Errorf("%s: %g x %g mm, cover %v", name, w, h, plan.Cover())
		}
	}
}
