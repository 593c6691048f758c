package paper

import (
	"strings"
	"testing"
)

// TestSpoiltLenses: a file of lenses that means harm is told of in a sentence.
func TestSpoiltLenses(t *testing.T) {
	for text, want := range map[string]string{
		"":                 "not a list of lenses",
		`{"camera":"a"}`:   "not a list of lenses",
		`[{"camera":"a"}]`: "its scale cannot be 0",
		`[{"scale":1}]`:    "lens 1",
		`[{"camera":"a","scale":1,"focal35":-1}]`:    "focal length",
		`[{"camera":"a","scale":1,"k1":1e300}]`:      "bends more",
		`[{"camera":"a","scale":1,"off":[0,1e300]}]`: "bends more",
		`[{"camera":"a","scale":1e999}]`:             "not a list of lenses",
		"[" + strings.Repeat("{},", 100_000) + "{}]": "more than",
		strings.Repeat("[", 500_000):                 "not a list of lenses",
		strings.Repeat(" ", mostLensBytes+1):         "too large",
	} {
		if got, err := ReadLenses(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.40q: %d lenses, %v; want %q", text, len(got), err, want)
		}
	}
}

// FuzzReadLenses: whatever the bytes, a lens that is read is one a camera can have.
func FuzzReadLenses(f *testing.F) {
	f.Add(`[{"camera":"A 1","focal35":26,"k1":0.02,"off":[0.001,-0.002],"scale":0.8}]`)
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ReadLenses(strings.NewReader(text))
		for _, k := range got {
			if err != nil || k.Plausible() != nil {
				t.Fatalf("%+v, %v", k, err)
			}
		}
	})
}
