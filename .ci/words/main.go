package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/assets/words/gather"
)

func main() {
	missing := flag.Bool("missing", false, "print what has no translation")
	bare := flag.Bool("bare", false, "print literals that are not gathered")
	with := flag.String("with", "", "take in the translations of these files (a pattern)")
	flag.Parse()
	if err := run(*missing, *bare, *with, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "words:", err)
		os.Exit(1)
	}
}

func run(missing, bare bool, with string, under []string) error {
	ms, lone, err := gather.In(".")
	if err != nil {
		return err
	}
	if bare {
		for _, b := range lone {
			if within(b.File, under) {
				fmt.Printf("%s:%d: %q\n", b.File, b.Line, b.Text)
			}
		}
		return nil
	}
	if !missing {
		if err := os.WriteFile("assets/words/po/quarterstep.pot", []byte(gather.Write("", ms, nil)), 0o644); err != nil {
			return err
		}
	}
	for _, l := range words.Languages()[1:] {
		file := filepath.Join("assets/words/po", l.Code+".po")
		c, err := read(file, with)
		if err != nil {
			return err
		}
		if missing {
			fmt.Print(gather.Write(l.Code, without(ms, c, under), nil))
			continue
		}
		if err := os.WriteFile(file, []byte(gather.Write(l.Code, ms, c)), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// read is a catalogue with those of further files laid over it.
func read(file, with string) (gather.Catalogue, error) {
	files := []string{file}
	if with != "" {
		more, err := filepath.Glob(with)
		if err != nil {
			return nil, err
		}
		files = append(files, more...)
	}
	all := gather.Catalogue{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		for k, t := range gather.Read(text) {
			all[k] = t
		}
	}
	return all, nil
}

func without(ms []gather.Message, c gather.Catalogue, under []string) []gather.Message {
	var out []gather.Message
	for _, m := range ms {
		if len(c[m.Key()]) == 0 && within(m.Files[0], under) {
			out = append(out, m)
		}
	}
	return out
}

func within(file string, under []string) bool {
	for _, u := range under {
		if strings.HasPrefix(file, u) {
			return true
		}
	}
	return len(under) == 0
}
