package ui

import (
	"cmp"
	"fmt"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app/folders"
	"quarterstep/assets"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/scene"
)

// sweep looks at everything the window shows, with every text of the catalogue
// in wide letters: whatever still has plain ones was not said through it.
type sweep struct {
	t     *testing.T
	w     *Window
	names map[string]bool   // words of names of the sewist, of the document: not for translating
	found map[string]string // text, and where it was first seen
	said  int               // texts looked at
	still bool              // nothing is pointed at
}

// figure is what a format leaves room for.
var figure = regexp.MustCompile(`%(\[\d+\])?[-+ #0]*(\*|\d+)?(\.(\*|\d+))?(\[\d+\])?[a-zA-Z%]`)

// wide writes the letters of a text as their wide forms, its figures as they are.
func wide(text string) string {
	letters := func(s string) string {
		return strings.Map(func(r rune) rune {
			if r < unicode.MaxASCII && unicode.IsLetter(r) {
				return r - 'A' + '\uff21'
			}
			return r
		}, s)
	}
	var b strings.Builder
	from := 0
	for _, at := range figure.FindAllStringIndex(text, -1) {
		b.WriteString(letters(text[from:at[0]]) + text[at[0]:at[1]])
		from = at[1]
	}
	return b.String() + letters(text[from:])
}

// free are words that are the same in every language: units, names of
// standards, papers, formats, languages and files.
var free = regexp.MustCompile(`\b(mm|cm|m|px|dpi|A[0-5]|EN|ASTM|US|PDF|SVG|CSV|EXIF|Quarterstep|English|Deutsch|Sprache|x)\b|\S+\.(qstep|svg|pdf)\b`)

var plainWord = regexp.MustCompile(`[A-Za-z]{2,}|\b[a-z]\b`)

// look at everything shown now; where says what was done before.
func (s *sweep) look(where string) {
	s.take(where, s.w.win.Title())
	for _, pointed := range []bool{false, true}[:map[bool]int{true: 1, false: 2}[s.still]] { // pointing changes what the status bar says
		s.seen(where, s.w.win.Canvas().Content(), pointed)
		for _, o := range s.w.win.Canvas().Overlays().List() {
			s.seen(where+", over it", o, pointed)
		}
	}
	for _, in := range []scene.Input{s.w.sceneOf(s.w.doc.Pattern(), s.w.doc.Result())} {
		for _, l := range []scene.Layer{scene.Static(in, nil), scene.Active(in, []string{s.w.hand.Piece})} {
			for _, text := range l.Texts {
				s.take(where+", on the Table", text.Words)
			}
		}
	}
	for what, menu := range map[string][]*fyne.MenuItem{"menu": s.w.menu().Items, "menu of the Table": s.w.handMenu()} {
		s.menu(where+", "+what, menu)
	}
}

func (s *sweep) menu(where string, items []*fyne.MenuItem) {
	for _, i := range items {
		s.take(where, i.Label)
		if i.ChildMenu != nil {
			s.menu(where, i.ChildMenu.Items)
		}
	}
}

// seen walks what is visible of an object.
func (s *sweep) seen(where string, o fyne.CanvasObject, hover bool) {
	if o == nil || !o.Visible() {
		return
	}
	if h, ok := o.(desktop.Hoverable); ok && hover {
		h.MouseIn(&desktop.MouseEvent{})
		s.take(where+", pointed at", s.w.said)
		h.MouseOut()
	}
	switch o := o.(type) {
	case *canvas.Text:
		s.take(where, o.Text)
	case *widget.Label:
		s.take(where, o.Text)
	case *widget.RichText:
		s.take(where, o.String())
	case *widget.Entry:
		s.take(where, o.PlaceHolder)
		s.take(where, o.Text)
	case *widget.Select:
		for _, choice := range append(slices.Clone(o.Options), o.PlaceHolder, o.Selected) {
			s.take(where, choice)
		}
	case *fyne.Container:
		for _, c := range o.Objects {
			s.seen(where, c, hover)
		}
	case fyne.Widget:
		if fmt.Sprintf("%T", o) == "*panel.fileRow" { // a file has the name it has
			return
		}
		for _, c := range test.WidgetRenderer(o).Objects() {
			s.seen(where, c, hover)
		}
	}
}

// take holds a text to having nothing plain but words of names and what is free.
func (s *sweep) take(where, text string) {
	s.said++
	if strings.HasPrefix(where, "about") && strings.Contains(assets.Licences, text) {
		return
	}
	rest := free.ReplaceAllString(text, "")
	for _, at := range plainWord.FindAllStringIndex(rest, -1) {
		word, cut := strings.ToLower(rest[at[0]:at[1]]), strings.HasPrefix(rest[at[1]:], "…")
		if !s.names[word] && !(cut && s.begins(word)) {
			if _, ok := s.found[text]; !ok {
				s.found[text] = where
			}
			return
		}
	}
}

// begins reports whether a word cut short is one of a name.
func (s *sweep) begins(word string) bool {
	for n := range s.names {
		if strings.HasPrefix(n, word) {
			return true
		}
	}
	return false
}

// own are the names in the document: they are hers, or were made in the
// language in use when the document was.
func (s *sweep) own(p model.Pattern) {
	add := func(names ...string) {
		for _, n := range names {
			for _, word := range plainWord.FindAllString(n, -1) {
				s.names[strings.ToLower(word)] = true
			}
		}
	}
	add(p.Name, p.Note, p.Target.Wearer)
	for _, c := range s.w.charts() {
		add(c.Name, c.ID)
		for _, z := range c.Sizes {
			add(z.Name)
		}
	}
	for _, q := range p.Pieces {
		add(q.Name)
		for _, e := range q.Edges {
			add(e.Name)
		}
		for _, g := range q.Points {
			add(g.Name)
		}
		for _, d := range q.Darts {
			add(d.Name)
		}
	}
}

// named takes the words of a file's name for the sewist's.
func (s *sweep) named(path string) { s.own(model.Pattern{Name: filepath.Base(path)}) }

// report lists what was found.
func (s *sweep) report() {
	texts := slices.SortedFunc(maps.Keys(s.found), func(a, b string) int {
		return cmp.Or(cmp.Compare(s.found[a], s.found[b]), cmp.Compare(a, b))
	})
	for _, text := range texts {
		s.t.Errorf("%s: %q did not come from the catalogue", s.found[text], text)
	}
	s.t.Logf("%d texts looked at", s.said)
}

// made has every text of the catalogue in wide letters until the test ends.
func made(t *testing.T) {
	t.Helper()
	words.UseMade(wide)
	speakToolkit()
	speaksEnglish(t)
}

// swept is a sweep over a window made in English and built anew in wide letters.
func swept(t *testing.T, w *Window) *sweep {
	t.Helper()
	s := &sweep{t: t, w: w, found: map[string]string{}, names: map[string]bool{}}
	made(t)
	w.rebuild()
	s.own(w.doc.Pattern())
	return s
}

// away takes what lies over the window away.
func (s *sweep) away() {
	for _, o := range s.w.win.Canvas().Overlays().List() {
		s.w.win.Canvas().Overlays().Remove(o)
	}
	s.w.hasNoDialog()
}

// shown does something that opens a dialog or a menu, looks, and puts it away.
func (s *sweep) shown(where string, do func()) {
	do()
	s.look(where)
	s.away()
}

func (s *sweep) unfolded() {
	for _, f := range s.w.folds {
		f.SetOpen(true)
	}
}

// TestEveryTextIsFromTheCatalogue goes through the window on the demos.
func TestEveryTextIsFromTheCatalogue(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	s := swept(t, openTrue(t, 6))
	w := s.w
	s.named(strings.ReplaceAll(home, string(filepath.Separator), " "))
	for _, p := range folders.Places(home, nil) { // sticks and drives have the names they have
		if p.Sort == folders.Drive && p.Path != string(filepath.Separator) {
			s.named(p.Path)
		}
	}
	for step := range stepCount {
		where := fmt.Sprintf("step %d", step+1)
		w.goTo(step)
		s.look(where)
		s.unfolded()
		s.look(where + ", all open")
		s.still = true
		for _, piece := range w.doc.Pattern().Pieces {
			for _, at := range handsOf(piece) {
				w.hand = at
				w.refresh()
				s.unfolded()
				s.look(fmt.Sprintf("%s, %s in hand", where, piece.ID))
			}
		}
		s.still = false
	}
	w.goTo(stepGrade)
	for what, do := range map[string]func(){
		"help": w.help, "about": w.about, "screen": w.askScreen, "rename": w.rename, "style": w.askStyle,
		"parallel": w.askParallel, "shared": w.askShared, "copies": w.askCopies, "open": w.askOpen, "save": w.saveAs,
		"bring in": w.bringIn, "other ways": w.otherWays, "close": w.askAndClose, "Table": w.menuInHand,
		"one size": func() { w.askOneSize("a.svg") }, "printers": w.askPrinters, "pdf": w.savePDF,
		"shelf": func() { w.shelfMenu(0, fyne.NewPos(50, 200)) },
	} {
		s.shown(what, do)
	}
	for k := range tourStops {
		w.tourTo(k)
		s.look(fmt.Sprintf("tour %d", k+1))
	}
	s.report()
}

// handsOf are things of a piece to have in hand: some of each kind.
func handsOf(q model.Piece) []scene.Ref {
	out := []scene.Ref{{Piece: q.ID}, {Piece: q.ID, Point: q.Points[0].ID}, {Piece: q.ID, Edge: q.Edges[len(q.Edges)/2].ID}}
	for _, d := range q.Darts {
		out = append(out, scene.Ref{Piece: q.ID, Dart: d.ID})
	}
	return out
}

// The empty window, a drawing brought in, paper that is traced.
func TestEveryTextOfBringingInIsFromTheCatalogue(t *testing.T) {
	s := swept(t, bareWindow(t))
	s.look("start page")
	s.unfolded()
	s.look("start page, all open")
	paths, err := filepath.Glob("../testdata/nests/*.svg")
	if err != nil || len(paths) == 0 {
		t.Fatal("no drawings to bring in")
	}
	for _, path := range paths {
		s.w.bringInFiles([]string{path})
		s.own(s.w.doc.Pattern())
		s.named(path)
		s.look(filepath.Base(path))
		s.away()
		s.unfolded()
		s.look(filepath.Base(path) + ", all open")
	}
	s.report()

	_ = words.Use("en")
	traced, q, at := onBib(t)
	b := swept(t, traced)
	b.named("paper")
	b.look("paper")
	b.unfolded()
	b.look("paper, all open")
	clickLine(t, b.w, q, "40", at)
	b.unfolded()
	b.look("one size traced")
	b.report()
}

// A plain sentence is seen, one of the catalogue is not.
func TestSweepSeesWhatIsForgotten(t *testing.T) {
	s := swept(t, open(t))
	s.w.say("a forgotten sentence")
	s.look("status")
	s.w.say(words.T("an odd sentence"))
	s.look("status")
	if len(s.found) == 0 || s.found["a forgotten sentence"] == "" {
		t.Error("a plain sentence was not seen")
	}
	if s.found[wide("an odd sentence")] != "" {
		t.Error("a sentence of the catalogue counts as forgotten")
	}
}
