package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/jsonsize"
	"quarterstep/printing/tile"
)

// Printed is what a print was: what was on its pages and where its pieces lay.
// It is kept so that the next time only what changed is printed again.
type Printed struct {
	Setup  string                 // the paper and its margins, as one word to compare
	Places map[string]geom.Affine // by piece ID
	Pages  map[string]string      // as Job.Marks
}

// Printed is what the job would print.
func (j Job) Printed() (Printed, error) {
	out := Printed{Setup: setupWord(j.asked), Places: map[string]geom.Affine{}}
	for i, q := range j.Plan.Pieces {
		out.Places[j.ids[i]] = q.At
	}
	var err error
	out.Pages, err = j.Marks()
	return out, err
}

// setupWord is a setup as one word: the same for the same pages.
func setupWord(s tile.Setup) string { return fmt.Sprintf("%+v", s) }

// ChangedPages names the pages of the job that are other than at the last print
// or were not in it, in the order printed.
func (j Job) ChangedPages(last Printed) ([]string, error) {
	if last.Setup != setupWord(j.asked) {
		return j.Plan.PageNames(), nil
	}
	return j.Changed(last.Pages)
}

// printedFile is a Printed as it is kept in a file.
type printedFile struct {
	Format string                `json:"format"`
	Setup  string                `json:"setup"`
	Places map[string][6]float64 `json:"places"`
	Pages  map[string]string     `json:"pages"`
}

const printedFormat = "quarterstep printed pages" // words: none

// What such a file may hold at most.
const mostPrinted = 4 << 20 // bytes

var printedSize = jsonsize.Most{Items: []int{100_000}, Names: 50_000}

// sane reports that the file is one of ours and places pieces as they can lie on
// pages: turned and moved, never larger or smaller.
func (f printedFile) sane() bool {
	const off, farthest = 1e-6, 1e7 // farthest in mm
	for _, m := range f.Places {
		whole := math.Abs(math.Abs(m[0]*m[3]-m[1]*m[2])-1) <= off && math.Abs(m[0]*m[2]+m[1]*m[3]) <= off && math.Abs(m[0]*m[0]+m[1]*m[1]-1) <= off
		if !whole || math.Abs(m[4]) > farthest || math.Abs(m[5]) > farthest {
			return false
		}
	}
	return f.Format == printedFormat
}

// readSmall reads a file of at most that many bytes; of a larger one it gives
// one byte more.
func readSmall(path string, most int64) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most+1))
}

// LoadPrinted reads what was kept of the last print; nothing where there is no
// such file yet.
func LoadPrinted(path string) (Printed, error) {
	data, err := readSmall(path, mostPrinted)
	if errors.Is(err, fs.ErrNotExist) {
		return Printed{}, nil
	}
	if err != nil {
		return Printed{}, plainFile(path, err)
	}
	out, ok := printedIn(data)
	if !ok {
		return Printed{}, words.Errorf("%s does not say what was printed; take another file, or none to print all", path)
	}
	return out, nil
}

// printedIn reads what such a file holds; false where it is not one.
func printedIn(data []byte) (Printed, bool) {
	var f printedFile
	if len(data) > mostPrinted || jsonsize.Check(data, printedSize) != nil || json.Unmarshal(data, &f) != nil || !f.sane() {
		return Printed{}, false
	}
	out := Printed{Setup: f.Setup, Places: map[string]geom.Affine{}, Pages: f.Pages}
	for id, m := range f.Places {
		out.Places[id] = geom.Affine{A: m[0], B: m[1], C: m[2], D: m[3], E: m[4], F: m[5]}
	}
	return out, true
}

// SavePrinted keeps what was printed.
func SavePrinted(path string, p Printed) error {
	f := printedFile{Format: printedFormat, Setup: p.Setup, Places: map[string][6]float64{}, Pages: p.Pages}
	for id, m := range p.Places {
		f.Places[id] = [6]float64{m.A, m.B, m.C, m.D, m.E, m.F}
	}
	return WriteFile(path, func(w io.Writer) error {
		enc := json.NewEncoder(w)
		enc.SetIndent("", " ")
		return enc.Encode(f)
	})
}
