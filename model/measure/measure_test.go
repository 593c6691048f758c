package measure

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/assets/words"
)

func parse(t rapid.TB, s string, bare Unit) Length {
	t.Helper()
	l, err := Parse(s, bare)
	if err != nil {
		t.Fatalf("%q: %v", s, err)
	}
	return l
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		bare Unit
		mm   float64
	}{
		{"1 1/8", Inches, 28.575},
		{`1-1/8"`, Millimetres, 28.575},
		{"1 - 1/8 in", Centimetres, 28.575},
		{"1.125 in", Millimetres, 28.575},
		{"28.6 mm", Inches, 28.6},
		{"2,5 cm", Inches, 25},
		{"1 1/8 Zoll", Centimetres, 28.575},
		{"1,125 Zoll", Millimetres, 28.575},
		{"1⅛zoll", Millimetres, 28.575},
		{"5/8", Inches, 15.875},
		{"⅝", Inches, 15.875},
		{"1⅛″", Millimetres, 28.575},
		{"1 ⅛ inches", Millimetres, 28.575},
		{"1⁄16 inch", Millimetres, 1.5875},
		{"3∕8 IN.", Millimetres, 9.525},
		{"9.5", Millimetres, 9.5},
		{"9,5", Centimetres, 95},
		{"9.5", "", 95},
		{".5", Inches, 12.7},
		{"-1/2", Inches, -12.7},
		{"−1 1/2''", Millimetres, -38.1},
		{"- 3 mm", Inches, -3},
		{"+ 3", Millimetres, 3},
		{" 0 ", Inches, 0},
		{"9/8", Inches, 28.575},
	} {
		if got := parse(t, c.text, c.bare).MM(); got != c.mm {
			t.Errorf("%q is %v mm, want %v", c.text, got, c.mm)
		}
	}
}

func TestWhatCannotBeRead(t *testing.T) {
	for _, s := range []string{
		"", " ", "in", "abc", "1 2", "1/0", "1/", "/8", "1 9/8", "1.5 1/2", "1/2/3", "1.2.3", "1,2.3", "--1", "1--",
		"1e5", "0x10", "1 1/8 ft", "NaN", "Inf", "½ ½", "1 ½ ½", "½1", "1_000", "1.", "٣", "1 mm mm", "\xff", "1234567890123456",
	} {
		l, err := Parse(s, Inches)
		var bad NotALength
		if !errors.As(err, &bad) || bad.Text != s || l.MM() != 0 {
			t.Errorf("%q was read as %v mm, error %v", s, l.MM(), err)
		} else if err.Error() != "Type inches like 1 3/8 or mm like 9.5." {
			t.Errorf("%q: %v", s, err)
		}
	}
}

// The check values of exact inch arithmetic: 1 in = 25.4 mm exactly
// (international inch, 1959); the fractions were worked by hand.
func TestFractionsStayExact(t *testing.T) {
	in := func(s string) Length { return parse(t, s, Inches) }
	for _, c := range []struct {
		say  string
		got  Length
		want string
		mm   float64
	}{
		{"6 x 3/16", in("3/16").Mul(6), "1 1/8", 28.575},
		{"5/8", in("5/8"), "5/8", 15.875},
		{"1/16", in("1/16"), "1/16", 1.5875},
		{"1/64", in("1/64"), "1/64", 0.396875},
		{"3/8", in("3/8"), "3/8", 9.525},
		{"7/8 + 5/16", in("7/8").Add(in("5/16")), "1 3/16", 30.1625},
		{"1 1/2 / 4", in("1 1/2").Div(4), "3/8", 9.525},
		{"3 x 3/32", in("3/32").Mul(3), "9/32", 7.14375},
		{"34 - 31 1/2", in("34").Sub(in("31 1/2")), "2 1/2", 63.5},
		{"1 in / 3 x 3", in("1").Div(3).Mul(3), "1", 25.4},
		{"1/3 - 1", in("1/3").Sub(in("1")), "-2/3", -25.4 * 2 / 3},
		{"nothing", Length{}, "0", 0},
	} {
		if c.got.Exact(Inches) != c.want || c.got.MM() != c.mm {
			t.Errorf("%s: %s in, %v mm, want %s in, %v mm", c.say, c.got.Exact(Inches), c.got.MM(), c.want, c.mm)
		}
	}
	if got := parse(t, "1 cm", Inches).MM() / parse(t, "1/16 in", Inches).MM(); math.Abs(got-6.299212598) > 1e-9 {
		t.Errorf("1 cm is %v sixteenths", got)
	}
	// The two usual seam allowances, 5/8 in and 1.5 cm, are not the same.
	if d := in("5/8").Sub(parse(t, "1.5 cm", Inches)); d.Exact(Millimetres) != "0.875" || in("5/8").Cmp(parse(t, "1.5 cm", Inches)) != 1 {
		t.Errorf("5/8 in less 1.5 cm is %s mm", d.Exact(Millimetres))
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		mm    float64
		grain Grain
		want  string
	}{
		{42.9, Sixteenths, "1 11/16"},
		{42.86, TenthMM, "42.9"},
		{42.86, HalfMM, "43"},
		{42.6, HalfMM, "42.5"},
		{42.86, WholeMM, "43"},
		{42.86, TenthCM, "4.3"},
		{0.79375, Sixteenths, "1/16"}, // 1/32 in: a half goes away from zero
		{-0.79375, Sixteenths, "-1/16"},
		{0.79375, ThirtySeconds, "1/32"},
		{0.396875, SixtyFourths, "1/64"},
		{0.79, Sixteenths, "0"},
		{-0.04, TenthMM, "0"},
		{-0.05, TenthMM, "-0.1"},
		{863.6, Sixteenths, "34"},
		{math.NaN(), Sixteenths, "?"},
		{math.Inf(-1), TenthMM, "?"},
	} {
		if got := Format(c.mm, c.grain); got != c.want {
			t.Errorf("%v to 1/%d %s: %q, want %q", c.mm, c.grain.per, c.grain.unit, got, c.want)
		}
	}
	type myUnit string
	for _, c := range []struct{ got, want string }{
		{FormatMM(42.86, "in"), "1 11/16 in"},
		{FormatMM(42.86, myUnit("cm")), "42.9 mm"},
		{FormatMM(42.86, Unit("")), "42.9 mm"},
		{FormatPlace(863.6, Inches), "34 in"},
		{FormatPlace(924.96, Centimetres), "92.5 cm"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestFromMM(t *testing.T) {
	l, err := FromMM(28.6)
	if err != nil || l.Cmp(parse(t, "28.6 mm", Inches)) != 0 {
		t.Errorf("28.6 mm came out as %s mm, %v", l.Exact(Millimetres), err)
	}
	if _, err := FromMM(math.Inf(1)); err == nil {
		t.Error("an endless length was taken")
	}
}

// Any float goes in and out unchanged, and what Exact writes reads back as the
// very same length.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-1e5, 1e5).Draw(t, "mm")
		l, err := FromMM(mm)
		if err != nil || l.MM() != mm {
			t.Fatalf("%v came back as %v, %v", mm, l.MM(), err)
		}
		den := rapid.SampledFrom([]int{2, 3, 4, 8, 16, 32, 64, 100}).Draw(t, "parts")
		u := rapid.SampledFrom([]Unit{Millimetres, Centimetres, Inches}).Draw(t, "unit")
		l = parse(t, "1", u).Mul(rapid.IntRange(-100000, 100000).Draw(t, "n")).Div(den)
		back, err := Parse(l.Exact(u), u)
		if err != nil || back.Cmp(l) != 0 {
			t.Fatalf("%s %s came back as %s, %v", l.Exact(u), u, back.Exact(u), err)
		}
	})
}

// in runs a test once in each language.
func in(t *testing.T, test func(*testing.T)) {
	for _, l := range words.Languages() {
		t.Run(l.Code, func(t *testing.T) {
			if err := words.Use(l.Code); err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { _ = words.Use("en") })
			test(t)
		})
	}
}

// What is shown, with its unit, can be typed again in any language, and is
// within half a grain of what it was.
func TestShownIsRead(t *testing.T) {
	in(t, func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			mm := rapid.Float64Range(-5000, 5000).Draw(t, "mm")
			unit := rapid.SampledFrom([]Unit{Centimetres, Inches}).Draw(t, "unit")
			for text, half := range map[string]float64{
				FormatMM(mm, unit):    map[Unit]float64{Centimetres: 0.05, Inches: 25.4 / 32}[unit],
				FormatPlace(mm, unit): map[Unit]float64{Centimetres: 0.5, Inches: 25.4 / 32}[unit],
			} {
				for _, bare := range []Unit{Centimetres, Inches} {
					if d := math.Abs(parse(t, text, bare).MM() - mm); d > half+1e-9 {
						t.Fatalf("%v shown as %q is %v off", mm, text, d)
					}
				}
			}
		})
	})
}

// In German there is a comma and inches are Zoll; fractions stay as they are,
// and Exact is for files.
func TestGermanFigures(t *testing.T) {
	if err := words.Use("de"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = words.Use("en") })
	for _, c := range []struct{ got, want string }{
		{FormatMM(42.86, Inches), "1 11/16 Zoll"},
		{FormatMM(42.86, Centimetres), "42,9 mm"},
		{FormatPlace(-924.96, Centimetres), "-92,5 cm"},
		{Format(1234.56, TenthMM), "1234,6"},
		{parse(t, "28,575 mm", Inches).Exact(Millimetres), "28.575"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// Rounding is never off by more than half a grain.
func TestRoundingIsNearest(t *testing.T) {
	in(t, func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			g := rapid.SampledFrom([]Grain{Sixteenths, ThirtySeconds, SixtyFourths, WholeMM, HalfMM, TenthMM, TenthCM}).Draw(t, "grain")
			mm := rapid.Float64Range(-5000, 5000).Draw(t, "mm")
			l := parse(t, Format(mm, g), g.unit)
			grain := parse(t, "1", g.unit).Div(int(g.per)).MM()
			if d := math.Abs(l.MM() - mm); d > grain/2+1e-9 {
				t.Fatalf("%v shown as %s is %v off", mm, Format(mm, g), d)
			}
		})
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"1 1/8", `1-1/8"`, "1⅛", "2,5 cm", "−5/8 in", "9.5", "1/0", "½ ½", "1 ", "\u2044", "99999999999999999999 mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := Parse(s, Inches)
		if err != nil {
			return
		}
		mm := l.MM()
		if math.IsNaN(mm) || math.IsInf(mm, 0) {
			t.Fatalf("%q gave %v", s, mm)
		}
		whole := l.Mul(1)
		if back := whole.Add(l).Sub(l); back.Cmp(l) != 0 {
			t.Fatalf("%q does not stay exact", s)
		}
		if got, err := Parse(l.Exact(Millimetres), Millimetres); err == nil && got.Cmp(l) != 0 {
			t.Fatalf("%q was written as %s mm", s, l.Exact(Millimetres))
		}
	})
}
