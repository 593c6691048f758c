package page

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// A file not built as finish knows it is refused, not made worse.
func TestFinishRefusesWhatItDoesNotKnow(t *testing.T) {
	good := "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nendobj\nxref\n0 2\n0000000000 65535 f \n0000000009 00000 n \ntrailer\n<<\n/Size 2\n/Root 1 0 R\n>>\nstartxref\n45\n%%EOF\n"
	out, err := finish([]byte(good))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"%PDF-1.7\n1 0 obj\n<<\n/Type /Catalog\n", "/PrintScaling /None"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	at := strings.Index(string(out), "xref\n0 2")
	if end := fmt.Sprintf("startxref\n%d\n%%%%EOF\n", at); !strings.HasSuffix(string(out), end) {
		t.Errorf("the table is at %d:\n%s", at, out)
	}
	for name, bad := range map[string]string{
		"empty":            "",
		"no end":           strings.Replace(good, "%%EOF", "", 1),
		"table elsewhere":  strings.Replace(good, "\n45\n", "\n46\n", 1),
		"table beyond":     strings.Replace(good, "\n45\n", "\n5000\n", 1),
		"object elsewhere": strings.Replace(good, "0000000009", "0000000900", 1),
		"no objects":       strings.Replace(good, "0000000009 00000 n \n", "", 1),
		"no trailer":       strings.Replace(good, "trailer", "trainer", 1),
		"stream cut short": strings.Replace(good, "<<\n/Type /Catalog\n>>", "<</Length 99>>\nstream\nab", 1),
	} {
		if _, err := finish([]byte(bad)); !errors.Is(err, errShape) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
