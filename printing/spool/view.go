package spool

import (
	"context"
	"os"
	"os/exec"

	"quarterstep/assets/words"
)

// View opens a PDF in the system's viewer, to be printed from there as Advice
// says. It does not wait for the viewer to be closed.
func View(ctx context.Context, path string) error {
	if _, err := os.Stat(path); err != nil {
		return words.Errorf("%s is not there any more: save the PDF again", path)
	}
	name, args := viewer(path)
	program, err := exec.LookPath(name)
	if err != nil {
		return words.Errorf("no program to show a PDF was found: open %s yourself", path)
	}
	// The viewer may outlive what asked for it.
	cmd := exec.CommandContext(context.WithoutCancel(ctx), program, args...)
	if err := cmd.Start(); err != nil {
		return words.Errorf("opening %s: %w", path, err)
	}
	go func() { _ = cmd.Wait() }()
	return nil
}

// Advice is what to choose in the viewer's print window for a page on that
// paper, step by step. The viewers' words are from memory.
func Advice(paper string) []string {
	return append(viewerAdvice(paper),
		words.T("Print one side only, with \"Borderless\" off."),
		words.T("Measure the test square before you print the rest."),
	)
}
