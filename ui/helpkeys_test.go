package ui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

// keyConstant is how the toolkit's names of keys read in the code.
var keyConstant = regexp.MustCompile(`^Key[A-Z][A-Za-z0-9]*$`)

// notKeys are names of the toolkit that begin like keys, and a key that does
// something only with others.
var notKeys = map[string]bool{"KeyName": true, "KeyEvent": true, "KeyModifier": true, "KeyShiftLeft": true}

// keysInCode are the keys that the window's code answers: those that a function names
// by the toolkit's constants, but for those of shortcuts, and those with a character.
func keysInCode(t *testing.T) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	for _, dir := range []string{".", "board", "panel"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range file.Decls {
				if f, ok := d.(*ast.FuncDecl); ok && f.Name.Name == "shortcuts" {
					continue
				}
				namedKeys(d, out)
			}
		}
	}
	return out
}

func namedKeys(d ast.Decl, out map[string]bool) {
	f, _ := d.(*ast.FuncDecl)
	characters := f != nil && slices.Contains([]string{"rune", "runes", "TypedRune"}, f.Name.Name)
	ast.Inspect(d, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			from, ok := n.X.(*ast.Ident)
			if ok && (from.Name == "fyne" || from.Name == "desktop") && keyConstant.MatchString(n.Sel.Name) &&
				!strings.HasPrefix(n.Sel.Name, "KeyModifier") && !notKeys[n.Sel.Name] {
				out[n.Sel.Name] = true
			}
		case *ast.BasicLit:
			if c, err := strconv.Unquote(n.Value); characters && n.Kind == token.CHAR && err == nil && c != " " {
				out[c] = true
			}
		}
		return true
	})
}

// Every key that does something is in the help, and every key in the help does
// something.
func TestHelpHasEveryKey(t *testing.T) {
	w := open(t)
	bound := keysInCode(t)
	for r := range w.runes() {
		bound[string(r)] = true
	}
	bound["Ctrl+Z"] = true // the toolkit's own
	for _, s := range w.shortcuts() {
		name := "Ctrl+"
		if s.shift {
			name += "Shift+"
		}
		bound[name+string(s.key)] = true
	}
	listed := map[string]bool{}
	for _, r := range keyRows() {
		if r.term == "" || r.means == "" {
			t.Errorf("a row of the help's keys says nothing: %+v", r)
		}
		for _, k := range r.keys {
			listed[k] = true
			if !bound[k] {
				t.Errorf("the help tells of %s, which does nothing", k)
			}
		}
	}
	for k := range bound {
		if !listed[k] {
			t.Errorf("the help does not tell of %s", k)
		}
	}
}

// The keys of the window's map do what the help says where it can be seen without a
// display.
func TestKeysOfTheMap(t *testing.T) {
	w := open(t)
	for step := range stepCount {
		w.rune(rune('1' + step))
		if w.step != step && step != stepBringIn {
			t.Errorf("%d goes to step %d", step+1, w.step+1)
		}
		w.dialogOpen = false
	}
	w.goTo(stepGrade)
	for r, shown := range map[rune]func() bool{
		'n': func() bool { return w.nest }, 'i': func() bool { return w.seam },
		'c': w.table.CloseUp, 'u': w.table.Ruler,
	} {
		before := shown()
		w.rune(r)
		if shown() == before {
			t.Errorf("%c changes nothing", r)
		}
	}
	for r, name := range map[rune]string{'e': "Increments", 'w': "Wearer", 'h': "Checks"} {
		w.rune(r)
		if !w.folds[name].Open() {
			t.Errorf("%c does not open %s", r, name)
		}
	}
	at := w.doc.Pattern().Target.Place
	w.rune('.')
	if got := w.doc.Pattern().Target.Place; got != at+1 {
		t.Errorf("a full stop goes from place %v to %v", at, got)
	}
	w.shortcut(&fyne.ShortcutUndo{})
	if got := w.doc.Pattern().Target.Place; got != at {
		t.Errorf("undo leaves place %v, not %v", got, at)
	}
}
