package ui

import (
	"errors"
	"fmt"
	"os"

	"quarterstep/model/crew"
)

// guarded does work beside the window. A fault of the program in it becomes an
// error to be said, and the window goes on with what it had, its unsaved work
// kept aside as before; where the fault was goes to standard error.
func guarded(work func() error) error {
	err := crew.Try(work)
	var slip *crew.Slip
	if errors.As(err, &slip) {
		fmt.Fprintln(os.Stderr, "quarterstep:", slip.Detail())
	}
	return err
}
