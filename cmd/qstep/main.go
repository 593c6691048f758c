// Command qstep does Quarterstep's job without a window: bring a nest in,
// grade it, check it, hand it on, print it. It is for scripts and for outside
// checks; sewists use the window.
//
// Exit status: 0 done; 1 check or testpage found something to look at; 2 wrong usage; 3
// input it cannot use. 2 and 3 are said in one sentence, on one line of standard
// error, with nothing written.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
)

// The exit statuses.
const (
	exitDone  = 0
	exitLook  = 1
	exitUsage = 2
	exitInput = 3
)

// errUsage marks a command line that cannot be read.
var errUsage = errors.New("usage")

// errLook says that check found something to look at.
var errLook = errors.New("something to look at")

const usage = `qstep does Quarterstep's job without a window.

  qstep charts
  qstep import NEST.svg --chart CHART [--size SIZE] [--no-links] -o P.qstep
  qstep grade P.qstep --to SIZE [MEASURES] [LENGTHS] [--by chart|steps] -o Q.qstep
  qstep check Q.qstep [--to SIZE] [MEASURES] [LENGTHS] [--limit NAME=VALUE] [--limits]
              [--json]
  qstep export Q.qstep --size SIZE,... [MEASURES] [LENGTHS] [--piece NAME ...]
              [--no-marks] --as svg|json|csv|measures -o F
  qstep print Q.qstep --paper PAPER [--wide] [--margin L --overlap L]
              [--size SIZE,...] [MEASURES] [LENGTHS] [--nest] [--piece NAME ...]
              [--no-marks] [--no-stitching] [--date TEXT] [--changed FILE]
              [--dark] [--line L] [--square L]
              -o F.pdf [--printer NAME] | --to PRINTER
  qstep printers [--forget NAME]
  qstep testpage [--paper a4] [--unit cm|in] [--plain]
              -o F.pdf [--printer NAME] | --to PRINTER
  qstep testpage [--paper a4] [--unit cm|in] --printer NAME [--plain]
              --across L --down L [--insist] [--white L]
  qstep sheet Q.qstep [--size SIZE] [MEASURES] [--piece NAME]
              [--paper a4|letter] [--date TEXT] -o F.pdf
  qstep summary Q.qstep [--size SIZE] [MEASURES] [LENGTHS] [--paper a4|letter]
              [--date TEXT] -o F.pdf
  qstep targets [--kind strips|corners] [--paper a4|letter] -o F.pdf
  qstep straighten PICTURE... --ref scan|targets|a4|letter|mat|card -o F.png
  qstep trace F.png --clicks FILE.json --chart CHART -o P.qstep
  qstep demo -o FOLDER

qstep help straighten and qstep help trace have all of those two.

CHART is a built-in chart's id (see qstep charts) or a CSV file. L is a length
such as 10mm or 3/8in. SIZE is a size of the pattern's chart;
import needs it only for a pattern printed in one size without a layer so named.
It links what is surely one seam or one line, and says so; --no-links leaves
that to you.

targets writes a page to print at 100 %, cut into strips or corner cards and lay
round a piece: a photo of it is then made flat and to scale without a click, by
straighten --ref targets or in the window.

MEASURES are the wearer's own, each a flag with the name the chart has for it:
--bust 122cm --waist "44 1/2in" --back-waist-length 42cm. A size may be left
out beside them: the rest then goes by the size nearest to the most telling of
them.

PAPER is a4, letter, "a4 or letter", legal, a3, tabloid, a2, a1, a0, WxHmm, a
roll such as "roll 914 mm", or projector; for that are --dark (white on black),
--line (how wide) and --square (squares to set it by). --overlap 0 lays pages edge
to edge. --changed keeps in FILE what was printed, and the next time prints the
pages alone that are other than then. A name that ends in .svg takes one drawing
of all pieces instead of pages, for machines that cut.

LENGTHS make pieces longer or shorter, each --longer NAME=L, such as
--longer "Above the waist=20mm" --longer Hem=-1cm. The demo blouse has Above the
waist, Below the waist, Sleeve and Hem; a name the pattern lacks is answered with
those it has.

A printer prints true once its test page was measured: print it, then give what
you measured across and down. What the printer is out by is remembered, and print
makes up for it, in a PDF with --printer. Where the figures look like a print
setting you are told which; --insist corrects all the same. --plain is for a test
page without the correction; --white tells what the printer leaves white at an
edge. --to prints without scaling on that printer, or on the one called usual.
` + checkFields

// seeHelp ends what is said of a command line that cannot be read.
const seeHelp = "qstep help shows how"

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is main with its outside world passed in.
func run(args []string, out, errs io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(errs, usage)
		return exitUsage
	}
	commands := map[string]func([]string, io.Writer) error{
		"charts": charts, "import": bringIn, "grade": grade, "check": lookOver,
		"export": export, "print": printPDF, "demo": demo, "sheet": sheet, "summary": summarize,
		"printers": printers, "testpage": testPage, "straighten": straighten, "targets": targets, "trace": traceClicks,
	}
	if args[0] == "help" || args[0] == "--help" || args[0] == "-h" {
		fmt.Fprint(out, helpOn(args[1:]))
		return exitDone
	}
	command, ok := commands[args[0]]
	if !ok {
		fmt.Fprintf(errs, "qstep: there is no command %q; %s\n", args[0], seeHelp)
		return exitUsage
	}
	err := command(args[1:], out)
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errLook):
		return exitLook
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(out, helpOn(args))
		return exitDone
	case errors.Is(err, errUsage):
		fmt.Fprintf(errs, "qstep %s: %s; %s\n", args[0], strings.TrimPrefix(oneSentence(err), "usage: "), seeHelp)
		return exitUsage
	}
	fmt.Fprintf(errs, "qstep %s: %s\n", args[0], oneSentence(err))
	return exitInput
}

// helpOn is the help on a command that has its own, else all.
func helpOn(args []string) string {
	topics := map[string]string{"straighten": straightenHelp, "trace": traceHelp}
	if len(args) > 0 && topics[args[0]] != "" {
		return topics[args[0]]
	}
	return usage
}

// oneSentence is the error on one line.
func oneSentence(err error) string {
	return strings.Join(strings.Fields(err.Error()), " ")
}

// parse reads flags and files in any order. It wants exactly n files, and a
// value for each flag named in must.
func parse(fs *flag.FlagSet, args []string, n int, must ...string) ([]string, error) {
	files, err := parseAny(fs, args)
	if err == nil && len(files) != n {
		err = fmt.Errorf("%w: wants %d file(s), got %d", errUsage, n, len(files))
	}
	if err != nil {
		return nil, err
	}
	return files, given(fs, must)
}

// parseSome is parse for a command that takes one file or more.
func parseSome(fs *flag.FlagSet, args []string, must ...string) ([]string, error) {
	files, err := parseAny(fs, args)
	if err == nil && len(files) == 0 {
		err = fmt.Errorf("%w: wants a file", errUsage)
	}
	if err != nil {
		return nil, err
	}
	return files, given(fs, must)
}

func parseAny(fs *flag.FlagSet, args []string) ([]string, error) {
	fs.SetOutput(io.Discard)
	var files []string
	for len(args) > 0 {
		if err := fs.Parse(args); err != nil {
			return nil, fmt.Errorf("%w: %w", errUsage, err)
		}
		if args = fs.Args(); len(args) > 0 {
			files, args = append(files, args[0]), args[1:]
		}
	}
	return files, nil
}

// given wants a value for each flag named in must.
func given(fs *flag.FlagSet, must []string) error {
	for _, name := range must {
		if f := fs.Lookup(name); f.Value.String() == "" {
			return fmt.Errorf("%w: --%s is missing", errUsage, name)
		}
	}
	return nil
}
