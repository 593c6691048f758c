package folders

import (
	"cmp"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"quarterstep/assets/words"
)

// Kind is a kind of file to choose, by its name and the endings of its files,
// dot and all; none is any file.
type Kind struct {
	Name    string
	Endings []string
}

// Has reports whether a file of that name is of the kind.
func (k Kind) Has(name string) bool {
	return len(k.Endings) == 0 || slices.ContainsFunc(k.Endings, func(e string) bool { return strings.EqualFold(e, filepath.Ext(name)) })
}

// Entry is one thing in a folder.
type Entry struct {
	Name    string
	Folder  bool
	Changed time.Time
}

// Order is how what a folder holds is sorted, folders first in any order.
type Order int

// The orders: by name with figures by what they count, and the latest first.
const (
	ByName Order = iota
	ByDate
)

// List is what a folder holds of a kind, and its folders; what is hidden is left
// out, and so is what cannot be looked at.
func List(folder string, k Kind) ([]Entry, error) {
	found, err := os.ReadDir(folder)
	if err != nil {
		return nil, words.Errorf("the folder %s cannot be read: %w", folder, plain(err))
	}
	var out []Entry
	for _, d := range found {
		info, err := d.Info()
		if err == nil && info.Mode()&fs.ModeSymlink != 0 {
			info, err = os.Stat(filepath.Join(folder, d.Name()))
		}
		if err != nil || strings.HasPrefix(d.Name(), ".") || hidden(info) {
			continue
		}
		if info.IsDir() || info.Mode().IsRegular() && k.Has(d.Name()) {
			out = append(out, Entry{Name: d.Name(), Folder: info.IsDir(), Changed: info.ModTime()})
		}
	}
	return out, nil
}

// Sort puts entries into an order.
func Sort(entries []Entry, by Order) {
	slices.SortStableFunc(entries, func(a, b Entry) int {
		switch {
		case a.Folder != b.Folder:
			return cmp.Compare(rank(a), rank(b))
		case by == ByDate && !a.Changed.Equal(b.Changed):
			return b.Changed.Compare(a.Changed)
		}
		return compareNames(a.Name, b.Name)
	})
}

func rank(e Entry) int {
	if e.Folder {
		return 0
	}
	return 1
}

// compareNames puts names in order without regard to capitals, a run of figures
// by what it counts: photo 9 stands before photo 10.
func compareNames(a, b string) int {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	for len(x) > 0 && len(y) > 0 {
		var c int
		if unicode.IsDigit(x[0]) && unicode.IsDigit(y[0]) {
			var n, m []rune
			n, x = figures(x)
			m, y = figures(y)
			c = cmp.Or(cmp.Compare(len(n), len(m)), slices.Compare(n, m))
		} else {
			c = cmp.Compare(x[0], y[0])
			x, y = x[1:], y[1:]
		}
		if c != 0 {
			return c
		}
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), strings.Compare(a, b))
}

// figures cuts a run of figures off the head of a name, without leading noughts.
func figures(name []rune) (run, rest []rune) {
	n := 0
	for n < len(name) && unicode.IsDigit(name[n]) {
		n++
	}
	run = name[:n]
	for len(run) > 1 && run[0] == '0' {
		run = run[1:]
	}
	return run, name[n:]
}
