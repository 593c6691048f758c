package assets

import (
	"os/exec"
	"strings"
	"testing"
)

// Every module that the programs are built of stands in the licences, in the
// version that is used: go list says which those are. Written anew by
// .ci/licences.
func TestLicencesAreThoseOfWhatIsBuiltIn(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}", "../cmd/...").Output()
	if err != nil {
		t.Skipf("the modules cannot be listed here: %v", err)
	}
	seen := map[string]bool{}
	for _, module := range strings.Fields(strings.ReplaceAll(string(out), " ", "@")) {
		if seen[module] {
			continue
		}
		seen[module] = true
		if line := "\n" + strings.Replace(module, "@", " ", 1) + "\n"; !strings.Contains(Licences, line) {
			t.Errorf("%s is built in and its licence is not listed: run .ci/licences >assets/licences.txt", module)
		}
	}
	if len(seen) < 5 {
		t.Errorf("only %d modules are built in?", len(seen))
	}
	if strings.Contains(Licences, "/root/") || strings.Contains(Licences, "pkg/mod") {
		t.Error("a path of the machine that wrote them is in the licences")
	}
}
