package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// A limit given lets through what was found, or finds what was let through, and
// is not kept in the file.
func TestCheckWithLimits(t *testing.T) {
	p := cleanBlouse(t, t.TempDir())
	far := filepath.Join(t.TempDir(), "far.qstep")
	done(t, "grade", p, "--to", "52", "-o", far)
	if s := qstep("check", far); s.code != exitLook || !strings.Contains(s.out, "steps past the printed sizes") {
		t.Errorf("exit %d: %s", s.code, s.out)
	}
	if s := qstep("check", far, "--limit", "far=6 steps"); s.code != exitDone {
		t.Errorf("exit %d: %s", s.code, s.out)
	}
	if s := qstep("check", far); s.code != exitLook {
		t.Error("the limit was kept")
	}
	if s := qstep("check", far, "--limit", "patience=3"); s.code != exitUsage || !strings.Contains(s.errs, "--limits lists them") {
		t.Errorf("exit %d: %s", s.code, s.errs)
	}
	if s := qstep("check", far, "--limit", "seams=lots"); s.code != exitInput || !strings.Contains(s.errs, `"seams"`) {
		t.Errorf("exit %d: %s", s.code, s.errs)
	}
	s := qstep("check", far, "--limits", "--limit=square=4")
	if s.code != exitDone || !strings.Contains(s.out, "Threads no. 200") || !strings.Contains(s.out, "4°, as usual 2.5°") {
		t.Errorf("exit %d: %s", s.code, s.out)
	}
}
