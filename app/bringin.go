package app

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"

	"quarterstep/grading/match"
	"quarterstep/model"
	"quarterstep/model/exchange"
)

// maxDrawing is the largest drawing read, in bytes.
const maxDrawing = 64 << 20

// Brought is a nest brought in: a pattern ready to grade, what is doubtful
// about its corners, and plain remarks about what was left out.
type Brought struct {
	Pattern model.Pattern
	Doubts  []match.Doubt
	Remarks []string
}

// BringIn reads the nest in an SVG file by a size chart, finds the corners of
// its pieces and matches them across the sizes. A file that cannot be used
// gives one sentence.
func BringIn(path string, chart model.SizeChart) (Brought, error) {
	info, err := os.Stat(path)
	if err != nil {
		return Brought{}, plainFile(path, err)
	}
	if info.IsDir() {
		return Brought{}, fmt.Errorf("%s is a folder; choose an SVG file in it", path)
	}
	if info.Size() > maxDrawing {
		return Brought{}, fmt.Errorf("%s is larger than 64 MB; save it with the pattern lines only", filepath.Base(path))
	}
	f, err := os.Open(path)
	if err != nil {
		return Brought{}, plainFile(path, err)
	}
	defer f.Close()
	sheet, err := exchange.ReadSVG(f, chart)
	if err != nil {
		var pathErr *fs.PathError
		if errors.As(err, &pathErr) {
			return Brought{}, plainFile(path, err)
		}
		return Brought{}, err
	}
	pieces, doubts, err := match.Pieces(sheet, chart)
	if err != nil {
		return Brought{}, err
	}
	out := Brought{Doubts: doubts, Remarks: sheet.Warnings}
	out.Pattern = model.Pattern{
		Name:   strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)),
		Unit:   unitOf(chart),
		Chart:  chart,
		Pieces: spread(pieces),
	}
	out.Pattern.Target.Place = largestPrinted(out.Pattern)
	for _, d := range doubts {
		out.Remarks = append(out.Remarks, fmt.Sprintf("%s, size %s: %s", d.Piece, d.Size, d.Say))
	}
	return out, out.Pattern.Validate()
}

// BringInByAnyChart brings in the nest by the chart that knows most of its
// sizes; of several, by the one whose steps the printed gaps follow best. When
// none knows any, the error is that of the first chart.
func BringInByAnyChart(path string, charts []model.SizeChart) (Brought, error) {
	var best Brought
	var first error
	most, least := 0, 0.0
	for _, c := range charts {
		got, err := BringIn(path, c)
		if err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		outlines, miss := 0, misfit(got.Pattern)
		for _, q := range got.Pattern.Pieces {
			outlines += len(q.Nest)
		}
		if outlines > most || outlines == most && miss < least {
			best, most, least = got, outlines, miss
		}
	}
	if most == 0 && first == nil {
		first = errors.New("choose a size chart first: the nest is read by it")
	}
	if most == 0 {
		return Brought{}, first
	}
	return best, nil
}

// misfit is by how much, on the mean of all grade points in mm, the printed
// sizes miss the measures they follow; infinite where they cannot be graded.
func misfit(p model.Pattern) float64 {
	r, err := Grade(p)
	if err != nil {
		return math.Inf(1)
	}
	var sum, n float64
	for _, q := range r.Pieces {
		for _, inc := range q.Points {
			sum += inc.Across.Residual + inc.Along.Residual
			n++
		}
	}
	return sum / math.Max(1, n)
}

// unitOf is the unit a chart's readers think in: inches where the bust of its
// first size is a whole number of quarter inches.
func unitOf(c model.SizeChart) model.Unit {
	if len(c.Sizes) == 0 {
		return model.Centimetres
	}
	const rounding = 1e-9
	quarters := c.Sizes[0].Body[model.Bust] / 25.4 * 4
	if quarters > 0 && math.Abs(quarters-math.Round(quarters)) < rounding {
		return model.Inches
	}
	return model.Centimetres
}

// largestPrinted is the chart place of the largest size any piece is printed in.
func largestPrinted(p model.Pattern) float64 {
	best := 0
	for _, q := range p.Pieces {
		for _, o := range q.Nest {
			if place, ok := p.Chart.Place(o.Size); ok {
				best = max(best, place)
			}
		}
	}
	return float64(best)
}
