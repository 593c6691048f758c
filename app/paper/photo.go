package paper

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/trace/picture"
	"quarterstep/model/trace/straight"
)

// Photo is a picture of paper as it was taken or scanned. Its pixels, which take
// 60 MB and more, are put down while nobody needs them and read again then: see
// PutDown.
type Photo struct {
	Name    string          // of its file, without the folder
	Picture picture.Picture // without its pixels, where it was read from a file
	pixels  pixels
}

// Open reads a photo or scan. An error is one sentence for the sewist.
func Open(path string) (*Photo, error) { return OpenUntil(context.Background(), path) }

// OpenUntil is Open until ctx ends, whose error it then returns; unpacking stops at the
// next piece of the file.
func OpenUntil(ctx context.Context, path string) (*Photo, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, plain(path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, plain(path, err)
	}
	if info.IsDir() {
		return nil, words.Errorf("%s is a folder; choose a picture in it", filepath.Base(path))
	}
	in := reading{ctx, f}
	p, err := picture.Read(in, info.Size())
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, unread(path, err)
	}
	out := &Photo{Name: filepath.Base(path), Picture: p}
	out.Picture.Gray, out.Picture.Color = nil, nil
	out.pixels.gray, out.pixels.colour, out.pixels.kept = p.Gray, p.Color, true
	return out, out.pixels.from(in, path, info)
}

// reading is a file until ctx ends.
type reading struct {
	ctx context.Context
	of  io.ReaderAt
}

func (r reading) ReadAt(p []byte, at int64) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.of.ReadAt(p, at)
}

// unread is why a picture cannot be used.
func unread(path string, err error) error {
	var said picture.Unusable
	if errors.As(err, &said) {
		return fmt.Errorf("%s: %w", filepath.Base(path), err)
	}
	return plain(path, err)
}

func plain(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return words.Errorf("%s is not there", path)
	case errors.Is(err, fs.ErrPermission):
		return words.Errorf("%s may not be read here", path)
	}
	return words.Errorf("reading %s: %w", filepath.Base(path), err)
}

// IsPicture reports that a file's name is that of a picture, so that it is
// brought in as one; what is in it may still be something else.
func IsPicture(path string) bool {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".jpg", ".jpeg", ".png", ".tif", ".tiff", ".heic", ".heif", ".avif", ".webp", ".bmp", ".gif":
		return true
	}
	return false
}

// IsScan reports that the picture is more likely a scan than a photo: it names
// no camera and says how many of its pixels make an inch, as scanners do.
func (p *Photo) IsScan() bool {
	return p.Picture.Camera == "" && p.Picture.PerInch[0] >= 100 && p.Picture.PerInch[1] >= 100
}

// lensFor is the lens of an earlier photo of the same camera; nil for none.
func (p *Photo) lensFor(known []straight.KnownLens) *straight.Lens {
	for i := len(known) - 1; i >= 0; i-- {
		if known[i].Serves(p.Picture.Camera, p.Picture.Focal35) {
			l := known[i].For(p.Picture.Size(), p.Picture.Turn.Stored)
			return &l
		}
	}
	return nil
}

// Lenses is known with a newly learnt lens in the place of that of the same
// camera.
func Lenses(known []straight.KnownLens, add straight.KnownLens) []straight.KnownLens {
	var out []straight.KnownLens
	for _, k := range known {
		if !k.Serves(add.Camera, add.Focal35) {
			out = append(out, k)
		}
	}
	return append(out, add)
}
