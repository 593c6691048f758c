package paper

import (
	"encoding/json"
	"fmt"
	"io"

	"quarterstep/assets/words"
	"quarterstep/model/trace/straight"
)

const (
	mostLensBytes = 1 << 20
	mostLenses    = 1000
)

// ReadLenses reads the lenses remembered in a file: a JSON list of camera,
// focal35 (mm on the 35 mm frame, 0 unknown), k1, off (of its middle from the
// picture's) and scale, both in longer sides of the picture.
func ReadLenses(r io.Reader) ([]straight.KnownLens, error) {
	doing := words.T("reading the remembered lenses")
	data, err := io.ReadAll(io.LimitReader(r, mostLensBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", doing, err)
	}
	if len(data) > mostLensBytes {
		return nil, words.Errorf("%s: the file is too large to be one of lenses", doing)
	}
	var out []straight.KnownLens
	if err := json.Unmarshal(data, &out); err != nil {
		return nil, words.Errorf("%s: the file is not a list of lenses; begin a new one", doing)
	}
	if len(out) > mostLenses {
		return nil, words.Errorf("%s: it has more than %d", doing, mostLenses)
	}
	for i, k := range out {
		if err := k.Plausible(); err != nil {
			return nil, words.Errorf("%s: lens %d, of %q: %w", doing, i+1, k.Camera, err)
		}
	}
	return out, nil
}

// WriteLenses writes lenses as ReadLenses reads them.
func WriteLenses(w io.Writer, lenses []straight.KnownLens) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	if err := enc.Encode(lenses); err != nil {
		return words.Errorf("writing the remembered lenses: %w", err)
	}
	return nil
}
