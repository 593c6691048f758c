//go:build !windows

package store

import (
	"errors"
	"syscall"
)

// diskFull reports that a disk, or the share of it this person may use, is full.
func diskFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT)
}
