// Command quarterstep opens the window.
//
//	quarterstep [-demo] [FILE.qstep | PHOTO ...]
//
// Photos and scans are brought in as if dropped on the window.
package main

import (
	"flag"
	"fmt"
	"os"

	quarterstep "quarterstep/app"
	"quarterstep/app/paper"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model"
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
	doc, err := document(demo, files)
	if err != nil {
		return err
	}
	app.SetMetadata(fyne.AppMetadata{ID: appID, Migrations: checkedThreads})
	w := ui.Open(app.NewWithID(appID), doc, habits, dir)
	w.OfferLeft()
	if len(files) > 0 && paper.IsPicture(files[0]) {
		w.BringIn(files)
	}
	w.ShowAndRun()
	return nil
}

// document is what the window opens with.
func document(demo bool, files []string) (*session.Session, error) {
	switch {
	case len(files) > 0 && !paper.IsPicture(files[0]):
		return session.Open(files[0])
	case demo:
		p, err := quarterstep.DemoBlouse()
		if err != nil {
			return nil, err
		}
		return session.New(p)
	}
	return session.New(model.Pattern{})
}
