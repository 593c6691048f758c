package ui

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/app"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
	"quarterstep/printing/tile"
	"quarterstep/ui/scene"
)

// item finds an entry of a menu by its words, through its submenus; nil where
// there is none.
func item(items []*fyne.MenuItem, label string) *fyne.MenuItem {
	for _, i := range items {
		if i.Label == label {
			return i
		}
		if i.ChildMenu != nil {
			if found := item(i.ChildMenu.Items, label); found != nil {
				return found
			}
		}
	}
	return nil
}

func TestLayingTheSizesOnALine(t *testing.T) {
	w := open(t)
	at, k := corner(t, w, "underarm")
	w.table.OnSelect(at)
	q := w.doc.Pattern().Pieces[0]
	on := item(w.menu().Items, "Underarm")
	if on == nil || on.Disabled {
		t.Fatal("the point in hand is not offered")
	}
	on.Action()
	nest := w.doc.Pattern().Pieces[0].Nest
	for _, o := range nest {
		if d := o.Edges[k].Start().Dist(nest[len(nest)-1].Edges[k].Start()); d > 1e-9 {
			t.Errorf("size %s lies %.3f mm off at the underarm", o.Size, d)
		}
	}
	if h := w.doc.History(); len(h) != 1 || h[0] != "lay the sizes on the underarm" {
		t.Errorf("history %v", h)
	}
	w.hand = scene.Ref{Piece: q.ID}
	if i := item(w.pieceItems(q), "The grade point in hand"); i == nil || !i.Disabled {
		t.Error("a grade point is offered though none is in hand")
	}
}

func TestSizesThatShareALine(t *testing.T) {
	c, _ := sizechart.ByID("en13402-women")
	edges := func(w float64) []geom.Path {
		a, b, d := geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(0, 100)
		return []geom.Path{geom.Polyline(a, b), geom.Polyline(b, d), geom.Polyline(d, a)}
	}
	q := model.Piece{Nest: []model.Outline{{Size: "36", Edges: edges(100)}, {Size: "42", Edges: edges(130)}}}
	if got := strings.Join(sizesAbove(c, q, 0), " "); got != "38 40" {
		t.Errorf("the line of 36 may serve %s", got)
	}
	if got := sizesAbove(c, q, 1); len(got) == 0 || got[0] != "44" || got[len(got)-1] != c.Sizes[len(c.Sizes)-1].Name {
		t.Errorf("the line of 42 may serve %v", got)
	}
	w := openFront(t)
	w.shareLine(front(w), 0, []string{"40"})
	if got := front(w).Nest[0].Label(); got != "38/40" {
		t.Errorf("the line is that of %s", got)
	}
	if got := shownGrowth(w).printed(); !strings.HasSuffix(got, "was printed with one line for sizes 38, 40.") {
		t.Error(got)
	}
	w.shareLine(front(w), 0, nil)
	if got := front(w).Nest[0].Label(); got != "38" {
		t.Errorf("after taking it back the line is that of %s", got)
	}
}

func TestThePieceMenu(t *testing.T) {
	w := openFront(t)
	point := scene.Ref{Piece: front(w).ID, Point: front(w).Points[0].ID}
	for was, want := range map[scene.Ref]scene.Ref{{}: {Piece: front(w).ID}, point: point} {
		w.hand = was
		if w.shelf.OnMenu(0, fyne.NewPos(100, 100)); w.hand != want {
			t.Errorf("in hand %v, want %v", w.hand, want)
		}
	}
	items := func() []*fyne.MenuItem { return w.pieceItems(front(w)) }
	item(items(), "Same in all sizes").Action()
	if !front(w).OneForAll || !item(items(), "Same in all sizes").Checked {
		t.Error("it is not the same in all sizes")
	}
	item(items(), "Same in all sizes").Action()
	if front(w).OneForAll {
		t.Error("it still is the same in all sizes")
	}
	item(items(), "How it grows").Action()
	if !w.folds["How it grows"].Open() {
		t.Error("the panel does not open")
	}
	for _, c := range []struct {
		text, lining string
		want, lined  int
	}{{"2", "0", 2, 0}, {" 4 ", "1", 4, 1}, {"two", "1", 4, 1}, {"0", "1", 4, 1}, {"3", "-1", 4, 1}, {"3", "2", 3, 2}} {
		if w.setCopies(front(w).ID, c.text, c.lining); front(w).Copies() != c.want || front(w).Lining != c.lined {
			t.Errorf("%q, %q: cut %d and lining %d, want %d and %d", c.text, c.lining, front(w).Copies(), front(w).Lining, c.want, c.lined)
		}
	}
	if !item(items(), "Lay the sizes on").Disabled || !item(items(), "Take back all corrections").Disabled {
		t.Error("what cannot be done is offered")
	}
}

// A drawing without size layers is asked for its size; a broken one is refused.
func TestADrawingOfOneSize(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	once := write("apron.svg", `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="500mm" viewBox="0 0 300 500"><path d="M20,20 L220,20 L240,420 L20,420 Z"><title>Apron</title></path></svg>`)
	w := openFront(t)
	charts := w.charts()
	if !isOneSize(once, charts) {
		t.Error("a drawing without size layers is not taken for one size")
	}
	for _, path := range []string{write("bad.svg", "<svg><path d='M0"), filepath.Join(dir, "gone.svg")} {
		if isOneSize(path, charts) {
			t.Errorf("%s is taken for one size", filepath.Base(path))
		}
	}
	c, _ := sizechart.ByID("en13402-women")
	got, err := app.BringInOneSize(once, c, "40")
	if err != nil {
		t.Fatal(err)
	}
	w.broughtIn(once, got, nil)
	if q := front(w); q.Nest[0].Size != "40" || q.Name != "Apron" || !w.folds["How it grows"].Open() || !w.dialogOpen {
		t.Errorf("brought in %s in size %s", q.Name, q.Nest[0].Size)
	}
	words := strings.Join(readWords(got, 0), "\n")
	for _, want := range []string{"1 piece, by the chart EN 13402-3 women", "Apron: printed in size 40 only; 4 grade points.", "How it grows"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not said: %s", want, words)
		}
	}
}

func TestIncrementSheets(t *testing.T) {
	w := openFront(t)
	w.enter(stepPrint)
	for pages, want := range map[string]string{"A4": "A4", "A0": "A4", "Letter": "Letter", "Tabloid": "Letter"} {
		paper, err := tile.ParsePaper(pages)
		if err != nil {
			t.Fatal(err)
		}
		if got := sheetPaper(paper).Name; got != want {
			t.Errorf("beside pages of %s the sheet is on %s, want %s", pages, got, want)
		}
	}
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := app.WriteFile(path, func(to io.Writer) error { return w.sheetsOf([]string{front(w).ID})(app.Watch{}, to) }); err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(path); err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Errorf("no PDF was written: %v", err)
	}
	if err := app.WriteFile(path, func(to io.Writer) error { return w.sheetsOf([]string{"nobody"})(app.Watch{}, to) }); err == nil {
		t.Error("a sheet of no piece was written")
	}
	empty, err := session.New(model.Pattern{})
	if err != nil {
		t.Fatal(err)
	}
	w = Open(test.NewTempApp(t), empty, settings.Settings{}, "")
	if w.allSheets(); w.dialogOpen {
		t.Error("without pieces it asks where to write them")
	}
}
