package app

import (
	"strings"
	"testing"
)

// TestSpoiltPrintsAreRefused: what cannot be a print of ours is not taken as one.
func TestSpoiltPrintsAreRefused(t *testing.T) {
	file := func(places string) string {
		return `{"format":"quarterstep printed pages","places":{` + places + `},"pages":{}}`
	}
	if _, ok := printedIn([]byte(file(`"a":[0,1,-1,0,30,40]`))); !ok {
		t.Error("a piece that is turned is refused")
	}
	for say, text := range map[string]string{
		"nothing":            "",
		"another format":     `{"format":"x"}`,
		"a piece enlarged":   file(`"a":[2,0,0,2,0,0]`),
		"a piece of no size": file(`"a":[0,0,0,0,0,0]`),
		"a piece slanted":    file(`"a":[1,0,5,1,0,0]`),
		"a piece far away":   file(`"a":[1,0,0,1,1e300,0]`),
		"no number":          file(`"a":[1,0,0,1,NaN,0]`),
		"many numbers":       file(`"a":[` + strings.Repeat("1,", 1_000_000) + `1]`),
		"many pieces":        file(strings.Repeat(`"a":[],`, 100_000) + `"b":[]`),
		"a million deep":     strings.Repeat(`{"places":`, 400_000),
		"too large":          file(strings.Repeat(" ", mostPrinted)),
	} {
		if _, ok := printedIn([]byte(text)); ok {
			t.Errorf("%s is taken as a print", say)
		}
	}
}

// FuzzPrintedIn: whatever the bytes, a piece that is placed keeps its size.
func FuzzPrintedIn(f *testing.F) {
	f.Add([]byte(`{"format":"quarterstep printed pages","setup":"a4","places":{"a":[1,0,0,1,5,6],"b":[0,1,-1,0,0,0]},"pages":{"A1":"x"}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, ok := printedIn(data)
		for id, m := range got.Places {
			if size := m.A*m.D - m.B*m.C; !ok || !(size > 0.99 && size < 1.01 || size > -1.01 && size < -0.99) || !(m.E >= -1e7 && m.E <= 1e7) {
				t.Fatalf("%q lies at %v", id, m)
			}
		}
	})
}
