package tile_test

import (
	"testing"
	"time"

	"quarterstep/printing/tile"
)

func a4() tile.Setup {
	return tile.Setup{Paper: tile.Papers()[0], Margin: 10, Overlap: 10}
}

func TestQuick(t *testing.T) {
	for _, name := range []string{"A4", "A3", "A2", "A0", "Letter", "914.4x3000mm"} {
		p, _ := tile.ParsePaper(name)
		s := a4()
		s.Paper = p
		start := time.Now()
		placed, err := tile.Arrange(doublet(), s)
		if err != nil {
			t.Fatal(err)
		}
		d := time.Since(start)
		plan, err := tile.Layout(placed, s)
		if err != nil {
			t.Fatal(err)
		}
		t.Log(name, d, plan.Rows, plan.Cols, len(plan.Sheets), plan.Cover(), time.Since(start))
	}
}
