package sizechart

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"
)

// TestHostileCharts: charts made to fill the memory or to keep the program busy
// are told of in a sentence.
func TestHostileCharts(t *testing.T) {
	const longest, mostMemory = 30 * time.Second, 200 << 20 // two seconds of work at most; the rest for machines that are busy
	const head = "# unit: cm\n"
	for say, c := range map[string][2]string{
		"a million columns":          {head + "size" + strings.Repeat(",", 1_000_000) + "\n", "names no body measures"},
		"half a million names":       {head + "size" + strings.Repeat(",a", 450_000) + "\n", "at most 60 columns"},
		"a million rows":             {head + "size,bust\n" + strings.Repeat("\n", 1_000_000), "no sizes"},
		"rows without end":           {head + "size,bust\n" + strings.Repeat("a\n", 400_000), "the size a is in row"},
		"a cell without end":         {head + "size,bust\n36," + strings.Repeat("9", 1_000_000) + "\n", "longer than any"},
		"a quote without end":        {head + "size,bust\n\"" + strings.Repeat("36\n", 300_000), "longer than any"},
		"quotes without end":         {head + "size,bust\n" + strings.Repeat(`"`, 1_000_000), "longer than any"},
		"a name without end":         {head + "# name: " + strings.Repeat("x", 900_000) + "\nsize,bust\n36,80\n", "shorten it"},
		"lines of remarks":           {head + strings.Repeat("#:\n", 300_000), "no sizes"},
		"a number beyond all bounds": {head + "size,bust\n36,1e308\n", "column bust"},
		"an infinite number":         {head + "size,bust\n36,Inf\n", "is not a length"},
		"a number that is none":      {head + "size,bust\n36,NaN\n", "is not a length"},
		"a fraction of nothing":      {head + "size,bust\n36,1/0\n", "column bust"},
		"a formula":                  {head + "size,bust\n36,=1+1\n", "is not a length"},
		"a file of another kind":     {head + "size,bust\n36,\x00\n", "is not a length"},
		"two megabytes":              {head + strings.Repeat(" ", 2<<20), "too long"},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		_, err := Read(strings.NewReader(c[0]), "mine")
		took := time.Since(began)
		runtime.ReadMemStats(&after)
		if err == nil || !strings.Contains(err.Error(), c[1]) || len(fmt.Sprint(err)) > 1000 {
			t.Errorf("%s: %.300v, want %q", say, err, c[1])
		}
		if used := after.TotalAlloc - before.TotalAlloc; took > longest || used > mostMemory {
			t.Errorf("%s: took %v and %d MB", say, took, used>>20)
		}
	}
}
