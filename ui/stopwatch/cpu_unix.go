//go:build unix

package stopwatch

import (
	"syscall"
	"time"
)

// cpuTime is what all threads of the process have computed so far.
func cpuTime() time.Duration { return usage(syscall.RUSAGE_SELF) }

func usage(whose int) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(whose, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
