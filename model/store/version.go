package store

import (
	"bytes"
	"encoding/json"
	"fmt"

	"quarterstep/assets/words"
	"quarterstep/model/jsonsize"
)

const formatName = "quarterstep pattern" // words: none

// migration turns the pattern of one version into that of the next.
type migration func(json.RawMessage) (json.RawMessage, error)

// migrations[i] leads from version i+1 to i+2; the version written is one more
// than there are migrations.
var migrations = []migration{
	unchanged, // version 2 adds the wearer's measurements, stages, shared lines, typed gaps, cuts and more kinds of correction
	unchanged, // version 3 adds seams of several leaders that give way, lengthenings, darts trued, limits of checks
	unchanged, // version 4 adds pictures and tracings
	unchanged, // version 5 adds how many of a piece to cut in lining
}

// unchanged leads to a version that only adds what an older one left out.
func unchanged(data json.RawMessage) (json.RawMessage, error) { return data, nil }

// envelope is pattern.json, its pattern read or not yet.
type envelope[T any] struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	Home    string `json:"home,omitempty"`
	Pattern T      `json:"pattern"`
}

// encode writes all of f but its pictures.
func encode(f File) ([]byte, error) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(envelope[patternData]{formatName, len(migrations) + 1, f.Home, fromPattern(f.Pattern)}); err != nil {
		return nil, err
	}
	return layOut(bytes.TrimSpace(out.Bytes())), nil
}

// decode reads all of a File but its pictures.
func decode(data []byte) (File, error) {
	if err := jsonsize.Check(data, patternSize); err != nil {
		return File{}, fmt.Errorf("%w: %w", ErrTooBig, err)
	}
	var e envelope[json.RawMessage]
	if err := json.Unmarshal(data, &e); err != nil {
		return File{}, words.Errorf("its pattern.json is spoilt: %w", err)
	}
	if e.Format != formatName {
		return File{}, ErrNotOurs
	}
	inner, err := migrate(e.Pattern, e.Version, migrations)
	if err != nil {
		return File{}, err
	}
	var d patternData
	if err := json.Unmarshal(inner, &d); err != nil {
		return File{}, words.Errorf("its pattern.json is spoilt: %w", err)
	}
	f := File{Pattern: d.pattern(), Home: e.Home}
	if err := f.Pattern.Validate(); err != nil {
		return File{}, words.Errorf("its pattern cannot be used:\n%w", err)
	}
	return f, nil
}

// migrate takes data of that version through the steps still ahead of it.
func migrate(data json.RawMessage, version int, steps []migration) (json.RawMessage, error) {
	switch {
	case len(data) == 0:
		return nil, words.Error("its pattern.json has no pattern")
	case version < 1:
		return nil, words.Error("its pattern.json has no version")
	case version > len(steps)+1:
		return nil, words.Errorf("%w (its version is %d, this one reads up to %d)", ErrNewer, version, len(steps)+1)
	}
	for v := version; v <= len(steps); v++ {
		var err error
		if data, err = steps[v-1](data); err != nil {
			return nil, words.Errorf("bringing it from version %d to %d: %w", v, v+1, err)
		}
	}
	return data, nil
}
