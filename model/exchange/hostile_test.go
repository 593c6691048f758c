package exchange

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"
)

// What a drawing that means harm may cost to refuse. Each of these takes well
// below two seconds of work; the rest is for machines that are busy besides.
const (
	longest    = 30 * time.Second
	mostMemory = 1 << 30 // bytes allocated in all, given back or not
)

// many is the drawings' parts, each made by its number.
func many(n int, part func(i int) string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(part(i))
	}
	return b.String()
}

// hostile are drawings made to fill the memory or to keep the program busy, by
// what they do, and what is said of them; nothing for those that are only read
// without what they ask for.
func hostile() map[string][2]string {
	const manyParts, repeats, manyLines = "too many parts", "repeats its parts too often", "too many lines"
	const ring, named = `<path d="M0 0H90V90H0z"/>`, `<path d="M0 0H90V90H0z"><title>Back</title></path>`
	square := func(i int) string { return fmt.Sprintf(`<path d="M%d %dh9v9h-9z"/>`, i%100*10, i/100*10) }
	laughs := `<!DOCTYPE svg [<!ENTITY a "ha">` + many(9, func(i int) string {
		return fmt.Sprintf(`<!ENTITY %c "%s">`, 'b'+i, strings.Repeat(fmt.Sprintf("&%c;", 'a'+i), 10))
	}) + `]>`
	return map[string][2]string{
		"entities in entities":         {laughs + drawing(`<path d="M0 0H90V90H0z"><title>&j;</title></path>`), ""},
		"entities from outside":        {`<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>` + drawing(`<path d="M0 0H90V90H0z"><title>Back &x;</title></path>`), ""},
		"a picture from outside":       {drawing(named + `<image href="file:///etc/passwd"/><use href="file:///etc/passwd#a"/><use href="http://localhost/a.svg#b"/>`), ""},
		"groups 100 000 deep":          {drawing(strings.Repeat("<g>", 100_000)), manyParts},
		"a title in a million bits":    {drawing(`<path d="M0 0H90V90H0z"><title>` + strings.Repeat("a<!---->", 1_000_000) + `</title></path>`), ""},
		"a million attributes":         {"<svg " + strings.Repeat("a ", 1_000_000) + "></svg>", manyParts},
		"a million attributes, quoted": {"<svg " + many(1_000_000, func(i int) string { return fmt.Sprintf("a%d='<'", i) }) + "></svg>", "damaged"},
		"attributes without spaces":    {"<svg " + strings.Repeat(`a="b"`, 500_000) + "></svg>", manyParts},
		"an endless word":              {"<svg a=" + strings.Repeat("b", 20_000_000), "damaged"},
		"many long steps":              {drawing(`<path d="M0 0h` + strings.Repeat("1 ", 4_000_000) + `"/>`), manyLines},
		"many long points":             {drawing(`<polyline points="` + strings.Repeat("1 1 2 2 ", 1_000_000) + `"/>`), manyLines},
		"many huge arcs":               {drawing(`<path d="M0 0` + strings.Repeat("a9e9 9e9 0 1 1 1 1", 100_000) + `"/>`), manyLines},
		"copies of copies": {drawing(many(15, func(i int) string {
			return fmt.Sprintf(`<g id="u%d">%s</g>`, i, strings.Repeat(fmt.Sprintf(`<use href="#u%d"/>`, i+1), 10))
		}) + `<path id="u15" d="M0 0H90V90H0z"/>`), manyLines},
		"a long transform, copied": {drawing(`<g id="t" transform="` + strings.Repeat("scale(1)", 200_000) + `"/>` + strings.Repeat(`<use href="#t"/>`, 5000)), repeats},
		"a long style, copied":     {drawing(`<g id="t" style="` + strings.Repeat("a:b;", 400_000) + `"/>` + strings.Repeat(`<use href="#t"/>`, 5000)), repeats},
		"a line of starts, copied": {drawing(`<path id="t" d="` + strings.Repeat("M1 1", 400_000) + `"/>` + strings.Repeat(`<use href="#t"/>`, 5000)), repeats},
		"100 000 squares":          {drawing(many(100_000, square)), manyLines},
		"20 000 squares":           {drawing(many(20_000, square)), "too many lines in one another"},
		"rings in rings":           {drawing(many(9000, func(i int) string { return fmt.Sprintf(`<circle cx="500" cy="500" r="%g"/>`, 1+0.05*float64(i)) })), ""},
		"combs in combs":           {drawing(many(2000, func(i int) string { return comb(100, float64(i)*1e-3) })), ""},
		"pieces without end": {drawing(many(5000, func(i int) string {
			return strings.Replace(square(i), "/>", fmt.Sprintf("><title>Piece %d</title></path>", i), 1)
		})), "more than 300 pieces"},
		"labels that are no sizes":  {drawing(many(30_000, func(i int) string { return fmt.Sprintf(`<g id="%s%d"/>`, strings.Repeat("38 ", 60), i) })), repeats},
		"hidden sizes":              {drawing(ring + strings.Repeat(`<g inkscape:label="40" display="none"/>`, 50_000)), ""},
		"layers that are no sizes":  {strings.Replace(drawing(named), "</svg>", many(15_000, func(i int) string { return fmt.Sprintf(`<g id="%d"/>`, 1000+i) })+"</svg>", 1), ""},
		"lines on no piece":         {drawing(named + many(30_000, func(i int) string { return fmt.Sprintf(`<path d="M200 %d h1"><title>Hip</title></path>`, i) })), ""},
		"numbers beyond all bounds": {drawing(`<path d="M0 0H1e308V1e308H-1e308z"/>`), "cannot be on paper"},
		"a size beyond all bounds":  {`<svg width="1e300mm" height="1e300mm" viewBox="0 0 1e-300 1e-300"><g id="size38">` + ring + `</g></svg>`, "cannot be on paper"},
		"a kilometre":               {drawing(`<path d="M0 0H1e9V10H0z"/>`), "cannot be on paper"},
	}
}

// comb is a closed line of n teeth, all of it round the same place.
func comb(n int, off float64) string {
	return `<path d="M0 0 ` + many(n, func(i int) string { return fmt.Sprintf("L%g %g ", float64(i%2*90)+off, float64(i)) }) + `L-9 -9z"/>`
}

// TestHostile holds drawings that mean harm to a sentence, little time and
// little memory.
func TestHostile(t *testing.T) {
	for name, c := range hostile() {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		s, err := ReadSVG(strings.NewReader(c[0]), euChart())
		took := time.Since(began)
		runtime.ReadMemStats(&after)
		var u Unusable
		switch {
		case c[1] == "" && err != nil:
			t.Errorf("%s: %v", name, err)
		case c[1] != "" && (!errors.As(err, &u) || !strings.Contains(err.Error(), c[1])):
			t.Errorf("%s: read as %d pieces, %v; want %q", name, len(s.Pieces), err, c[1])
		}
		if used := after.TotalAlloc - before.TotalAlloc; took > longest || used > mostMemory {
			t.Errorf("%s: took %v and %d MB", name, took, used>>20)
		}
		if n := len(s.Warnings); n > mostRemarks+2*mostSaid+3 {
			t.Errorf("%s: %d remarks", name, n)
		}
		for _, p := range s.Pieces {
			if len(p.Name) > longestName || strings.Contains(p.Name, "haha") || strings.Contains(p.Name, "root:") {
				t.Errorf("%s: a piece is called %.60q", name, p.Name)
			}
		}
	}
}

// TestTagGuard: what lies between tags, in comments and in quotes is no
// attribute, however long.
func TestTagGuard(t *testing.T) {
	words := strings.Repeat("it's a word ", 5000)
	svg := strings.Replace(drawing(`<path d="M0 0H90V90H0z" x-data="`+strings.Repeat("1 2=3 ", 9000)+`"><title>Back</title></path>`),
		"</svg>", "<!-- "+words+"--><desc>"+words+"</desc><!-- "+words+"--></svg>", 1)
	if s, err := ReadSVG(strings.NewReader(svg), euChart()); err != nil || len(s.Pieces) != 1 {
		t.Errorf("read %+v, %v", s, err)
	}
}
