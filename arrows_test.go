package quarterstep_test

import (
	"os/exec"
	"strings"
	"testing"
)

// layers lists, for each package, the project packages it may reach; a name
// ending in /... stands for the package and all below it. Packages not named
// as a key may not exist.
var layers = map[string][]string{
	"model/geom":           {},
	"model/measure":        {},
	"assets":               {},
	"assets/words":         {},
	"assets/words/gather":  {},
	"model":                {"model/geom", "model/measure"},
	"model/sizechart":      {"model", "model/geom", "model/measure", "model/glossary", "assets"},
	"model/crew":           {},
	"model/jsonsize":       {},
	"model/store":          {"model", "model/geom", "model/measure", "model/jsonsize"},
	"model/glossary":       {},
	"model/exchange":       {"model", "model/geom", "model/measure", "model/glossary"},
	"model/draft":          {"model", "model/geom", "model/measure"},
	"model/trace/picture":  {"model/crew"},
	"model/trace/straight": {"model/geom", "model/measure", "model/crew"},
	"model/trace/target":   {"model/geom", "model/measure", "model/trace/straight", "model/crew"},
	"model/trace/follow":   {"model/geom", "model/measure", "model/crew"},
	"grading/spread":       {"model/..."},
	"grading/nest":         {"model/...", "grading/spread"},
	"grading/length":       {"model/...", "grading/spread"},
	"grading/seam":         {"model/..."},
	"grading/link":         {"model/...", "grading/seam"},
	"grading/dart":         {"model/..."},
	"grading/match":        {"model/..."},
	"grading/propose":      {"model/...", "grading/seam", "grading/link"},
	"grading":              {"model/...", "grading/nest", "grading/spread", "grading/link", "grading/seam", "grading/length", "grading/dart"},
	"grading/girth":        {"model/...", "grading", "grading/nest", "grading/spread", "grading/link", "grading/seam", "grading/length", "grading/dart"},
	"grading/check":        {"model/...", "grading", "grading/girth", "grading/nest", "grading/spread", "grading/link", "grading/seam", "grading/length", "grading/dart"},
	"printing":             {"model/geom"},
	"printing/tile":        {"model/geom", "model/measure", "printing"},
	"printing/page":        {"model/geom", "printing"},
	"printing/proof":       {"model/geom", "model/measure", "printing", "printing/tile"},
	"printing/handsheet":   {"model/geom", "model/measure", "printing", "printing/page", "printing/tile"},
	"printing/scale":       {"model/geom", "model/measure", "printing", "printing/tile"},
	"printing/testpage":    {"model/geom", "model/measure", "printing", "printing/page", "printing/tile"},
	"printing/targetsheet": {"model/geom", "model/measure", "model/crew", "model/trace/target", "model/trace/straight", "printing", "printing/page", "printing/tile"},
	"printing/ipp":         {},
	"printing/spool":       {"model/geom", "model/measure", "printing", "printing/ipp", "printing/tile"},
	"printing/svg":         {"model/geom", "model/measure", "printing", "printing/tile"},
	"printing/summary":     {"model/geom", "printing", "printing/page", "printing/tile", "model/measure"},
	"printing/pdf":         {"model/geom", "model/measure", "printing", "printing/page", "printing/tile", "assets"},
	"app":                  {"model/...", "grading/...", "printing/...", "assets", "app/..."},
	"app/session":          {"model/...", "grading/..."},
	"app/safekeeping":      {"model/...", "grading/...", "app/session"},
	"app/folders":          {},
	"app/edit":             {"model/...", "grading/..."},
	"app/paper":            {"model/..."},
	"app/trace":            {"model/...", "app/edit", "app/paper", "grading/..."},
	"app/settings":         {"model/..."},
	"ui/...":               {"model/...", "grading/...", "printing/...", "assets", "app/...", "ui/..."},
	"cmd/qstep":            {"model/...", "grading/...", "printing/...", "assets", "app/...", "ui/view", "ui/scene", "ui/paint", "ui/theme/palette"},
	"cmd/quarterstep":      {"model/...", "grading/...", "printing/...", "assets", "app/...", "ui/..."},
}

// noGUI are the packages that must build without a C compiler or a display.
var noGUI = []string{"model/...", "grading/...", "printing/...", "assets", "app/...", "cmd/qstep"}

// TestArrows holds the import arrows of DEVELOPERS.md: imports run downward
// only, and the window toolkit stays in ui and cmd/quarterstep.
func TestArrows(t *testing.T) {
	out, err := exec.Command("go", "list", "-e", "-f", `{{.ImportPath}}: {{join .Deps " "}}`, "./...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	seen := 0
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		pkg, deps, _ := strings.Cut(line, ": ")
		name := strings.TrimPrefix(pkg, "quarterstep/")
		if name == "quarterstep" {
			continue
		}
		seen++
		allowed, ok := lookup(name)
		if !ok {
			t.Errorf("package %s has no place in the layers: add it to this test and to DEVELOPERS.md", name)
			continue
		}
		for _, d := range strings.Fields(deps) {
			own, project := strings.CutPrefix(d, "quarterstep/")
			if project && own != "assets/words" && !matches(own, allowed) { // everybody may speak
				t.Errorf("%s may not reach %s", name, own)
			}
			if strings.HasPrefix(d, "fyne.io/") && matches(name, noGUI) {
				t.Errorf("%s may not reach %s", name, d)
			}
		}
	}
	if seen < 15 {
		t.Errorf("go list named only %d packages", seen)
	}
}

func lookup(name string) ([]string, bool) {
	if a, ok := layers[name]; ok {
		return a, true
	}
	for k, a := range layers {
		if matches(name, []string{k}) {
			return a, true
		}
	}
	return nil, false
}

func matches(name string, patterns []string) bool {
	for _, p := range patterns {
		base, tree := strings.CutSuffix(p, "/...")
		if name == base || tree && strings.HasPrefix(name, base+"/") {
			return true
		}
	}
	return false
}
