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
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, fileName), []byte(`{"dark": tru`), 0o600); err != nil {
		t.Fatal(err)
	}
	if s := Load(dir); s.Dark || s.Recent != nil {
		t.Errorf("got %+v", s)
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
}
