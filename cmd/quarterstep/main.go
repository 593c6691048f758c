// Command quarterstep opens the window.
//
//	quarterstep [-demo] [FILE.qstep]
package main

import (
	"flag"
	"fmt"
	"os"

	quarterstep "quarterstep/app"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/ui"

	"fyne.io/fyne/v2/app"
)

func main() {
	demo := flag.Bool("demo", false, "open the demo blouse")
	flag.Parse()
	if err := run(*demo, flag.Arg(0)); err != nil {
		fmt.Fprintln(os.Stderr, "quarterstep:", err)
		os.Exit(1)
	}
}

func run(demo bool, file string) error {
	dir, err := settings.Dir()
	if err != nil {
		dir = "" // nowhere to keep habits: the window works without
	}
	doc := ui.Recovered(dir)
	recovered := doc != nil
	if !recovered {
		if doc, err = document(demo, file); err != nil {
			return err
		}
	}
	w := ui.Open(app.NewWithID("quarterstep"), doc, settings.Load(dir), dir)
	if recovered {
		w.SayRecovered()
	}
	w.ShowAndRun()
	return nil
}

// document is what the window opens with.
func document(demo bool, file string) (*session.Session, error) {
	switch {
	case file != "":
		return session.Open(file)
	case demo:
		p, err := quarterstep.DemoBlouse()
		if err != nil {
			return nil, err
		}
		return session.New(p)
	}
	return session.New(model.Pattern{})
}
