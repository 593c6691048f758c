package store

import (
	"archive/zip"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"quarterstep/assets/words"
)

const (
	patternEntry = "pattern.json"
	pictureEntry = "pictures/"
)

// Write writes f as a project file. It refuses a pattern that breaks a rule of
// Pattern.Validate and pictures whose names or sizes could not be read back.
func Write(w io.Writer, f File) error {
	if err := f.Pattern.Validate(); err != nil {
		return words.Errorf("writing the pattern: %w", err)
	}
	data, err := encode(f)
	if err != nil {
		return words.Errorf("writing the pattern: %w", err)
	}
	if len(data) > maxPattern || len(f.Pictures) > maxEntries-1 {
		return words.Errorf("writing the pattern: %w", ErrTooBig)
	}
	z := zip.NewWriter(w)
	if err := addEntry(z, patternEntry, zip.Deflate, data); err != nil {
		return err
	}
	total := 0
	for _, name := range slices.Sorted(maps.Keys(f.Pictures)) {
		if err := pictureName(name); err != nil {
			return err
		}
		picture := f.Pictures[name]
		if total += len(picture); len(picture) > MostPicture || total > maxPictures {
			return words.Errorf("writing the picture %s: %w", name, ErrTooBig)
		}
		// Photos are compressed already.
		if err := addEntry(z, pictureEntry+name, zip.Store, picture); err != nil {
			return err
		}
	}
	if err := z.Close(); err != nil {
		return words.Errorf("writing the pattern: %w", err)
	}
	return nil
}

// addEntry leaves the entry without a time, so that the same content gives the
// same bytes.
func addEntry(z *zip.Writer, name string, method uint16, data []byte) error {
	w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: method})
	if err == nil {
		_, err = w.Write(data)
	}
	if err != nil {
		return words.Errorf("writing %s: %w", name, err)
	}
	return nil
}

// Read reads a project file of that many bytes. Errors say what is wrong with
// the file; ErrNotOurs, ErrTooBig and ErrNewer can be told apart.
func Read(r io.ReaderAt, size int64) (File, error) {
	if size > maxPattern+maxPictures+maxListing {
		return File{}, ErrTooBig
	}
	list := &rationed{r: r, left: maxListing}
	z, err := zip.NewReader(list, size)
	switch {
	case list.left < 0:
		return File{}, ErrTooBig
	case err != nil:
		return File{}, ErrNotOurs
	}
	list.free = true
	if len(z.File) > maxEntries {
		return File{}, ErrTooBig
	}
	var f File
	found, left := false, min(maxPictures, mostGrown*size+grownSlack)
	for _, e := range z.File {
		name, isPicture := strings.CutPrefix(e.Name, pictureEntry)
		switch {
		case e.Name == patternEntry && found:
			return File{}, words.Errorf("it has %s twice", patternEntry)
		case e.Name == patternEntry:
			found = true
			data, err := readEntry(e, maxPattern)
			if err != nil {
				return File{}, err
			}
			read, err := decode(data)
			if err != nil {
				return File{}, err
			}
			f.Pattern, f.Home = read.Pattern, read.Home
		case isPicture && pictureName(name) == nil:
			if f.Pictures[name] != nil {
				return File{}, words.Errorf("it has the picture %s twice", name)
			}
			data, err := readEntry(e, min(MostPicture, left))
			if err != nil {
				return File{}, err
			}
			left -= int64(len(data))
			if f.Pictures == nil {
				f.Pictures = map[string][]byte{}
			}
			f.Pictures[name] = data
		}
	}
	if !found {
		return File{}, words.Errorf("%w: it has no %s", ErrNotOurs, patternEntry)
	}
	return f, nil
}

// rationed reads only so many bytes until it is free: the list of an archive's
// entries may claim any length, and is kept whole.
type rationed struct {
	r    io.ReaderAt
	left int64
	free bool
}

// ReadAt refuses once the ration is used up.
func (l *rationed) ReadAt(p []byte, at int64) (int, error) {
	if !l.free {
		if l.left -= int64(len(p)); l.left < 0 {
			return 0, ErrTooBig
		}
	}
	return l.r.ReadAt(p, at)
}

// readEntry unpacks at most limit bytes, whatever the archive says it holds.
func readEntry(e *zip.File, limit int64) ([]byte, error) {
	r, err := e.Open()
	if err != nil {
		return nil, words.Errorf("its %s is spoilt: %w", e.Name, err)
	}
	defer r.Close()
	data, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return nil, words.Errorf("its %s is spoilt: %w", e.Name, err)
	}
	if int64(len(data)) > limit {
		return nil, fmt.Errorf("%w: %s", ErrTooBig, e.Name)
	}
	return data, nil
}
