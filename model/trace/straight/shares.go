package straight

import (
	"runtime"

	"quarterstep/model/crew"
)

// inShares has all processors do n things, each its share from one to another.
func inShares(n int, do func(from, to int)) {
	parts := min(max(1, n/4096), runtime.GOMAXPROCS(0))
	var wg crew.Group
	for i := range parts {
		wg.Go(func() { do(n*i/parts, n*(i+1)/parts) })
	}
	wg.Wait()
}
