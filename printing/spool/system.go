package spool

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"

	"quarterstep/assets/words"
	"quarterstep/printing/ipp"
)

// System is the printing system of a computer. The zero System is this
// computer's own.
type System struct {
	// Server is another printing system to speak to, as host:port or the path
	// of its socket.
	Server string
}

// Errors that say why there is nothing to print on. errors.Is tells them apart.
var (
	ErrNoSystem  = words.Fault("this computer has no printing system that Quarterstep can print through. Save the PDF, and print it from a PDF viewer at 100 % (\"Actual size\")")
	ErrNotThere  = words.Fault("the printing system does not answer. Switch it on, or start the computer again. Or save the PDF, and print it from a PDF viewer at 100 % (\"Actual size\")")
	ErrNoPrinter = words.Fault("no printer is set up on this computer. Add one in the system's settings. Or save the PDF, and print it from a PDF viewer at 100 % (\"Actual size\")")
)

// patience is how long a program of the printing system may take to answer:
// looking for printers on the network takes seconds.
const patience = time.Minute

// program runs one of the printing system's programs in plain English, so that
// its answers can be read. What it complains of comes back as a failed.
func (s System) program(ctx context.Context, in []byte, name string, args ...string) (string, error) {
	if !direct {
		return "", ErrNoSystem
	}
	path, err := exec.LookPath(name)
	if err != nil {
		return "", ErrNoSystem
	}
	within, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	cmd := exec.CommandContext(within, path, args...)
	cmd.WaitDelay = time.Second
	cmd.Env = append(os.Environ(), "LC_ALL=C", "SOFTWARE=")
	if s.Server != "" {
		cmd.Env = append(cmd.Env, "CUPS_SERVER="+s.Server)
	}
	if in != nil {
		cmd.Stdin = bytes.NewReader(in)
	}
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	err = cmd.Run()
	switch says := strings.TrimSpace(errs.String()); {
	case ctx.Err() != nil:
		return "", ctx.Err()
	case within.Err() != nil:
		return "", ErrNotThere
	case err != nil && strings.Contains(says, "scheduler"), err != nil && strings.Contains(says, "onnection refused"): // words: none
		return "", ErrNotThere
	case err != nil:
		return "", failed{name, says, err}
	}
	return out.String(), nil
}

// failed is a program of the printing system that could not do its work.
type failed struct {
	program, says string
	err           error
}

func (f failed) Error() string {
	if f.says == "" {
		return fmt.Sprintf("%s: %v", f.program, f.err)
	}
	_, last, found := strings.Cut(f.says, ": ")
	if !found {
		last = f.says
	}
	return strings.Join(strings.Fields(strings.TrimPrefix(last, "Error - ")), " ")
}

func (f failed) Unwrap() error { return f.err }

// running reports whether the printing system answers.
func (s System) running(ctx context.Context) error {
	out, err := s.program(ctx, nil, "lpstat", "-r")
	if err == nil && strings.Contains(out, "not running") { // words: none
		return ErrNotThere
	}
	return err
}

// server is where the printing system answers questions.
func (s System) server(ctx context.Context) (ipp.Server, error) {
	if s.Server != "" {
		return ipp.Server(s.Server), nil
	}
	out, err := s.program(ctx, nil, "lpstat", "-H")
	if err != nil {
		return "", err
	}
	address, _, _ := strings.Cut(strings.TrimSpace(out), "/version=")
	return ipp.Server(address), nil
}
