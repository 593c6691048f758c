package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"quarterstep/app"
	"quarterstep/model"
)

func charts(args []string, out io.Writer) error {
	if _, err := parse(flag.NewFlagSet("charts", flag.ContinueOnError), args, 0); err != nil {
		return err
	}
	for _, c := range app.Charts() {
		names := make([]string, len(c.Sizes))
		for i, s := range c.Sizes {
			names[i] = s.Name
		}
		fmt.Fprintf(out, "%s\n  %s\n  sizes %s\n  source: %s\n  status: %s\n", c.ID, c.Name, strings.Join(names, " "), c.Source, c.Status)
	}
	return nil
}

func grade(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("grade", flag.ContinueOnError)
	size := fs.String("to", "", "")
	by := fs.String("by", "chart", "")
	to := fs.String("o", "", "")
	var longer many
	fs.Var(&longer, "longer", "")
	files, typed, err := parseMeasured(fs, args, 1, "o")
	if err != nil {
		return err
	}
	if *size == "" && len(typed) == 0 && len(longer) == 0 {
		return fmt.Errorf("%w: --to is missing, or a measurement such as --bust 122cm", errUsage)
	}
	method := model.Method(*by)
	if method != model.ByChart && method != model.BySteps {
		return fmt.Errorf("%w: --by is chart or steps", errUsage)
	}
	file, err := app.OpenFile(files[0])
	if err != nil {
		return err
	}
	p := file.Pattern
	p.Target.Method = method
	if p, err = aim(p, *size, typed, longer); err != nil {
		return err
	}
	r, err := app.Grade(p)
	if err != nil {
		return err
	}
	file.Pattern = p
	if err := app.SaveFile(*to, file); err != nil {
		return err
	}
	fmt.Fprintf(out, "Graded to %s by %s.\n", p.Target.NameOn(p.Chart), method)
	for _, s := range append(app.WearerText(p), app.LengthText(p)...) {
		fmt.Fprintln(out, s)
	}
	for _, s := range app.ShortText(p, r) {
		fmt.Fprintln(out, s)
	}
	return nil
}
