package settings

import (
	"fmt"
	"maps"
	"testing"
)

func TestPrintedPages(t *testing.T) {
	var s Settings
	if s.PagesOf("a") != nil {
		t.Error("nothing was printed, and something is remembered")
	}
	before := s.WithPrinted("a", map[string]string{"A1": "x", "A2": "y"})
	s = before.WithPrinted("a", map[string]string{"A2": "z"})
	if got := s.PagesOf("a"); !maps.Equal(got, map[string]string{"A1": "x", "A2": "z"}) {
		t.Errorf("remembered %v", got)
	}
	if got := before.PagesOf("a")["A2"]; got != "y" {
		t.Error("what was remembered before is changed")
	}
	for i := range 2 * mostPrinted {
		s = s.WithPrinted(fmt.Sprint(i), map[string]string{"A1": "x"})
	}
	if len(s.Printed) != mostPrinted || s.PagesOf("a") != nil || s.PagesOf(fmt.Sprint(2*mostPrinted-1)) == nil {
		t.Errorf("%d projects are remembered", len(s.Printed))
	}
	dir := t.TempDir()
	if err := s.Save(dir); err != nil {
		t.Fatal(err)
	}
	if got := Load(dir).PagesOf(fmt.Sprint(2*mostPrinted - 1)); got["A1"] != "x" {
		t.Errorf("read back %v", got)
	}
}
