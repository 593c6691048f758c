package scene_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

func TestTicksReadLikeARuler(t *testing.T) {
	labels := func(unit model.Unit, scale, to float64) (out []string) {
		for _, k := range scene.Ticks(unit, scale, 0, to) {
			if k.Label != "" {
				out = append(out, k.Label)
			}
		}
		return out
	}
	for _, c := range []struct {
		unit  model.Unit
		scale float64
		to    float64
		want  string
	}{
		{model.Inches, 1, 80, "[0 1 2 3]"},
		{model.Inches, 0.3, 400, "[0 6 12]"},
		{model.Centimetres, 5, 30, "[0 1 2 3]"},
		{model.Centimetres, 0.7, 160, "[0 5 10 15]"},
		{"", 0.7, 60, "[0 5]"},
	} {
		if got := labels(c.unit, c.scale, c.to); sprint(got) != c.want {
			t.Errorf("%s at %g px a mm: figures %v, want %s", c.unit, c.scale, got, c.want)
		}
	}
}

func sprint(s []string) string {
	out := "["
	for i, x := range s {
		if i > 0 {
			out += " "
		}
		out += x
	}
	return out + "]"
}

// At every zoom marks can be told apart, figures do not run into one another,
// and each figure stands where it says, sign left away.
func TestTicksAtEveryZoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]model.Unit{model.Inches, model.Centimetres}).Draw(t, "unit")
		scale := math.Exp(rapid.Float64Range(math.Log(0.04), math.Log(40)).Draw(t, "log scale"))
		from := rapid.Float64Range(-4000, 4000).Draw(t, "from")
		ticks := scene.Ticks(unit, scale, from, from+1600/scale)
		one := 10.0
		if unit == model.Inches {
			one = 25.4
		}
		figure := math.NaN()
		figures := 0
		for i, k := range ticks {
			if k.At < from-1e-9 || k.At > from+1600/scale+1e-9 {
				t.Fatalf("a mark at %g lies outside", k.At)
			}
			if i > 0 && (k.At-ticks[i-1].At)*scale < 2.99 {
				t.Fatalf("marks are %.2f px apart", (k.At-ticks[i-1].At)*scale)
			}
			if (k.Rank == 2) != (k.Label != "") {
				t.Fatalf("rank %d has the figure %q", k.Rank, k.Label)
			}
			if k.Label == "" {
				continue
			}
			figures++
			// A digit of Lato is 7 px wide at 12 px. Places past 999 cm and 99 in are farther
			// off than a pattern reaches.
			most := 3
			if unit == model.Inches {
				most = 2
			}
			if need := 7*float64(min(len(k.Label), most)) + 8; (k.At-figure)*scale < need {
				t.Fatalf("figures are %.2f px apart, %q wants %.0f", (k.At-figure)*scale, k.Label, need)
			}
			figure = k.At
			if want := math.Abs(k.At) / one; sprint([]string{k.Label}) != sprint([]string{whole(want)}) {
				t.Fatalf("%q stands at %g", k.Label, want)
			}
		}
		if figures < 1 {
			t.Fatalf("no figure in 1600 px at %g px a mm", scale)
		}
	})
}

func whole(x float64) string {
	n := math.Round(x)
	if math.Abs(x-n) > 1e-6 {
		return "not whole"
	}
	digits := ""
	for n >= 1 {
		digits = string(rune('0'+int(math.Mod(n, 10)))) + digits
		n = math.Floor(n / 10)
	}
	if digits == "" {
		return "0"
	}
	return digits
}

func TestGridCountsFromZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]model.Unit{model.Inches, model.Centimetres}).Draw(t, "unit")
		scale := math.Exp(rapid.Float64Range(math.Log(0.04), math.Log(40)).Draw(t, "log scale"))
		zero := geom.Pt(rapid.Float64Range(-500, 500).Draw(t, "zero x"), rapid.Float64Range(-500, 500).Draw(t, "zero y"))
		box := geom.Box{Min: zero.Add(geom.Vec{X: -700 / scale, Y: -300 / scale}), Max: zero.Add(geom.Vec{X: 900 / scale, Y: 500 / scale})}
		through := 0
		last := math.Inf(-1)
		for _, l := range scene.Grid(unit, scale, zero, box).Lines {
			a, b := l.Path.Start(), l.Path.End()
			if a.X != b.X && a.Y != b.Y {
				t.Fatalf("a grid line from %v to %v", a, b)
			}
			if a.X == b.X && math.Abs(a.X-zero.X) < 1e-9 && l.Ink == scene.InkGridMajor {
				through++
			}
			if a.X == b.X && l.Ink == scene.InkGrid {
				if (a.X-last)*scale < 13.99 {
					t.Fatalf("grid lines are %.2f px apart", (a.X-last)*scale)
				}
				last = a.X
			}
		}
		if through != 1 {
			t.Fatalf("%d bold lines through zero", through)
		}
	})
}
