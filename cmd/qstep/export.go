package main

import (
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"

	"quarterstep/app"
	"quarterstep/model"
)

// export hands a pattern on to other programs and machines.
func export(args []string, _ io.Writer) error {
	fs := flag.NewFlagSet("export", flag.ContinueOnError)
	sizes := fs.String("size", "", "")
	as := fs.String("as", "", "")
	to := fs.String("o", "", "")
	noMarks := fs.Bool("no-marks", false, "")
	var longer, pieces many
	fs.Var(&longer, "longer", "")
	fs.Var(&pieces, "piece", "")
	files, typed, err := parseMeasured(fs, args, 1, "as", "o")
	if err != nil {
		return err
	}
	if !slices.Contains(app.Exports, *as) {
		return fmt.Errorf("%w: --as is %s", errUsage, orList(app.Exports))
	}
	p, err := app.Open(files[0])
	if err != nil {
		return err
	}
	choice := app.PrintChoice{Sizes: sizeList(*sizes), Marks: !*noMarks}
	if len(choice.Sizes) == 0 && len(typed) == 0 && !p.Target.Own() {
		return fmt.Errorf("%w: --size is missing", errUsage)
	}
	one := ""
	if len(choice.Sizes) == 1 {
		one, choice.Sizes = choice.Sizes[0], nil
	}
	if p, err = aim(p, one, typed, longer); err != nil {
		return err
	}
	choice.WithTarget = len(choice.Sizes) > 0 && len(typed) > 0
	if choice.Pieces, err = idsNamed(p, pieces); err != nil {
		return err
	}
	return app.WriteFile(*to, func(w io.Writer) error { return app.Export(w, p, choice, *as) })
}

// sizeList reads "44, 46,48"; none of nothing.
func sizeList(text string) []string {
	if text == "" {
		return nil
	}
	var out []string
	for s := range strings.SplitSeq(text, ",") {
		out = append(out, strings.TrimSpace(s))
	}
	return out
}

// idsNamed is the IDs of the pieces with those names.
func idsNamed(p model.Pattern, names []string) ([]string, error) {
	var out []string
	for _, name := range names {
		ids, err := piecesNamed(p, name)
		if err != nil {
			return nil, err
		}
		out = append(out, ids...)
	}
	return out, nil
}

// orList is "svg, json or csv".
func orList(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
