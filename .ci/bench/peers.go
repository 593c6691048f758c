package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"time"
)

// rival is one work done by us and by a library that others wrote, with the
// same in hand.
type rival struct {
	name, peer string
	most       float64 // how many times the peer's time ours may be
	times      int     // how often the work is done in one run
	ours       func() error
	command    []string // of the peer, without times
	at         int      // where in command the times go
	// agree says how far the results are apart, or that they are too far.
	agree func() (string, error)
}

// peers compares us with the libraries on one processor each, in turn, and says
// whether all keep within what is promised.
func peers(runs int, dir string, out, told io.Writer) (bool, error) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	made, err := compile(dir)
	if err != nil {
		return false, err
	}
	ok := true
	fmt.Fprintf(out, "%-34s%10s  %-16s%10s%8s%8s  %s\n", "on one processor, ms", "ours", "peer", "its", "ratio", "most", "how near the results are")
	for _, make := range []func(peerPrograms, string) (rival, error){tableRival, pdfRival, offsetRival, flatRival} {
		r, err := make(made, dir)
		if err != nil {
			return false, err
		}
		fmt.Fprintf(told, "\r%-70s", r.name)
		ours, its, ratio, err := r.race(runs)
		if err != nil {
			return false, fmt.Errorf("%s: %w", r.name, err)
		}
		near, err := r.agree()
		if err != nil {
			return false, fmt.Errorf("%s: not the same result: %w", r.name, err)
		}
		verdict := ""
		if ratio > r.most {
			ok, verdict = false, "  TOO SLOW"
		}
		fmt.Fprintf(told, "\r%70s\r", "")
		fmt.Fprintf(out, "%-34s%10s  %-16s%10s%8.2f%8.2f  %s%s\n", r.name, ms(ours), r.peer, ms(its), ratio, r.most, near, verdict)
	}
	return ok, nil
}

// race runs both in turn and gives the medians: our time, the peer's, and the
// ratio of neighbours, which a machine that slows down in between moves least.
func (r rival) race(runs int) (ours, its time.Duration, ratio float64, err error) {
	if err := r.ours(); err != nil {
		return 0, 0, 0, err
	}
	runtime.GC()
	var a, b []time.Duration
	var ratios []float64
	for range runs {
		start := processor()
		for range r.times {
			if err := r.ours(); err != nil {
				return 0, 0, 0, err
			}
		}
		mine := (processor() - start) / time.Duration(r.times)
		args := append(append(append([]string(nil), r.command[:r.at]...), strconv.Itoa(r.times)), r.command[r.at:]...)
		cmd := exec.Command(args[0], args[1:]...)
		cmd.Stderr = os.Stderr
		said, err := cmd.Output()
		if err != nil {
			return 0, 0, 0, fmt.Errorf("running %s: %w", filepath.Base(args[0]), err)
		}
		seconds, err := strconv.ParseFloat(strings.TrimSpace(string(said)), 64)
		if err != nil || seconds <= 0 {
			return 0, 0, 0, fmt.Errorf("%s said %q, not a time", filepath.Base(args[0]), said)
		}
		theirs := time.Duration(seconds * float64(time.Second))
		a, b, ratios = append(a, mine), append(b, theirs), append(ratios, float64(mine)/float64(theirs))
	}
	return middle(a), middle(b), middle(ratios), nil
}

// peerPrograms are the programs that call the libraries.
type peerPrograms struct{ cairo, geos, remap string }

// compile builds the small C programs in peers with the system's compiler.
func compile(dir string) (peerPrograms, error) {
	const from = ".ci/bench/peers"
	p := peerPrograms{filepath.Join(dir, "cairo"), filepath.Join(dir, "geos"), filepath.Join(from, "remap.py")}
	flags, err := exec.Command("pkg-config", "--cflags", "--libs", "cairo").Output()
	if err != nil {
		return p, fmt.Errorf("finding cairo: %w", err)
	}
	cairo := append([]string{
		"-O2", "-o", p.cairo, filepath.Join(from, "cairo.c"),
		"-DINK=" + numbers(ink), "-DGROUND=" + numbers(ground), fmt.Sprint("-DTOLERANCE=", chordTol),
	}, strings.Fields(string(flags))...)
	for _, args := range [][]string{cairo, {"-O2", "-o", p.geos, filepath.Join(from, "geos.c"), "-lgeos_c"}} {
		if said, err := exec.Command("cc", args...).CombinedOutput(); err != nil {
			return p, fmt.Errorf("building %s: %w\n%s", filepath.Base(args[3]), err, said)
		}
	}
	return p, nil
}
