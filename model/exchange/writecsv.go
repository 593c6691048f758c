package exchange

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
)

// Increment is one row of the table of increments: how far a grade point went
// from a printed size, in mm, and which measures it followed.
type Increment struct {
	Piece, Point  string
	From, To      string  // sizes
	Across, Along float64 // mm
	FollowsAcross string
	FollowsAlong  string
}

// WriteCSV writes increments as a table with a heading, lengths in mm to
// 0.001, decimal points, commas between.
func WriteCSV(w io.Writer, rows []Increment) error {
	c := csv.NewWriter(w)
	mm := func(v float64) string { return strconv.FormatFloat(rounded(v, 1e3), 'f', 3, 64) }
	table := [][]string{{"piece", "grade point", "from size", "to size", "across mm", "along mm", "follows across", "follows along"}}
	for _, r := range rows {
		table = append(table, []string{r.Piece, r.Point, r.From, r.To, mm(r.Across), mm(r.Along), r.FollowsAcross, r.FollowsAlong})
	}
	if err := c.WriteAll(table); err != nil {
		return fmt.Errorf("writing the increments: %w", err)
	}
	return nil
}
