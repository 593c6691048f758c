package stopwatch

import (
	"syscall"
	"time"
)

// threadTime is what the thread that asks has computed so far.
func threadTime() time.Duration { return usage(syscall.RUSAGE_THREAD) }
