package paper

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"

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
	const doing = "reading the remembered lenses"
	data, err := io.ReadAll(io.LimitReader(r, mostLensBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", doing, err)
	}
	if len(data) > mostLensBytes {
		return nil, fmt.Errorf("%s: the file is too large to be one of lenses", doing)
	}
	var out []straight.KnownLens
	if err := json.Unmarshal(data, &out); err != nil {
		return nil, fmt.Errorf("%s: the file is not a list of lenses; begin a new one", doing)
	}
	if len(out) > mostLenses {
		return nil, fmt.Errorf("%s: it has more than %d", doing, mostLenses)
	}
	for i, k := range out {
		if err := plausible(k); err != nil {
			return nil, fmt.Errorf("%s: lens %d, of %q: %w", doing, i+1, k.Camera, err)
		}
	}
	return out, nil
}

// plausible refuses what no camera's lens can be.
func plausible(k straight.KnownLens) error {
	in := func(v, most float64) bool { return math.Abs(v) <= most }
	switch {
	case k.Camera == "":
		return errors.New("it has no camera")
	case !(k.Focal35 >= 0) || !in(k.Focal35, 5000):
		return fmt.Errorf("its focal length cannot be %v mm", k.Focal35)
	case !in(k.K1, 1) || !in(k.Off[0], 1) || !in(k.Off[1], 1):
		return errors.New("it bends more than a lens can")
	case !(k.Scale > 0.01) || !in(k.Scale, 100):
		return fmt.Errorf("its scale cannot be %v", k.Scale)
	}
	return nil
}

// WriteLenses writes lenses as ReadLenses reads them.
func WriteLenses(w io.Writer, lenses []straight.KnownLens) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	if err := enc.Encode(lenses); err != nil {
		return fmt.Errorf("writing the remembered lenses: %w", err)
	}
	return nil
}
