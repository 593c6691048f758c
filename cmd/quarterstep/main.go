// Command quarterstep opens the window.
//
//	quarterstep [-demo] [FILE.qstep | FILE.svg | PHOTO ...]
//
// Photos, scans and drawings are brought in as if dropped on the window.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	quarterstep "quarterstep/app"
	"quarterstep/app/paper"
	"quarterstep/app/settings"
	"quarterstep/ui"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
)

const appID = "quarterstep"

// checkedThreads tells the toolkit that what is done beside the window comes back
// by fyne.Do, so that it need not find out which thread it is on each time
// something is drawn anew, which took a tenth of the window's work. Tests run
// without it and would say.
var checkedThreads = map[string]bool{"fyneDo": true}

func main() {
	demo := flag.Bool("demo", false, "open the demo blouse") // words: none
	flag.Parse()
	if err := run(*demo, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "quarterstep:", err)
		os.Exit(1)
	}
}

func run(demo bool, files []string) error {
	dir, err := settings.Dir()
	if err != nil {
		dir = "" // nowhere to keep habits: the window works without
	}
	habits := settings.Load(dir)
	ui.Speak(habits.Language)
	ui.GoByRegion()
	app.SetMetadata(fyne.AppMetadata{ID: appID, Migrations: checkedThreads})
	ui.Start(app.NewWithID(appID), habits, dir, first(demo, files)).ShowAndRun()
	return nil
}

// first is what the window opens with.
func first(demo bool, files []string) ui.First {
	switch {
	case len(files) > 0 && (paper.IsPicture(files[0]) || strings.EqualFold(filepath.Ext(files[0]), ".svg")):
		return ui.First{Files: files}
	case len(files) > 0:
		return ui.First{Path: files[0]}
	case demo:
		return ui.First{Pattern: quarterstep.DemoBlouse}
	}
	return ui.First{}
}
