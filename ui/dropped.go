package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"quarterstep/app/folders"
	"quarterstep/assets/words"
)

// dropped takes files dropped on the window: a project, a size chart, or all
// that can be brought in; a folder stands for what can be brought in of it.
func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) == 0 || w.dialogOpen {
		return
	}
	var paths []string
	away(func() error {
		paths = droppedPaths(files)
		return nil
	}, func(error) {
		if !w.dialogOpen {
			w.droppedFiles(paths)
		}
	})
}

func (w *Window) droppedFiles(paths []string) {
	if i := slices.IndexFunc(paths, hasEnding(projectExt)); i >= 0 {
		w.ifSafe(func() { w.open(paths[i]) })
		return
	}
	if i := slices.IndexFunc(paths, hasEnding(".csv")); i >= 0 {
		w.useChart(paths[i])
		return
	}
	var left []string
	kind := bringInKinds()[0]
	usable := slices.DeleteFunc(paths, func(path string) bool {
		if kind.Has(path) {
			return false
		}
		left = append(left, filepath.Base(path))
		return true
	})
	if len(usable) == 0 {
		w.say(words.T("Drop photos or scans, an SVG of a nest, a project, or a size chart in CSV."))
		return
	}
	w.leftOut = ""
	w.bringInFiles(usable)
	if len(left) > 0 {
		w.leftOut = words.F("Left out, as it cannot be brought in: %s", strings.Join(left, ", "))
	}
	w.showStatus()
}

// droppedPaths are the paths of what was dropped, a folder's files in its place.
func droppedPaths(files []fyne.URI) []string {
	const most = 200 // photos of a folder
	var out []string
	for _, f := range files {
		path := filepath.Clean(f.Path())
		if info, err := os.Stat(path); err != nil || !info.IsDir() {
			out = append(out, path)
			continue
		}
		found, err := folders.List(path, bringInKinds()[0])
		if err != nil {
			continue
		}
		folders.Sort(found, folders.ByName)
		for _, e := range found {
			if !e.Folder && len(out) < most {
				out = append(out, filepath.Join(path, e.Name))
			}
		}
	}
	return out
}

func hasEnding(ending string) func(path string) bool {
	return func(path string) bool { return strings.EqualFold(filepath.Ext(path), ending) }
}
