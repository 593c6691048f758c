package safekeeping

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"quarterstep/app/session"
)

const (
	killedDir = "QUARTERSTEP_KILLED_DIR" // set in the process that is killed
	killTimes = "QUARTERSTEP_KILL_TIMES" // how often it is done; a few times unless told
)

// edit is one numbered edit that the process to be killed said it had made.
type edit struct {
	n    int
	when time.Time
}

// grace is how old an edit may be that is lost: the second that is promised, when
// the test is asked for by killTimes; in a run beside others on a busy machine
// the clock proves nothing, and it is longer.
func grace() time.Duration {
	if os.Getenv(killTimes) != "" {
		return time.Second
	}
	return 5 * time.Second
}

// TestKilled ends a process that edits and saves, without warning, at a random
// moment: the file always opens, and with the journal at most the last second's
// edits are missing.
func TestKilled(t *testing.T) {
	if dir := os.Getenv(killedDir); dir != "" {
		editUntilKilled(t, dir)
		return
	}
	times := 4
	if n, err := strconv.Atoi(os.Getenv(killTimes)); err == nil {
		times = n
	}
	seed := rand.Uint64()
	rnd := rand.New(rand.NewPCG(seed, 1))
	inFile, inJournal := 0, 0
	for i := range times {
		dir := t.TempDir()
		edits, killed := killAfter(t, dir, time.Duration(200+rnd.IntN(2500))*time.Millisecond)
		got, fromJournal := survived(t, dir)
		if fromJournal {
			inJournal++
		} else {
			inFile++
		}
		due := 0
		for _, e := range edits {
			if killed.Sub(e.when) > grace() {
				due = e.n
			}
		}
		if got < due {
			t.Errorf("kill %d (seed %d): edit %d survived, %d was made longer than %v before", i, seed, got, due, grace())
		}
	}
	t.Logf("%d kills: %d times the journal was ahead, %d times the file", times, inJournal, inFile)
}

// editUntilKilled renames the pattern to 1, 2, 3, ... a few times a second, says
// so, and saves now and then.
func editUntilKilled(t *testing.T, dir string) {
	home := filepath.Join(dir, "a.qstep")
	doc, err := session.New(demo(t))
	must(t, err)
	must(t, doc.Do("begin", rename("0")))
	must(t, doc.Save(home))
	j := journal(t, dir)
	j.Follow(doc)
	for n := 1; ; n++ {
		must(t, doc.Do("rename", rename(strconv.Itoa(n))))
		fmt.Printf("edit %d %d\n", n, time.Now().UnixNano())
		time.Sleep(time.Duration(5+n*7%60) * time.Millisecond)
		if n%40 == 0 {
			must(t, KeepEarlier(dir, home))
			must(t, doc.Save(home))
		}
	}
}

// killAfter lets the editing process run for a while from its first edit on.
func killAfter(t *testing.T, dir string, run time.Duration) ([]edit, time.Time) {
	t.Helper()
	child := exec.Command(os.Args[0], "-test.run=^TestKilled$")
	child.Env = append(os.Environ(), killedDir+"="+dir)
	out, err := child.StdoutPipe()
	must(t, err)
	must(t, child.Start())
	lines := bufio.NewScanner(out)
	var edits []edit
	var killed time.Time
	timer := time.AfterFunc(time.Minute, func() { _ = child.Process.Kill() })
	for lines.Scan() {
		var n int
		var at int64
		if _, err := fmt.Sscanf(lines.Text(), "edit %d %d", &n, &at); err != nil {
			continue
		}
		if len(edits) == 0 {
			timer.Stop()
			timer = time.AfterFunc(run, func() {
				killed = time.Now()
				_ = child.Process.Kill()
			})
		}
		edits = append(edits, edit{n, time.Unix(0, at)})
	}
	_ = child.Wait() // it was killed
	timer.Stop()
	if len(edits) == 0 {
		t.Fatal("the process to be killed made no edit")
	}
	return edits, killed
}

// survived is the latest edit that the file or the journal holds.
func survived(t *testing.T, dir string) (n int, fromJournal bool) {
	t.Helper()
	doc, err := session.Open(filepath.Join(dir, "a.qstep"))
	if err != nil {
		t.Fatalf("the file does not open: %v", err)
	}
	n, err = strconv.Atoi(strings.TrimSpace(doc.Pattern().Name))
	must(t, err)
	for _, l := range Left(dir) {
		f, err := l.Read()
		if err != nil {
			t.Fatalf("the journal does not open: %v", err)
		}
		if m, err := strconv.Atoi(f.Pattern.Name); err == nil && m > n {
			n, fromJournal = m, true
		}
	}
	return n, fromJournal
}
