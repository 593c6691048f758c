package picture

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/tiff"

	"quarterstep/assets/words"
)

// format is one kind of file that is read.
type format struct {
	name   string
	magic  []string
	head   func(r io.ReaderAt, size int64) (said, error)
	decode func(r io.Reader) (image.Image, error)
}

// formats lists the kinds of file that are read, by their first bytes (JPEG:
// ITU-T T.81 annex B; PNG: W3C PNG, clause 5.2; TIFF 6.0, section 2).
var formats = []format{
	{"JPEG", []string{"\xff\xd8\xff"}, jpegHead, decodeJPEG},
	{"PNG", []string{"\x89PNG\r\n\x1a\n"}, pngHead, png.Decode},
	{"TIFF", []string{"II*\x00", "MM\x00*"}, tiffHead, tiff.Decode},
}

// foreign lists files that people will try and that are not read, by their
// first bytes.
var foreign = []struct {
	name  words.Text
	magic string
}{
	{words.Text("a PDF"), "%PDF-"},
	{words.Text("a GIF"), "GIF8"},
	{words.Text("a BMP"), "BM"},
	{words.Text("a big TIFF"), "II+\x00"},
	{words.Text("a big TIFF"), "MM\x00+"},
	{words.Text("a vector drawing"), "<svg"},
	{words.Text("a vector drawing"), "<?xml"},
}

// sniff tells a file's kind from its first bytes, never from its name.
func sniff(r io.ReaderAt, size int64) (format, error) {
	if size <= 0 {
		return format{}, unusable(words.T("The file is empty: copy it again."))
	}
	head := make([]byte, min(size, 64))
	n, err := r.ReadAt(head, 0)
	if err != nil && !errors.Is(err, io.EOF) {
		return format{}, unusable(words.T("The file cannot be read: copy it again."))
	}
	head = head[:n]
	for _, f := range formats {
		for _, m := range f.magic {
			if bytes.HasPrefix(head, []byte(m)) {
				return f, nil
			}
		}
	}
	return format{}, refuse(head)
}

// refuse names a file that is not read, where it is known.
func refuse(head []byte) error {
	if len(head) >= 12 && string(head[4:8]) == "ftyp" {
		switch string(head[8:12]) {
		case "avif", "avis":
			return saveAs(words.T("an AVIF picture"))
		case "heic", "heix", "hevc", "hevx", "heim", "heis", "mif1", "msf1":
			return saveAs(words.T("a HEIC picture"))
		}
		return saveAs(words.T("a film"))
	}
	if len(head) >= 12 && string(head[:4]) == "RIFF" && string(head[8:12]) == "WEBP" {
		return saveAs(words.T("a WebP picture"))
	}
	for _, k := range foreign {
		if bytes.HasPrefix(head, []byte(k.magic)) {
			return saveAs(k.name.String())
		}
	}
	return unusable(words.T("This is no picture that can be read: use a JPEG, PNG or TIFF."))
}

func saveAs(what string) error {
	return unusable(words.F("This is %s, which cannot be read: save it as JPEG first.", what))
}

// broken says in plain words why the pixels of a file could not be unpacked.
func (f format) broken(err error) error {
	var jpegKind jpeg.UnsupportedError
	var pngKind png.UnsupportedError
	var tiffKind tiff.UnsupportedError
	switch {
	case errors.Is(err, errScans), errors.As(err, &jpegKind), errors.As(err, &pngKind), errors.As(err, &tiffKind):
		return unusable(words.F("This %s is packed in a way that cannot be read: save it again as JPEG or PNG.", f.name))
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return cutShort(f.name)
	}
	return damaged(f.name)
}

func cutShort(name string) error {
	return unusable(words.F("This %s ends too soon, part of it is missing: copy it again.", name))
}
