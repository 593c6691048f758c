package main

import (
	"errors"
	"flag"
	"fmt"
	"strings"

	"quarterstep/app"
	"quarterstep/model"
)

// parseMeasured is parse for a command that takes a wearer's own measurements
// too; they are given as typed, by name.
func parseMeasured(fs *flag.FlagSet, args []string, n int, must ...string) (files []string, typed map[string]string, err error) {
	rest, typed, err := typedMeasures(fs, args)
	if err != nil {
		return nil, nil, err
	}
	files, err = parse(fs, rest, n, must...)
	return files, typed, err
}

// typedMeasures takes the flags fs does not know out of args, each with its
// value: they are body measures, and which there are is the chart's to say.
func typedMeasures(fs *flag.FlagSet, args []string) (rest []string, typed map[string]string, err error) {
	typed = map[string]string{}
	for len(args) > 0 {
		name, value, whole := flagOf(args[0])
		f := fs.Lookup(name)
		switch {
		case name == "" || f != nil && (whole || isSwitch(f)):
			rest, args = append(rest, args[0]), args[1:]
		case f != nil:
			n := min(2, len(args))
			rest, args = append(rest, args[:n]...), args[n:]
		case name == "h" || name == "help":
			return nil, nil, flag.ErrHelp
		case whole:
			typed[name], args = value, args[1:]
		case len(args) == 1 || isFlag(args[1]):
			return nil, nil, fmt.Errorf("%w: -%s needs a length", errUsage, name)
		default:
			typed[name], args = args[1], args[2:]
		}
	}
	return rest, typed, nil
}

// flagOf reads "--name" and "--name=value"; whole tells them apart. What is no
// flag has no name.
func flagOf(arg string) (name, value string, whole bool) {
	if !isFlag(arg) {
		return "", "", false
	}
	return strings.Cut(strings.TrimLeft(arg, "-"), "=")
}

// isFlag reports that arg is a flag and not a file or a length below nothing.
func isFlag(arg string) bool {
	name := strings.TrimLeft(arg, "-")
	return len(name) < len(arg) && name != "" && !strings.ContainsAny(name[:1], "0123456789.")
}

func isSwitch(f *flag.Flag) bool {
	b, ok := f.Value.(interface{ IsBoolFlag() bool })
	return ok && b.IsBoolFlag()
}

// aim is app.Aim and then app.Lengthen, with a measure the chart lacks, or a
// name the pattern lacks, told as wrong usage.
func aim(p model.Pattern, size string, typed map[string]string, longer []string) (model.Pattern, error) {
	p, err := app.Aim(p, size, typed)
	var none app.NoMeasure
	if errors.As(err, &none) {
		return p, fmt.Errorf("%w: there is no flag -%s; %w", errUsage, none.Name, err)
	}
	if err != nil {
		return p, err
	}
	p, err = app.Lengthen(p, longer)
	var missing app.NoLength
	if errors.As(err, &missing) {
		return p, fmt.Errorf("%w: %w", errUsage, err)
	}
	return p, err
}
