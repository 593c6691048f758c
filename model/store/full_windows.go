package store

import (
	"errors"
	"syscall"
)

// Windows' own numbers, from the list of system error codes in its
// documentation: ERROR_HANDLE_DISK_FULL and ERROR_DISK_FULL.
const (
	handleDiskFull syscall.Errno = 39
	wholeDiskFull  syscall.Errno = 112
)

// diskFull reports that a disk is full.
func diskFull(err error) bool {
	return errors.Is(err, handleDiskFull) || errors.Is(err, wholeDiskFull)
}
