package draft_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"quarterstep/model"
)

var update = flag.Bool("update", false, "rewrite the goldens")

// The drafts do not change unseen: every control point, lengthen line, notch
// and apex in every printed size, to 0.01 mm.
func TestGolden(t *testing.T) {
	for _, d := range demos {
		var b strings.Builder
		for _, q := range d.draw(t).Pieces {
			for i, o := range q.Nest {
				fmt.Fprintf(&b, "%s, size %s\n", q.Name, o.Size)
				for k, e := range o.Edges {
					fmt.Fprintf(&b, "  %s:", q.Edges[k].Name)
					for _, p := range e.Controls() {
						fmt.Fprintf(&b, " %s,%s", hundredths(p.X), hundredths(p.Y))
					}
					b.WriteByte('\n')
				}
				for _, n := range q.Notches {
					fmt.Fprintf(&b, "  notch on %s at %s\n", n.Edge, hundredths(n.Spots[i].S))
				}
				for _, l := range q.Lines {
					if l.Kind == model.Lengthen {
						from, to := l.Drawn[i].Path.Start(), l.Drawn[i].Path.End()
						fmt.Fprintf(&b, "  %s: %s,%s to %s,%s\n", l.Name, hundredths(from.X), hundredths(from.Y), hundredths(to.X), hundredths(to.Y))
					}
				}
				for _, dart := range q.Darts {
					fmt.Fprintf(&b, "  %s to %s,%s\n", dart.Name, hundredths(dart.Apex[i].At.X), hundredths(dart.Apex[i].At.Y))
				}
			}
		}
		file := "testdata/" + d.name + ".golden"
		if *update {
			if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got := b.String(); got != string(want) {
			g, w := strings.Split(got, "\n"), strings.Split(string(want), "\n")
			for i := range min(len(g), len(w)) {
				if g[i] != w[i] {
					t.Fatalf("%s, line %d:\n got %s\nwant %s", file, i+1, g[i], w[i])
				}
			}
			t.Fatalf("%s: %d lines, want %d", file, len(g), len(w))
		}
	}
}

// hundredths never prints a minus nought.
func hundredths(v float64) string {
	if v > -0.005 && v < 0.005 {
		v = 0
	}
	return fmt.Sprintf("%.2f", v)
}
