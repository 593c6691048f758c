package settings

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"quarterstep/model/trace/straight"
)

// TestSpoiltSettings: what cannot be meant is left out, and nothing keeps the
// program from starting.
func TestSpoiltSettings(t *testing.T) {
	for say, text := range map[string]string{
		"too large":         `{"dark":true,"recent":["` + strings.Repeat("x", maxBytes) + `"]}`,
		"many files":        `{"dark":true,"recent":[` + strings.Repeat(`"",`, 100_000) + `""]}`,
		"many lenses":       `{"dark":true,"lenses":[` + strings.Repeat("{},", 100_000) + `{}]}`,
		"a million deep":    strings.Repeat(`{"a":`, 200_000),
		"a folder of words": `{"dark":true,"folder":"` + strings.Repeat("x", maxWords+1) + `"}`,
		"no number":         `{"dark":true,"text":NaN}`,
	} {
		began := time.Now()
		if s := read(strings.NewReader(text)); s.Dark || len(s.Recent) > 0 || time.Since(began) > 30*time.Second {
			t.Errorf("%s: read in %v as %+v", say, time.Since(began), s)
		}
	}
	good := straight.KnownLens{Camera: "a", Scale: 0.8}
	s := read(strings.NewReader(fmt.Sprintf(`{"dark":true,"screen":1e308,"text":1e308,"recent":["%s","/no such file"],
		"lenses":[{"camera":"a","scale":0.8},{"camera":"a","scale":1e308},{"camera":"","scale":1},{"camera":"b","scale":1,"k1":-1e300}],
		"printers":[{"name":"a","across":1,"down":1},{"name":"b","across":1e300,"down":1},{"name":"c","across":1,"down":1,"margin":-1}]}`, strings.Repeat("/x", maxWords))))
	if !s.Dark || s.Screen != 0 || s.TextSize() != 1.5 || len(s.Recent) != 0 || len(s.Printers) != 1 || len(s.Lenses) != 1 || s.Lenses[0] != good {
		t.Errorf("read as %+v", s)
	}
}

// FuzzRead: whatever the bytes, settings are such as can be used.
func FuzzRead(f *testing.F) {
	f.Add(`{"recent":["."],"dark":true,"text":1.5,"folder":"/","paper":"a4","printer":"p","screen":4,"lenses":[{"camera":"a","scale":0.8}],"printers":[{"name":"a","across":1.01,"down":0.99,"margin":5}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		s := read(strings.NewReader(text))
		if !(s.TextSize() >= 1 && s.TextSize() <= 1.5) || !(s.Screen >= 0 && s.Screen <= maxScreen) || len(s.Recent) > maxRecent {
			t.Fatalf("%+v", s)
		}
		for _, p := range s.Printers {
			if !(p.Across >= 0.9 && p.Across <= 1.1 && p.Down >= 0.9 && p.Down <= 1.1) {
				t.Fatalf("%+v", p)
			}
		}
		for _, k := range s.Lenses {
			if k.Plausible() != nil {
				t.Fatalf("%+v", k)
			}
		}
	})
}
