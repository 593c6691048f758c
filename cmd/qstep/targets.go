package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"quarterstep/app"
	"quarterstep/model/trace/target"
	"quarterstep/printing/tile"
)

// targets writes the sheet of targets that makes a photo flat and to scale.
func targets(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("targets", flag.ContinueOnError)
	kind := fs.String("kind", string(target.Strips), "")
	paper := fs.String("paper", "a4", "")
	to := fs.String("o", "", "")
	if _, err := parse(fs, args, 0, "o"); err != nil {
		return err
	}
	set := target.Set(strings.ToLower(*kind))
	if set != target.Strips && set != target.Corners {
		return fmt.Errorf("%w: --kind is strips or corners", errUsage)
	}
	on, err := tile.ParsePaper(*paper)
	if err != nil {
		return err
	}
	if err := app.WriteFile(*to, func(w io.Writer) error { return app.WriteTargetSheet(w, set, on, tile.Printer{}) }); err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: targets to print at 100 %%, cut apart and lay round a piece before you photograph it.\n", *to)
	return nil
}
