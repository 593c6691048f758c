package main

import (
	"runtime"
	"slices"
	"syscall"
	"time"
)

// processor is the processor time this program has used, all its threads and
// the collection of its garbage counted. Other programs on the machine do not
// count, which is why it is taken and not the time on the wall.
func processor() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// least is the shortest stretch that is timed: the system counts in
// microseconds.
const least = 2 * time.Millisecond

// median is the median processor time of one call of work over so many runs,
// after one that does not count. Work that is over at once is done several
// times a run; work that takes long is run less often, but three times, and
// what takes longer than all of them may is done once. The first error ends it.
func median(runs int, work func(i int) error) (time.Duration, error) {
	const patience = 6 * time.Second
	i := 0
	once := func(times int) (time.Duration, error) {
		start := processor()
		for range times {
			if err := work(i); err != nil {
				return 0, err
			}
			i++
		}
		return (processor() - start) / time.Duration(times), nil
	}
	first, err := once(1)
	if err != nil {
		return 0, err
	}
	if first > patience {
		return first, nil
	}
	times := 1 + int(least/max(first, time.Microsecond))
	runtime.GC()
	var took []time.Duration
	begun := processor()
	for len(took) < runs && (len(took) < 3 || processor()-begun < patience) {
		t, err := once(times)
		if err != nil {
			return 0, err
		}
		took = append(took, t)
	}
	return middle(took), nil
}

func middle[T int | float64 | time.Duration](all []T) T {
	s := slices.Clone(all)
	slices.Sort(s)
	return s[len(s)/2]
}
