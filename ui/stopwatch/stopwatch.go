package stopwatch

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"time"
)

// variable is what the environment names the file by.
const variable = "QUARTERSTEP_FRAMES"

// beat is how often an idle window is asked whether it can be reached. A stretch
// is known to within a beat.
const beat = time.Millisecond

// shortest is the shortest stretch without laps that is written down.
const shortest = 2 * time.Millisecond

var watch = toFile(os.Getenv(variable))

// watching is a stopwatch that runs.
type watching struct {
	out *bufio.Writer
	now func() time.Time
	clocks
	open  []lap
	names []string // of the laps since the last line, as they ended first
	spent map[string]spent
	used  time.Duration // cpu at the last line
	turn  time.Duration // thread as the present turn began
	most  time.Duration // of thread in a turn since the last line
	from  time.Duration // cpu as the outermost lap began
	work  time.Duration // cpu in laps since the last line
}

// clocks tell what was computed so far: by the process, and by the thread that
// asks.
type clocks struct{ cpu, thread func() time.Duration }

// spent is a time and what the window's thread computed in it.
type spent struct{ wall, thread time.Duration }

func (s spent) add(wall, thread time.Duration) spent {
	return spent{s.wall + wall, s.thread + thread}
}

// lap is one that has begun; within is what was spent in laps inside it.
type lap struct {
	name   string
	began  time.Time
	thread time.Duration // computed as it began
	within spent
}

// toFile is a stopwatch that writes to a file, nil for none.
func toFile(path string) *watching {
	if path == "" {
		return nil
	}
	f, err := os.Create(path)
	if err != nil {
		// words: none
		fmt.Fprintln(os.Stderr, "quarterstep: frames are not measured:", err)
		return nil
	}
	return newWatching(f, time.Now, clocks{cpuTime, threadTime})
}

func newWatching(out io.Writer, now func() time.Time, c clocks) *watching {
	return &watching{out: bufio.NewWriter(out), now: now, clocks: c, spent: map[string]spent{}}
}

func none() {}

// Lap begins a lap and gives what ends it:
//
//	defer stopwatch.Lap("scene")()
func Lap(name string) (end func()) {
	if watch == nil {
		return none
	}
	return watch.lap(name)
}

func (w *watching) lap(name string) func() {
	if len(w.open) == 0 {
		w.from = w.cpu()
	}
	w.open = append(w.open, lap{name: name, began: w.now(), thread: w.thread()})
	return w.end
}

// end ends the lap begun last.
func (w *watching) end() {
	last := len(w.open) - 1
	l := w.open[last]
	w.open = w.open[:last]
	took, computed := w.now().Sub(l.began), w.thread()-l.thread
	if last > 0 {
		in := &w.open[last-1].within
		*in = in.add(took, computed)
	} else {
		w.work += w.cpu() - w.from
	}
	if _, ok := w.spent[l.name]; !ok {
		w.names = append(w.names, l.name)
	}
	w.spent[l.name] = w.spent[l.name].add(took-l.within.wall, computed-l.within.thread)
}

// Watch writes the stretches down until the process ends. do has something done
// by the window's goroutine and may return before it is; everyTurn has something
// done by it each time it has looked at what the hand did.
func Watch(do, everyTurn func(func())) {
	if watch != nil {
		watch.turn = watch.thread() // there was no window to be reached before
		everyTurn(watch.turned)
		go watch.run(do)
	}
}

// turned ends a turn.
func (w *watching) turned() {
	now := w.thread()
	w.most = max(w.most, now-w.turn)
	w.turn = now
}

func (w *watching) run(do func(func())) {
	reached := make(chan struct{})
	for {
		asked := w.now()
		do(func() {
			w.reached(w.now().Sub(asked))
			reached <- struct{}{}
		})
		<-reached
		time.Sleep(beat)
	}
}

// reached writes a stretch of work down; took is how long it kept the window from
// being reached.
func (w *watching) reached(took time.Duration) {
	used := w.cpu()
	cpu := used - w.used
	w.used = used
	thread := max(w.most, w.thread()-w.turn)
	w.most = 0
	if len(w.names) == 0 && took < shortest {
		return
	}
	var own time.Duration
	for _, d := range w.spent {
		own += d.wall
	}
	fmt.Fprintf(w.out, "%d %.2f %.2f %.2f %.2f %.2f", w.now().UnixMilli(), ms(max(took, own)), ms(cpu), ms(own), ms(w.work), ms(thread))
	for _, n := range w.names {
		fmt.Fprintf(w.out, " %s=%.2f/%.2f", n, ms(w.spent[n].wall), ms(w.spent[n].thread))
	}
	fmt.Fprintln(w.out)
	w.out.Flush()
	w.names, w.work = w.names[:0], 0
	clear(w.spent)
}

func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }
