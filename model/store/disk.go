package store

import (
	"io"
	"os"

	"quarterstep/assets/words"
)

// Save writes f to path. It writes beside the old file, waits until the disk
// has it, and only then takes the old one's place: on an error the old file is
// untouched and nothing is left behind.
func Save(path string, f File) error {
	if err := Replace(path, func(w io.Writer) error { return Write(w, f) }); err != nil {
		return words.Errorf("saving the pattern: %w", err)
	}
	return nil
}

// Load reads the project file at path; errors as Read.
func Load(path string) (File, error) {
	f, err := load(path)
	if err != nil {
		return File{}, words.Errorf("opening the pattern: %w", Plain(path, err))
	}
	return f, nil
}

func load(path string) (File, error) {
	in, err := os.Open(path)
	if err != nil {
		return File{}, err
	}
	defer in.Close()
	info, err := in.Stat()
	if err != nil {
		return File{}, err
	}
	if !info.Mode().IsRegular() {
		return File{}, ErrNotOurs
	}
	return Read(in, info.Size())
}
