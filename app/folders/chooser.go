package folders

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"

	"quarterstep/assets/words"
)

// Chooser is where the sewist has got to while she looks for a file, or for a
// place to write one. Make it with NewChooser, and read a folder into it.
type Chooser struct {
	Saving  bool   // a place to write is looked for
	Several bool   // more than one file may be taken
	Ending  string // of a file to be written, dot and all; empty for any
	Kinds   []Kind
	Kind    int
	Home    string
	Stat    Stat // of the disk; nil for the system's

	folder  string
	all     []Entry // of the folder
	shown   []Entry // those that the typed words leave
	order   Order
	typed   string
	name    string          // of the file to be written, as last typed without a path
	at      int             // the row in hand, -1 for none
	pressed bool            // the row in hand was taken by a press of its own
	from    int             // where a run of rows began
	marked  map[string]bool // files taken, by name
	replace string          // the file that the sewist was asked about
}

// What is the answer to Accept.
type What int

// What is to be done: nothing more than show what Say says, read another folder,
// take the paths, ask whether to write over the file, or wait for the disk to be asked.
const (
	Stay What = iota
	Enter
	Take
	Ask
	Wait
)

// Answer is what came of Accept.
type Answer struct {
	What  What
	Paths []string // the folder to read, the files to take, or the file to ask about
	Say   string
	Look  Look // what to ask the disk, to Wait
}

// NewChooser starts in no folder; Show puts it into one.
func NewChooser(home string, kinds ...Kind) *Chooser {
	return &Chooser{Home: home, Kinds: kinds, at: -1}
}

// Show is told what a folder holds.
func (c *Chooser) Show(folder string, entries []Entry) {
	moved, left := folder != c.folder, c.folder
	c.folder, c.all = folder, entries
	if moved {
		c.marked, c.from, c.at, c.pressed = nil, 0, -1, false
		c.typed = c.name
	}
	c.sift()
	if moved && !c.Saving && len(c.shown) > 0 {
		c.at = max(slices.IndexFunc(c.shown, func(e Entry) bool { return filepath.Join(folder, e.Name) == left }), 0)
	}
}

// Folder is where the Chooser is.
func (c *Chooser) Folder() string { return c.folder }

// Parent is the folder above, the folder itself at the top.
func (c *Chooser) Parent() string { return filepath.Dir(c.folder) }

// Rows are what is shown of the folder.
func (c *Chooser) Rows() []Entry { return c.shown }

// At is the row in hand, -1 for none.
func (c *Chooser) At() int { return c.at }

// Marked reports whether a row is among those to be taken.
func (c *Chooser) Marked(i int) bool { return c.marked[c.shown[i].Name] }

// Typed are the words in the name's field.
func (c *Chooser) Typed() string { return c.typed }

// Order is how the rows are sorted.
func (c *Chooser) Order() Order { return c.order }

// Sorted sorts the rows another way.
func (c *Chooser) Sorted(by Order) {
	c.order = by
	c.sift()
}

// Type takes the words in the name's field. While a file is looked for, only the
// rows that have them in their names stay, unless they are a path.
func (c *Chooser) Type(words string) {
	if words == c.typed {
		return
	}
	c.typed, c.replace, c.marked, c.pressed = words, "", nil, false
	if c.Saving && !isPath(words) && !c.has(words) {
		c.name = words
	}
	if !c.Saving {
		c.at = -1
	}
	c.sift()
	if !c.Saving && words != "" && !isPath(words) && len(c.shown) > 0 {
		c.at = 0
	}
}

// has reports whether there is a folder of that name.
func (c *Chooser) has(name string) bool {
	return slices.ContainsFunc(c.all, func(e Entry) bool { return e.Folder && strings.EqualFold(e.Name, strings.TrimSpace(name)) })
}

func (c *Chooser) sift() {
	name := ""
	if c.at >= 0 && c.at < len(c.shown) {
		name = c.shown[c.at].Name
	}
	part := strings.ToLower(strings.TrimSpace(c.typed))
	c.shown = nil
	for _, e := range c.all {
		if c.Saving || part == "" || isPath(c.typed) || c.marked[e.Name] || strings.Contains(strings.ToLower(e.Name), part) {
			c.shown = append(c.shown, e)
		}
	}
	Sort(c.shown, c.order)
	c.at = slices.IndexFunc(c.shown, func(e Entry) bool { return e.Name == name })
}

// Move takes another row in hand, by so many rows on; far ones stop at the ends.
// A run of rows grows from where it began.
func (c *Chooser) Move(by int, run bool) {
	if len(c.shown) == 0 {
		return
	}
	at := min(max(c.at+by, 0), len(c.shown)-1)
	if c.at < 0 && by < 0 {
		at = len(c.shown) - 1
	}
	c.Pick(at, false, run)
	c.pressed = false
}

// Pick takes a row in hand; add marks it besides those marked, or no more, and
// run marks all from the one before. A row that was pressed before the first that
// is added counts as marked: she takes both.
func (c *Chooser) Pick(i int, add, run bool) {
	if i < 0 || i >= len(c.shown) {
		return
	}
	switch {
	case c.Several && add:
		if c.pressed && len(c.marked) == 0 && c.at >= 0 && c.at != i {
			c.mark(c.at, true)
		}
		c.mark(i, !c.Marked(i))
		c.from = i
	case c.Several && run && c.from < len(c.shown):
		c.marked = nil
		for k := min(c.from, i); k <= max(c.from, i); k++ {
			c.mark(k, true)
		}
	default:
		c.marked, c.from = nil, i
	}
	c.at, c.replace, c.pressed = i, "", !add && !run
	if e := c.shown[i]; c.Saving && !e.Folder {
		c.typed, c.name = e.Name, e.Name
	}
}

// All marks every file that shows.
func (c *Chooser) All() {
	if c.Several {
		for i := range c.shown {
			c.mark(i, true)
		}
	}
}

func (c *Chooser) mark(i int, on bool) {
	if c.shown[i].Folder {
		return
	}
	if c.marked == nil {
		c.marked = map[string]bool{}
	}
	if on {
		c.marked[c.shown[i].Name] = true
	} else {
		delete(c.marked, c.shown[i].Name)
	}
}

// Find takes the next row in hand whose name begins with a few letters, or else
// has them in it.
func (c *Chooser) Find(letters string) {
	letters = strings.ToLower(letters)
	for _, fits := range []func(name string) bool{
		func(name string) bool { return strings.HasPrefix(name, letters) },
		func(name string) bool { return strings.Contains(name, letters) },
	} {
		if i := slices.IndexFunc(c.shown, func(e Entry) bool { return fits(strings.ToLower(e.Name)) }); i >= 0 {
			c.Pick(i, false, false)
			c.pressed = false
			return
		}
	}
}

// Open is what a second press on a row, or Enter on it, does.
func (c *Chooser) Open(i int) Answer {
	if i < 0 || i >= len(c.shown) {
		return Answer{}
	}
	path := filepath.Join(c.folder, c.shown[i].Name)
	switch {
	case c.shown[i].Folder:
		return Answer{What: Enter, Paths: []string{path}}
	case c.Saving:
		return c.saveAt(path, true)
	}
	return Answer{What: Take, Paths: []string{path}}
}

// Accept is what the button does: with what is marked, with what was typed, or
// with the row in hand.
func (c *Chooser) Accept() Answer {
	if paths := c.taken(); len(paths) > 0 {
		return Answer{What: Take, Paths: paths}
	}
	meant := Meant(cmp.Or(c.folder, c.Home), c.Home, c.typed)
	if c.Saving {
		return c.save(meant)
	}
	if meant != "" {
		return c.find(meant)
	}
	if c.at < 0 {
		return Answer{Say: words.T("Choose a file first.")}
	}
	return c.Open(c.at)
}

func (c *Chooser) taken() []string {
	var out []string
	for i, e := range c.shown {
		if c.Marked(i) {
			out = append(out, filepath.Join(c.folder, e.Name))
		}
	}
	return out
}

// withEnding is path with the ending of what is saved, once: a name typed before the
// ending that was offered has it already.
func (c *Chooser) withEnding(path string) string {
	if c.Ending == "" {
		return path
	}
	for c.Ending == filepath.Ext(path) && strings.EqualFold(filepath.Ext(strings.TrimSuffix(path, c.Ending)), c.Ending) {
		path = strings.TrimSuffix(path, c.Ending)
	}
	if !strings.EqualFold(filepath.Ext(path), c.Ending) {
		path += c.Ending
	}
	return path
}

// saveAt asks once before a file is written over.
func (c *Chooser) saveAt(path string, there bool) Answer {
	if there && c.replace != path {
		c.replace = path
		return Answer{What: Ask, Paths: []string{path}, Say: words.F("%s is there already. Write over it?", filepath.Base(path))}
	}
	return Answer{What: Take, Paths: []string{path}}
}

// Asked reports whether the sewist was asked to write over a file.
func (c *Chooser) Asked() bool { return c.replace != "" }

// TakeBack does not write over it.
func (c *Chooser) TakeBack() { c.replace = "" }

// badName says what is wrong with a name, empty where nothing is. What a
// Windows drive refuses is refused everywhere: sticks go from one to the other.
func badName(name string) string {
	if i := strings.IndexAny(name, `<>:"|?*\/`); i >= 0 {
		return words.F("A name may not have %s in it.", name[i:i+1])
	}
	if strings.HasSuffix(name, ".") || strings.HasSuffix(name, " ") {
		return words.T("A name may not end with a dot or a space.")
	}
	return ""
}
