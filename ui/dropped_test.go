package ui

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
)

// What is dropped together is taken for what it is: a folder for its photos, in
// the order of their numbers, and what is of no use is named.
func TestDropped(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"photos/p10.png", "photos/p9.png", "photos/notes.txt", "notes.txt"} {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte("no picture"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	uris := func(names ...string) (out []fyne.URI) {
		for _, n := range names {
			out = append(out, storage.NewFileURI(filepath.Join(dir, n)))
		}
		return out
	}
	var got []string
	for _, path := range droppedPaths(uris("photos", "notes.txt")) {
		got = append(got, filepath.Base(path))
	}
	if want := []string{"p9.png", "p10.png", "notes.txt"}; !slices.Equal(got, want) {
		t.Errorf("dropped %q, want %q", got, want)
	}
	w := open(t)
	w.aside = func(context.Context, func()) {}
	w.dropped(fyne.Position{}, uris("notes.txt"))
	if len(w.paper.photos) != 0 || !strings.HasPrefix(w.status.Text(), "Drop photos") {
		t.Errorf("a wrong kind: %d photos, said %q", len(w.paper.photos), w.status.Text())
	}
	w.dropped(fyne.Position{}, uris("notes.txt", "photos"))
	if len(w.paper.photos) != 2 || !strings.Contains(w.status.Text(), "notes.txt") {
		t.Errorf("%d photos, said %q", len(w.paper.photos), w.status.Text())
	}
	w.say("The photos are read.")
	w.refresh()
	if !strings.Contains(w.status.Text(), "notes.txt") {
		t.Errorf("the next message takes away what was left out: %q", w.status.Text())
	}
	w.goTo(stepGrade)
	if strings.Contains(w.status.Text(), "notes.txt") {
		t.Errorf("at another step it still says %q", w.status.Text())
	}
	w.dropped(fyne.Position{}, uris("photos/p9.png", "gone.qstep"))
	if !w.dialogOpen {
		t.Error("a project among the files is not opened, nor said why not")
	}
}
