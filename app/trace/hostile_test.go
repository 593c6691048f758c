package trace_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"quarterstep/app/trace"
)

// TestHostileClicks: clicks made to fill the memory or to keep the program busy
// are told of in a sentence.
func TestHostileClicks(t *testing.T) {
	const longest, mostMemory = 30 * time.Second, 300 << 20 // two seconds of work at most; the rest for machines that are busy
	many := func(n int, item string) string { return strings.Repeat(item+",", n-1) + item }
	pieces := func(items string) string { return `{"pieces":[` + items + `]}` }
	size := func(part string) string { return pieces(`{"sizes":[{"size":"38",` + part + `}]}`) }
	for say, c := range map[string][2]string{
		"pieces of two bytes":     {pieces(many(2_000_000, "{}")), "items in its lists"},
		"numbers for pieces":      {pieces(many(3_000_000, "1")), "items in its lists"},
		"sizes of two bytes":      {pieces(`{"sizes":[` + many(2_000_000, "{}") + `]}`), "items in its lists"},
		"corners without end":     {size(`"corners":[` + many(700_000, "[0,0]") + `]`), "items in its lists"},
		"corners that may be":     {size(`"corners":[` + many(50_000, "[0,0]") + `]`), "more than 200 corners"},
		"a place of many numbers": {size(`"corners":[[` + many(2_000_000, "1") + `]]`), "items in its lists"},
		"marks without end":       {pieces(`{"sizes":[{"size":"38","corners":[[0,0],[9,0],[9,9]]}],"darts":[` + many(15_000, "{}") + `]}`), "more than 1000 marks"},
		"names without end":       {pieces(`{` + many(1_000_000, `"a":1`) + `}`), "more than 500000 names"},
		"a million deep":          {strings.Repeat(`[`, 1_000_000), "deep"},
		"objects a million deep":  {strings.Repeat(`{"pieces":`, 700_000), "deep"},
		"a place beyond bounds":   {size(`"corners":[[1e308,0],[0,0],[1,1]]`), "lies on no picture"},
		"a place that is none":    {size(`"corners":[[NaN,0],[0,0],[1,1]]`), "no JSON"},
		"a reach beyond bounds":   {`{"reach":1e308,"pieces":[]}`, "between 0 and 50"},
		"a long number":           {size(`"corners":[[` + strings.Repeat("9", 1_000_000) + `,0]]`), "is no place"},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		_, err := trace.ReadClicks(strings.NewReader(c[0]))
		took := time.Since(began)
		runtime.ReadMemStats(&after)
		if err == nil || !strings.Contains(err.Error(), c[1]) || strings.Contains(fmt.Sprint(err), "\n") || len(err.Error()) > 500 {
			t.Errorf("%s: %.300v, want %q", say, err, c[1])
		}
		if used := after.TotalAlloc - before.TotalAlloc; took > longest || used > mostMemory {
			t.Errorf("%s: took %v and %d MB", say, took, used>>20)
		}
	}
}
