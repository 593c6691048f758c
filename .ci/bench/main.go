package main

import (
	"flag"
	"fmt"
	"io"
	"os"
)

func main() {
	runs := flag.Int("runs", 5, "how often each work is timed")
	only := flag.Bool("peers", false, "only the comparison with other libraries")
	flag.Parse()
	ok, err := run(*runs, *only, os.Stdout, os.Stderr)
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(2)
	}
	if !ok {
		os.Exit(1)
	}
}

func run(runs int, only bool, out, told io.Writer) (ok bool, err error) {
	dir, err := os.MkdirTemp("", "bench")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(dir)
	fmt.Fprintf(out, "Processor time of all threads together, the median of %d runs; from 6 s on, of one\n\n", runs)
	if !only {
		all, err := growth(runs, dir, told)
		if err != nil {
			return false, err
		}
		sayGrowth(out, all)
		fmt.Fprintln(out)
		rows, err := photos(runs, told)
		if err != nil {
			return false, err
		}
		sayPhotos(out, rows)
		fmt.Fprintln(out)
	}
	return peers(runs, dir, out, told)
}
