package app

import (
	"errors"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"quarterstep/assets/words"
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
// its pieces and matches them across the sizes. Sizes whose centre or fold
// lines do not lie on each other are laid so. A file that cannot be used gives
// one sentence.
func BringIn(path string, chart model.SizeChart) (Brought, error) {
	return bringIn(Watch{}, path, chart, exchange.ReadSVG)
}

// BringInOneSize is BringIn for a pattern printed in one size: a drawing in
// which no layer is named after a size is all of that one.
func BringInOneSize(path string, chart model.SizeChart, size string) (Brought, error) {
	return Watch{}.BringInOneSize(path, chart, size)
}

func bringIn(w Watch, path string, chart model.SizeChart, read func(io.Reader, model.SizeChart) (exchange.Sheet, error)) (Brought, error) {
	info, err := os.Stat(path)
	if err != nil {
		return Brought{}, plainFile(path, err)
	}
	if info.IsDir() {
		return Brought{}, words.Errorf("%s is a folder; choose an SVG file in it", path)
	}
	if info.Size() > maxDrawing {
		return Brought{}, words.Errorf("%s is larger than 64 MB; save it with the pattern lines only", filepath.Base(path))
	}
	f, err := os.Open(path)
	if err != nil {
		return Brought{}, plainFile(path, err)
	}
	defer f.Close()
	sheet, err := read(w.reader(f), chart)
	if done := w.err(); done != nil {
		return Brought{}, done
	}
	if err != nil {
		var pathErr *fs.PathError
		if errors.As(err, &pathErr) {
			return Brought{}, plainFile(path, err)
		}
		return Brought{}, err
	}
	pieces, doubts, err := match.PiecesWatched(w.ctx(), sheet, chart, w.Progress)
	if err != nil {
		return Brought{}, err
	}
	pieces, laid, err := stacked(pieces, chart)
	if err != nil {
		return Brought{}, err
	}
	out := Brought{Doubts: doubts, Remarks: append(sheet.Warnings, laid...)}
	out.Pattern = model.Pattern{
		Name:   strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)),
		Unit:   unitOf(chart),
		Chart:  chart,
		Pieces: spread(pieces),
	}
	out.Pattern.Target.Place = largestPrinted(out.Pattern)
	for _, d := range doubts {
		out.Remarks = append(out.Remarks, words.F("%s, size %s: %s", d.Piece, d.Size, d.Say))
	}
	return out, out.Pattern.Validate()
}

// mostDrift is how far in mm per step of the chart a centre or fold line may go
// across itself that was printed to lie on itself: what a hand is off in
// tracing.
const mostDrift = 1.0

// stacked lays the sizes of every piece whose centre line drifts on each other
// there, and says of which.
func stacked(pieces []model.Piece, chart model.SizeChart) (out []model.Piece, say []string, err error) {
	out = slices.Clone(pieces)
	for i, q := range pieces {
		drift, err := match.Drift(q, chart)
		if err != nil {
			return nil, nil, err
		}
		if drift <= mostDrift {
			continue
		}
		if out[i], err = match.Stack(q, match.StackOn{Line: model.Centre}); err != nil {
			return nil, nil, err
		}
		say = append(say, words.F("%s: its sizes were not printed with their centre lines on each other (%s mm off at a step). They are laid so here; no line changed its shape.", q.Name, words.Figure(drift, 1)))
	}
	return out, say, nil
}

// Understood is what was read of each piece of a pattern, a sentence each: the
// sizes it is printed in, those that share a line, and its grade points.
func Understood(p model.Pattern) []string {
	var out []string
	for _, q := range p.Pieces {
		out = append(out, words.F("%s: %s; %d grade points.", q.Name, printedWords(q), len(q.Points)))
	}
	return out
}

func printedWords(q model.Piece) string {
	if q.OneForAll {
		return words.T("the same in all sizes")
	}
	var lines []string
	n, shared := 0, false
	for _, o := range q.Nest {
		n += len(o.Sizes())
		shared = shared || len(o.Also) > 0
		lines = append(lines, o.Label())
	}
	switch {
	case n == 1:
		return words.F("printed in size %s only", lines[0])
	case len(lines) == 1:
		return words.F("printed in sizes %s, all on one line", strings.Join(q.Nest[0].Sizes(), ", "))
	case shared:
		return words.F("printed in sizes %s (joined by a stroke: on one line)", strings.Join(lines, ", "))
	}
	return words.F("printed in sizes %s", strings.Join(lines, ", "))
}

// BringInByAnyChart brings in the nest by the chart that knows most of its
// sizes; of several, by the one whose steps the printed gaps follow best. When
// none knows any, the error is that of the first chart.
func BringInByAnyChart(path string, charts []model.SizeChart) (Brought, error) {
	return Watch{}.BringInByAnyChart(path, charts)
}

// BringInByAnyChart is the function of that name, watched.
func (w Watch) BringInByAnyChart(path string, charts []model.SizeChart) (Brought, error) {
	var best Brought
	var first error
	most, least := 0, 0.0
	for i, c := range charts {
		got, err := bringIn(w.part(i, len(charts)), path, c, exchange.ReadSVG)
		if done := w.err(); done != nil {
			return Brought{}, done
		}
		if err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		sizes, miss := 0, misfit(got.Pattern)
		for _, q := range got.Pattern.Pieces {
			for _, o := range q.Nest {
				sizes += len(o.Sizes())
			}
		}
		if sizes > most || sizes == most && miss < least {
			best, most, least = got, sizes, miss
		}
	}
	if most == 0 && first == nil {
		first = words.Error("choose a size chart first: the nest is read by it")
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
			for _, size := range o.Sizes() {
				if place, ok := p.Chart.Place(size); ok {
					best = max(best, place)
				}
			}
		}
	}
	return float64(best)
}
