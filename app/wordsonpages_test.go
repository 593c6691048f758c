package app

import (
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// No join between pages runs through the words that name a piece, though most
// pieces lie over several pages; nothing but those words is laid anew.
func TestNamesAreOnOnePage(t *testing.T) {
	over := 0
	for _, p := range demos(t) {
		for paper, c := range map[string]PrintChoice{
			"a4":     {Stitching: true, Marks: true, Date: "2026-11-29"},
			"letter": {Marks: true, Sizes: chartSizes(p, 4)},
		} {
			setup, err := PrintSetup(paper, "", "")
			if err != nil {
				t.Fatal(err)
			}
			job, err := Plan(p, c, setup)
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range job.Plan.Pieces {
				lines := joinsOver(q.Piece, q.At, joinLines(job.Plan))
				if len(lines) > 0 {
					over++
				}
				block := false
				for _, l := range q.Piece.Labels {
					if block = block || l.Bold; !block {
						continue
					}
					if hit := strokesThrough(room(t, l), lines); len(hit) > 0 {
						t.Errorf("%s on %s: a join runs through %q of %s", p.Name, paper, l.Text, q.Piece.Name)
					}
					if hit := strokesThrough(room(t, l), q.Piece.Strokes); len(hit) > 0 {
						t.Errorf("%s on %s: a line runs through %q of %s", p.Name, paper, l.Text, q.Piece.Name)
					}
				}
			}
		}
	}
	if over < 10 {
		t.Errorf("only %d pieces lie over a join: this test shows little", over)
	}
}

// joinsOver are the joins that run over a piece, in its own coordinates.
func joinsOver(q printing.Piece, at geom.Affine, joins []geom.Path) []printing.Stroke {
	back, _ := at.Inverse()
	var out []printing.Stroke
	for _, l := range joins {
		if s := l.Transform(back); s.Bounds().Grow(0.01).Intersects(q.Outline.Bounds()) {
			out = append(out, printing.Stroke{Path: s})
		}
	}
	return out
}
