package folders

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// fill makes files, and folders of those names that end with a slash.
func fill(t testing.TB, names ...string) string {
	t.Helper()
	dir := t.TempDir()
	for i, name := range names {
		path := filepath.Join(dir, name)
		err := os.MkdirAll(filepath.Dir(path), 0o755)
		if strings.HasSuffix(name, "/") {
			err = os.MkdirAll(path, 0o755)
		} else if err == nil {
			err = os.WriteFile(path, []byte("x"), 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
		when := time.Date(2026, 1, 1+i, 0, 0, 0, 0, time.UTC)
		if err := os.Chtimes(path, when, when); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func at(t testing.TB, c *Chooser, dir string) *Chooser {
	t.Helper()
	entries, err := List(dir, c.Kinds[c.Kind])
	if err != nil {
		t.Fatal(err)
	}
	c.Show(dir, entries)
	return c
}

func names(c *Chooser) []string {
	var out []string
	for _, e := range c.Rows() {
		out = append(out, e.Name)
	}
	return out
}

var photos = Kind{Name: "Photos", Endings: []string{".jpg", ".png"}}

// What a folder holds: folders first, names by the numbers in them, capitals
// alike; what is hidden or of another kind is not shown.
func TestList(t *testing.T) {
	dir := fill(t, "img 10.jpg", "IMG 9.JPG", "img 010b.jpg", "notes.txt", ".hidden.jpg", "Zips/", "blouse/", ".cache/")
	if err := os.Symlink(filepath.Join(dir, "gone"), filepath.Join(dir, "broken.jpg")); err != nil {
		t.Log("no links here:", err)
	}
	c := at(t, NewChooser(dir, photos), dir)
	if want := []string{"blouse", "Zips", "IMG 9.JPG", "img 10.jpg", "img 010b.jpg"}; !slices.Equal(names(c), want) {
		t.Errorf("by name %q, want %q", names(c), want)
	}
	c.Sorted(ByDate)
	if want := []string{"blouse", "Zips", "img 010b.jpg", "IMG 9.JPG", "img 10.jpg"}; !slices.Equal(names(c), want) {
		t.Errorf("latest first %q, want %q", names(c), want)
	}
	if _, err := List(filepath.Join(dir, "nowhere"), photos); err == nil || !strings.Contains(err.Error(), "not there") {
		t.Errorf("a folder that is not there: %v", err)
	}
	if _, err := List(filepath.Join(dir, "notes.txt"), photos); err == nil {
		t.Error("a file was read as a folder")
	}
}

// The order of names is one: of any three, no two answers contradict.
func TestNamesHaveOneOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[aB0-2 ]{0,6}`)
		a, b, c := name.Draw(t, "a"), name.Draw(t, "b"), name.Draw(t, "c")
		if compareNames(a, b) != -compareNames(b, a) || (compareNames(a, b) == 0) != (a == b) {
			t.Fatalf("%q and %q", a, b)
		}
		if compareNames(a, b) <= 0 && compareNames(b, c) <= 0 && compareNames(a, c) > 0 {
			t.Fatalf("%q, %q, %q", a, b, c)
		}
	})
}

func TestMeant(t *testing.T) {
	if filepath.Separator != '/' {
		t.Skip("paths of another system")
	}
	for typed, want := range map[string]string{
		"":                                "",
		"  ":                              "",
		"skirt.qstep":                     "/home/anna/patterns/skirt.qstep",
		" old/skirt.qstep ":               "/home/anna/patterns/old/skirt.qstep",
		"..":                              "/home/anna",
		"~":                               "/home/anna",
		"~/Documents/../a b":              "/home/anna/a b",
		"~anna":                           "/home/anna/patterns/~anna",
		"/media/stick":                    "/media/stick",
		`"/media/my stick/a.jpg"`:         "/media/my stick/a.jpg",
		"file:///media/my%20stick/%C3%A4": "/media/my stick/ä",
	} {
		if got := Meant("/home/anna/patterns", "/home/anna", typed); got != want {
			t.Errorf("%q means %q, want %q", typed, got, want)
		}
	}
}

func mustList(t testing.TB, dir string) []Entry {
	t.Helper()
	entries, err := List(dir, photos)
	if err != nil {
		t.Fatal(err)
	}
	return entries
}

// While a file is looked for, what is typed leaves the rows that have it in
// their names, and Enter takes the first; a path is taken as it stands.
func TestOpening(t *testing.T) {
	dir := fill(t, "front.jpg", "back.jpg", "facing of front.jpg", "sub/deep.png")
	c := at(t, NewChooser(dir, photos), dir)
	if c.At() != 0 {
		t.Errorf("begins at row %d", c.At())
	}
	if got := at(t, NewChooser(dir, Kind{Endings: []string{".none"}}), filepath.Join(dir, "sub")).Accept(); got.What != Stay || got.Say == "" {
		t.Errorf("nothing to choose: %+v", got)
	}
	c.Type("FRONT")
	if want := []string{"facing of front.jpg", "front.jpg"}; !slices.Equal(names(c), want) || c.At() != 0 {
		t.Errorf("%q, row %d", names(c), c.At())
	}
	c.Move(1, false)
	if got := c.Accept().Now(); got.What != Take || !slices.Equal(got.Paths, []string{filepath.Join(dir, "front.jpg")}) {
		t.Errorf("%+v", got)
	}
	c.Type("nothing like it")
	if got := c.Accept().Now(); got.What != Stay || !strings.Contains(got.Say, "not there") {
		t.Errorf("%+v", got)
	}
	c.Type("sub")
	if got := c.Accept().Now(); got.What != Enter || got.Paths[0] != filepath.Join(dir, "sub") {
		t.Errorf("%+v", got)
	}
	c.Type("sub/deep.png")
	if got := c.Accept().Now(); got.What != Take || got.Paths[0] != filepath.Join(dir, "sub", "deep.png") {
		t.Errorf("%+v", got)
	}
	at(t, c, filepath.Join(dir, "sub"))
	if c.Typed() != "" || c.At() != 0 || c.Parent() != dir {
		t.Errorf("in the next folder %q is still typed, row %d", c.Typed(), c.At())
	}
	c.Show(dir, mustList(t, dir))
	if got := names(c)[c.At()]; got != "sub" {
		t.Errorf("back above, %q is in hand", got)
	}
	for letters, want := range map[string]string{"ba": "back.jpg", "of": "facing of front.jpg"} {
		if c.Find(letters); names(c)[c.At()] != want {
			t.Errorf("%q finds %q", letters, names(c)[c.At()])
		}
	}
}

// Several files are marked one by one, as a run, or all; folders never.
func TestSeveral(t *testing.T) {
	dir := fill(t, "a.jpg", "b.jpg", "c.jpg", "d.jpg", "sub/")
	c := NewChooser(dir, photos)
	c.Several = true
	at(t, c, dir)
	taken := func() (out []string) {
		for _, path := range c.Accept().Now().Paths {
			out = append(out, filepath.Base(path))
		}
		return out
	}
	c.Pick(1, true, false)
	c.Pick(3, true, false)
	c.Pick(0, true, false) // the folder
	if got := taken(); !slices.Equal(got, []string{"a.jpg", "c.jpg"}) {
		t.Errorf("one by one: %q", got)
	}
	c.Pick(1, true, false)
	if got := taken(); !slices.Equal(got, []string{"c.jpg"}) {
		t.Errorf("one no more: %q", got)
	}
	c.Pick(2, false, false)
	c.Move(2, true)
	if got := taken(); !slices.Equal(got, []string{"b.jpg", "c.jpg", "d.jpg"}) {
		t.Errorf("a run: %q", got)
	}
	c.All()
	if got := taken(); len(got) != 4 {
		t.Errorf("all: %q", got)
	}
	c.Pick(2, false, false)
	if got := taken(); !slices.Equal(got, []string{"b.jpg"}) {
		t.Errorf("one again: %q", got)
	}
	c.Pick(4, true, false)
	if got := taken(); !slices.Equal(got, []string{"b.jpg", "d.jpg"}) {
		t.Errorf("pressed, and another added: %q", got)
	}
	c.Pick(1, false, false)
	c.Move(1, false)
	c.Pick(3, true, false)
	if got := taken(); !slices.Equal(got, []string{"c.jpg"}) {
		t.Errorf("a row that the keys went over is taken too: %q", got)
	}
}

// A file to be written gets its ending, is asked about before it is written
// over, and goes nowhere that is not there.
func TestSaving(t *testing.T) {
	dir := fill(t, "there.qstep", "sub/")
	c := NewChooser(dir, Kind{Endings: []string{".qstep"}})
	c.Saving, c.Ending = true, ".qstep"
	c.Type("blouse")
	at(t, c, dir)
	try := func(typed string) Answer { c.Type(typed); return c.Accept().Now() }
	if got := c.Accept().Now(); got.What != Take || got.Paths[0] != filepath.Join(dir, "blouse.qstep") {
		t.Errorf("%+v", got)
	}
	for _, typed := range []string{"", "no/such/folder/x", "no such folder/", "a|b", "what?", "dot."} {
		if got := try(typed); got.What != Stay || got.Say == "" {
			t.Errorf("%q: %+v", typed, got)
		}
	}
	try("skirt")
	if got := try("sub"); got.What != Enter {
		t.Errorf("a folder's name: %+v", got)
	}
	if at(t, c, filepath.Join(dir, "sub")); c.Typed() != "skirt" {
		t.Errorf("in the folder the name is %q", c.Typed())
	}
	at(t, c, dir)
	if got := try("~/sub/x.QSTEP"); got.What != Take || got.Paths[0] != filepath.Join(dir, "sub", "x.QSTEP") {
		t.Errorf("%+v", got)
	}
	if got := try("blouse.qstep.qstep"); got.What != Take || got.Paths[0] != filepath.Join(dir, "blouse.qstep") {
		t.Errorf("a name with its ending, before the one offered: %+v", got)
	}
	if got := try("there"); got.What != Ask || !c.Asked() {
		t.Fatalf("written over unasked: %+v", got)
	}
	c.TakeBack()
	if got := c.Accept().Now(); got.What != Ask {
		t.Fatalf("written over after no: %+v", got)
	}
	if got := try("there too"); got.What != Take || c.Asked() {
		t.Errorf("%+v, asked %v", got, c.Asked())
	}
	try("there")
	if got := c.Accept().Now(); got.What != Take || got.Paths[0] != filepath.Join(dir, "there.qstep") {
		t.Errorf("%+v", got)
	}
	c.Pick(1, false, false)
	if c.Typed() != "there.qstep" {
		t.Errorf("a press on a file gives the name %q", c.Typed())
	}
}

func TestNewFolder(t *testing.T) {
	dir := fill(t, "sub/")
	c := at(t, NewChooser(dir, photos), dir)
	for _, name := range []string{"", " ", "sub", "a/b", "a:b", ".."} {
		if got := c.NewFolder(name).Now(); got.What != Stay || got.Say == "" {
			t.Errorf("%q was made", name)
		}
	}
	path := filepath.Join(dir, "Sommer 1")
	if got := c.NewFolder(" Sommer 1 ").Now(); got.What != Enter || got.Paths[0] != path || !Stat(os.Stat).isFolder(path) {
		t.Errorf("%+v", got)
	}
}

// TestADriveThatDoesNotAnswer: what is asked of a disk is asked by Look alone, and a place
// that does not answer keeps no other from being listed.
func TestADriveThatDoesNotAnswer(t *testing.T) {
	dir := fill(t, "sub/", "a.jpg")
	gone := make(chan struct{})
	defer close(gone)
	hangs := func(path string) (os.FileInfo, error) {
		if strings.HasPrefix(path, "/gone") {
			<-gone
		}
		return os.Stat(path)
	}
	for _, saving := range []bool{false, true} {
		c := at(t, NewChooser(dir, photos), dir)
		c.Stat, c.Saving = hangs, saving
		c.Type("/gone/a.jpg")
		if got := c.Accept(); got.What != Wait || got.Look.Path != "/gone/a.jpg" {
			t.Errorf("saving %v: %+v", saving, got)
		}
		c.Show("/gone", nil)
		if got := c.NewFolder("b"); got.What != Wait {
			t.Errorf("a new folder: %+v", got)
		}
	}
	began := time.Now()
	there := foldersOf(hangs, []string{dir, "/gone/shelf", filepath.Join(dir, "sub"), filepath.Join(dir, "a.jpg")}, 50*time.Millisecond)
	if !there[dir] || !there[filepath.Join(dir, "sub")] || there["/gone/shelf"] || there[filepath.Join(dir, "a.jpg")] || time.Since(began) > 5*time.Second {
		t.Errorf("after %v there are %v", time.Since(began), there)
	}
}

// Places follow the file in which freedesktop.org's xdg-user-dirs keeps the
// sewist's folders (its manual gives the form XDG_NAME_DIR="$HOME/path").
func TestPlaces(t *testing.T) {
	home := fill(t, "Dokumente/", "Pictures/", "last/", "stick/")
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(home, "config"))
	if err := os.MkdirAll(filepath.Join(home, "config"), 0o755); err != nil {
		t.Fatal(err)
	}
	kept := "# words\nXDG_DOCUMENTS_DIR=\"$HOME/Dokumente\"\nXDG_DOWNLOAD_DIR=\"/no/such\"\nXDG_DESKTOP_DIR=\"relative\"\n"
	if err := os.WriteFile(filepath.Join(home, "config", "user-dirs.dirs"), []byte(kept), 0o600); err != nil {
		t.Fatal(err)
	}
	got := map[string]Place{}
	for _, p := range Places(home, []string{filepath.Join(home, "last"), filepath.Join(home, "gone"), home}) {
		got[p.Name] = p
	}
	for name, want := range map[string]string{"Home": "", "Documents": "Dokumente", "Pictures": "Pictures", "last": "last"} {
		if got[name].Path != filepath.Join(home, want) {
			t.Errorf("%s is %q", name, got[name].Path)
		}
	}
	if got["last"].Sort != Recent {
		t.Error("a folder used last stands among her own")
	}
	for _, name := range []string{"Downloads", "Desktop", "gone", filepath.Base(home)} {
		if p, ok := got[name]; ok {
			t.Errorf("%s is offered: %+v", name, p)
		}
	}
	if got := mounted([]string{home, "/no/such"}); len(got) != 5 {
		t.Errorf("%d places mounted: %+v", len(got), got)
	}
}

// FuzzMeant: whatever is typed, the path is whole, and saving there never
// panics.
func FuzzMeant(f *testing.F) {
	for _, s := range []string{"~/x", "file://%", "\"\"", "..", "C:\\x", "'", "//", "~\x00"} {
		f.Add(s)
	}
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, typed string) {
		got := Meant(dir, dir, typed)
		if got != "" && !filepath.IsAbs(got) {
			t.Fatalf("%q means %q", typed, got)
		}
		c := NewChooser(dir, Kind{})
		c.Saving, c.Ending = true, ".pdf"
		c.Show(dir, nil)
		c.Type(typed)
		c.Accept().Now()
	})
}
