package settings

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

func TestRoundTrip(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	file := filepath.Join(t.TempDir(), "a.qstep")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	s := Settings{Dark: true, Paper: "letter"}.WithRecent(file).WithRecent("gone.qstep").WithRecent(file)
	if len(s.Recent) != 2 || s.Recent[0] != file {
		t.Fatalf("recent %v", s.Recent)
	}
	if err := s.Save(dir); err != nil {
		t.Fatal(err)
	}
	got := Load(dir)
	if len(got.Recent) != 1 || got.Recent[0] != file || !got.Dark || got.Paper != "letter" || got.Folder != filepath.Dir(file) {
		t.Errorf("read back %+v", got)
	}
}

func TestSpoiltFileIsTheFirstDay(t *testing.T) {
	for _, text := range []string{``, `{"dark": tru`, `{"dark": true, "recent": 3}`, `[]`} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, fileName), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if s := Load(dir); s.Dark || s.Recent != nil {
			t.Errorf("%q: got %+v", text, s)
		}
	}
}

func TestNowhereIsTheFirstDay(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := (Settings{Dark: true}).Save("."); err != nil {
		t.Fatal(err)
	}
	if s := Load(""); s.Dark {
		t.Error("the folder of the day was read as the settings' own")
	}
	if s := Load("."); !s.Dark {
		t.Error("what was saved is not read")
	}
}

func TestASaveThatFailsKeepsTheOldFile(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, fileName, "in the way"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := (Settings{}).Save(dir); err == nil {
		t.Error("a folder was replaced by the settings")
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("left behind: %v, %v", entries, err)
	}
}

func TestRecentStaysShort(t *testing.T) {
	var s Settings
	for i := range 20 {
		s = s.WithRecent(strconv.Itoa(i))
	}
	if len(s.Recent) != maxRecent || s.Recent[0] != "19" {
		t.Errorf("recent %v", s.Recent)
	}
	dir := t.TempDir()
	var long Settings
	for i := range 20 {
		path := filepath.Join(dir, strconv.Itoa(i))
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		long.Recent = append(long.Recent, path)
	}
	if err := long.Save(dir); err != nil {
		t.Fatal(err)
	}
	if got := Load(dir).Recent; len(got) != maxRecent || got[0] != filepath.Join(dir, "0") {
		t.Errorf("a longer list is read as %v", got)
	}
}
