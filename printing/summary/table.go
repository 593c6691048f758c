package summary

import (
	"math"
	"strings"

	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

const (
	cellAir    = 3.0  // between columns
	tableApart = 2.0  // below a table
	ruleAir    = 1.0  // above and below the words of a row
	leastRow   = 30.0 // of the column that takes what is left, where it needs so much

	// mostWords is the share of the page's width that a column of words takes
	// before they go on below.
	mostWords = 0.42
)

// columns are the left edges and widths of a table's columns, and how much its
// letters shrink so that all has room.
type columns struct {
	at, wide []float64
	size     float64 // letter height
}

// columnsOf gives every column what its longest cell needs, and the last column
// of words what is left.
func (d *document) columnsOf(t Table) columns {
	n := len(t.Head)
	words := n - 1 - t.Amounts // the column that takes what is left
	if words < 0 {
		words = 0
	}
	need := make([]float64, n)
	for i := range need {
		need[i] = d.Width(t.Head[i], textSize, true)
		for _, row := range t.Rows {
			need[i] = math.Max(need[i], d.Width(row[i], textSize, false))
		}
		if need[i] += cellAir; i < n-t.Amounts {
			need[i] = math.Min(need[i], mostWords*d.wide)
		}
	}
	sum := 0.0
	for i, w := range need {
		if i != words {
			sum += w
		}
	}
	k := 1.0
	if least := math.Min(need[words], leastRow); sum+least > d.wide {
		k = (d.wide - least) / sum
	}
	c := columns{at: make([]float64, n), wide: make([]float64, n), size: k * textSize}
	x := 0.0
	for i := range need {
		c.at[i], c.wide[i] = x, k*need[i]
		if i == words {
			c.wide[i] = d.wide - k*sum
		}
		x += c.wide[i]
	}
	return c
}

// table is a block for the head, kept with the first row, and one for each row.
func (d *document) table(t Table) []block {
	if len(t.Rows) == 0 {
		return nil
	}
	c := d.columnsOf(t)
	var out []block
	if strings.Join(t.Head, "") != "" {
		out = append(out, d.row(t, c, t.Head, true))
	}
	for _, row := range t.Rows {
		out = append(out, d.row(t, c, row, false))
	}
	return append(out, block{high: tableApart, draw: func(*page.Page, geom.Point) {}})
}

func (d *document) row(t Table, c columns, cells []string, head bool) block {
	lines := make([][]string, len(cells))
	most := 1
	for i, s := range cells {
		lines[i] = []string{s}
		if d.Width(s, c.size, head) > c.wide[i]-cellAir+0.01 {
			lines[i] = d.Wrap(s, c.wide[i]-cellAir, c.size)
		}
		most = max(most, len(lines[i]))
	}
	high := float64(most-1)*lineApart*c.size + c.size + 2*ruleAir
	return block{high: high, keep: head, draw: func(p *page.Page, at geom.Point) {
		for i := range cells {
			y := at.Y + ruleAir + 0.85*c.size
			for _, l := range lines[i] {
				x := at.X + c.at[i]
				size := d.Fit(l, c.wide[i]-cellAir/2, c.size, head)
				if i >= len(cells)-t.Amounts {
					x += c.wide[i] - d.Width(l, size, head)
				}
				d.Write(p, page.Words{Text: l, At: geom.Pt(x, y), Size: size, Bold: head, Left: true})
				y += lineApart * c.size
			}
		}
		ink, width := page.Grey(0.75), 0.1
		if head {
			ink, width = page.Grey(0.3), 0.2
		}
		p.Line(geom.Pt(at.X, at.Y+high), geom.Pt(at.X+d.wide, at.Y+high), width, ink)
	}}
}
