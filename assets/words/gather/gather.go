package gather

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Message is one text for translating.
type Message struct {
	Context string
	ID      string
	Plural  string   // empty unless there is one for many
	Files   []string // where it is used, sorted
}

// Key tells messages apart.
func (m Message) Key() string { return m.Context + "\x04" + m.ID }

// Bare is a literal that reads like a text for a sewist and is not gathered.
type Bare struct {
	File string
	Line int
	Text string
}

// Roots are the folders whose code speaks to a sewist.
var Roots = []string{"model", "grading", "printing", "app", "ui", "cmd/quarterstep"}

// texts says, for each way of saying something, which arguments are gathered.
var texts = map[string][]int{
	"T": {0}, "F": {0}, "Errorf": {0}, "Error": {0}, "Fault": {0}, "Text": {0},
	"C": {0, 1}, "N": {1, 2},
}

// In gathers the code below root, tests left out. Messages come in the order of
// their first file, then as they stand in it.
func In(root string) ([]Message, []Bare, error) {
	g := gathering{at: map[string]int{}}
	for _, dir := range Roots {
		err := filepath.WalkDir(filepath.Join(root, dir), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			rel, err := filepath.Rel(root, path)
			if err != nil {
				return err
			}
			return g.file(path, filepath.ToSlash(rel))
		})
		if err != nil {
			return nil, nil, fmt.Errorf("gathering texts: %w", err)
		}
	}
	return g.messages, g.bare, nil
}

type gathering struct {
	messages []Message
	at       map[string]int
	bare     []Bare
}

func (g *gathering) file(path, rel string) error {
	src, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, path, src, parser.ParseComments)
	if err != nil {
		return err
	}
	w := &walk{gathering: g, fset: fset, rel: rel, none: marked(fset, f), taken: map[ast.Node]bool{}}
	ast.Walk(w, f)
	return nil
}

// marked are the lines that `// words: none` sets apart: its own, the next, and
// all of a declaration it stands above; a whole file when it stands above the package clause.
func marked(fset *token.FileSet, f *ast.File) map[int]bool {
	lines := map[int]bool{}
	for _, c := range f.Comments {
		for _, l := range c.List {
			if strings.HasPrefix(l.Text, "// words: none") {
				n := fset.Position(l.Pos()).Line
				lines[n], lines[n+1] = true, true
			}
		}
	}
	all := func(n ast.Node) {
		for l := fset.Position(n.Pos()).Line; l <= fset.Position(n.End()).Line; l++ {
			lines[l] = true
		}
	}
	says := func(doc *ast.CommentGroup) bool {
		return doc != nil && slices.ContainsFunc(doc.List, func(c *ast.Comment) bool { return strings.HasPrefix(c.Text, "// words: none") })
	}
	if says(f.Doc) {
		all(f)
	}
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if says(d.Doc) {
				all(d)
			}
		case *ast.GenDecl:
			if says(d.Doc) {
				all(d)
			}
		}
	}
	return lines
}

type walk struct {
	*gathering
	fset  *token.FileSet
	rel   string
	none  map[int]bool
	taken map[ast.Node]bool
}

func (w *walk) Visit(n ast.Node) ast.Visitor {
	switch n := n.(type) {
	case *ast.ImportSpec:
		return nil
	case *ast.Field:
		if n.Tag != nil {
			w.taken[n.Tag] = true
		}
	case *ast.CallExpr:
		w.call(n)
	case *ast.CompositeLit:
		w.list(n)
	case *ast.ValueSpec:
		if isText(n.Type) {
			for _, v := range n.Values {
				w.take(v)
			}
		}
	case *ast.BasicLit:
		w.lone(n)
	}
	return w
}

func isText(e ast.Expr) bool {
	s, ok := e.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	x, ok := s.X.(*ast.Ident)
	return ok && x.Name == "words" && s.Sel.Name == "Text"
}

// list gathers the members of []words.Text{...} and the values of
// map[K]words.Text{...}. A struct's field is written words.Text("...").
func (w *walk) list(n *ast.CompositeLit) {
	var elem ast.Expr
	switch t := n.Type.(type) {
	case *ast.ArrayType:
		elem = t.Elt
	case *ast.MapType:
		elem = t.Value
	}
	if !isText(elem) {
		return
	}
	for _, e := range n.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			e = kv.Value
		}
		w.take(e)
	}
}

func (w *walk) call(n *ast.CallExpr) {
	if f, ok := n.Fun.(*ast.Ident); ok && f.Name == "panic" {
		w.skip(n)
		return
	}
	s, ok := n.Fun.(*ast.SelectorExpr)
	if !ok {
		return
	}
	x, ok := s.X.(*ast.Ident)
	if !ok || x.Name != "words" {
		return
	}
	args, ok := texts[s.Sel.Name]
	if !ok || len(n.Args) <= args[len(args)-1] {
		return
	}
	var got []string
	for _, i := range args {
		text, ok := literal(n.Args[i])
		if !ok {
			return
		}
		w.skip(n.Args[i])
		got = append(got, text)
	}
	switch s.Sel.Name {
	case "C":
		w.add(Message{Context: got[0], ID: got[1]})
	case "N":
		w.add(Message{ID: got[0], Plural: got[1]})
	default:
		w.add(Message{ID: got[0]})
	}
}

func (w *walk) take(e ast.Expr) {
	if text, ok := literal(e); ok {
		w.skip(e)
		w.add(Message{ID: text})
	}
}

func (w *walk) skip(e ast.Node) {
	ast.Inspect(e, func(n ast.Node) bool {
		if l, ok := n.(*ast.BasicLit); ok {
			w.taken[l] = true
		}
		return true
	})
}

// literal is the text of a literal, or of several put together by +.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return literal(e.X)
	case *ast.BasicLit:
		if e.Kind != token.STRING {
			return "", false
		}
		s, err := strconv.Unquote(e.Value)
		return s, err == nil
	case *ast.BinaryExpr:
		if e.Op != token.ADD {
			return "", false
		}
		a, ok := literal(e.X)
		b, also := literal(e.Y)
		return a + b, ok && also
	}
	return "", false
}

func (w *walk) add(m Message) {
	if m.ID == "" {
		return
	}
	i, ok := w.at[m.Key()]
	if !ok {
		i = len(w.messages)
		w.at[m.Key()] = i
		w.messages = append(w.messages, m)
	}
	have := &w.messages[i]
	if have.Plural == "" {
		have.Plural = m.Plural
	}
	if !slices.Contains(have.Files, w.rel) {
		have.Files = append(have.Files, w.rel)
	}
}

// sentence is what reads like one: two words in a row.
var sentence = regexp.MustCompile(`[a-z]{2,}[,.:;]? (?:[A-Za-z]{2,}|%)`)

func (w *walk) lone(l *ast.BasicLit) {
	line := w.fset.Position(l.Pos()).Line
	if l.Kind != token.STRING || w.taken[l] || w.none[line] {
		return
	}
	if s, err := strconv.Unquote(l.Value); err == nil && sentence.MatchString(s) {
		w.bare = append(w.bare, Bare{w.rel, line, s})
	}
}
