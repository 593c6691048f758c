//go:build !unix

package stopwatch

import "time"

// cpuTime is not known here.
func cpuTime() time.Duration { return 0 }
