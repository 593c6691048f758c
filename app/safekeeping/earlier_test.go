package safekeeping

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

func TestEarlierVersions(t *testing.T) {
	dir, path := t.TempDir(), filepath.Join(t.TempDir(), "blouse.qstep")
	must(t, KeepEarlier(dir, path)) // nothing there yet
	if got := Earlier(dir, path); len(got) != 0 {
		t.Errorf("versions of a file that is not there: %v", got)
	}
	must(t, os.WriteFile(path, []byte("one"), 0o600))
	must(t, KeepEarlier(dir, path))
	must(t, os.WriteFile(path, []byte("two"), 0o600))
	must(t, KeepEarlier(dir, path))
	got := Earlier(dir, path)
	if len(got) != 2 {
		t.Fatalf("%d versions", len(got))
	}
	for i, want := range []string{"two", "one"} {
		if data, err := os.ReadFile(got[i].Path); err != nil || string(data) != want {
			t.Errorf("version %d is %q, %v", i, data, err)
		}
	}
	if got := Earlier(dir, filepath.Join(t.TempDir(), "blouse.qstep")); len(got) != 0 {
		t.Errorf("another blouse has %d versions", len(got))
	}
}

// Saved every three minutes for a month of evenings, eleven versions stay at most,
// and at any time there is one from within each span of time.
func TestVersionsAreThinned(t *testing.T) {
	dir, path := t.TempDir(), filepath.Join(t.TempDir(), "a.qstep")
	must(t, os.WriteFile(path, []byte("x"), 0o600))
	begun := time.Date(2025, 3, 1, 19, 0, 0, 0, time.UTC)
	for evening := range 30 {
		for save := range 20 {
			now := begun.AddDate(0, 0, evening).Add(time.Duration(save) * 3 * time.Minute)
			must(t, keepEarlier(dir, path, now))
			got := Earlier(dir, path)
			if len(got) > 11 {
				t.Fatalf("evening %d, save %d: %d versions", evening, save, len(got))
			}
			if evening < 10 || save < 8 {
				continue
			}
			for _, span := range [][2]time.Duration{{0, 10 * time.Minute}, {10 * time.Minute, time.Hour}, {time.Hour, 48 * time.Hour}, {48 * time.Hour, 10 * 24 * time.Hour}} {
				found := false
				for _, v := range got {
					age := now.Sub(v.When)
					found = found || age >= span[0] && age <= span[1]
				}
				if !found {
					t.Fatalf("evening %d, save %d: none between %v and %v old", evening, save, span[0], span[1])
				}
			}
		}
	}
}
