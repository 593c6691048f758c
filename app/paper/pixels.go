package paper

import (
	"bytes"
	"image"
	"io"
	"io/fs"
	"os"
	"sync"
	"time"

	"quarterstep/assets/words"
	"quarterstep/model/trace/picture"
)

// mostBytes is how large a file may be to be kept in memory as it is, from where
// its pixels are read again: a phone's photo is a tenth of its pixels. A larger
// one is read again from where it lies.
const mostBytes = 32 << 20

// pixels are a photo's own. They are there while somebody holds them, and while
// they are kept for the next who will.
type pixels struct {
	lock   sync.Mutex
	gray   *image.Gray
	colour *image.RGBA
	kept   bool
	held   int

	file    []byte // small
	path    string // of a large one
	size    int64
	changed time.Time
}

// from remembers where the pixels came from.
func (x *pixels) from(f io.ReaderAt, path string, info fs.FileInfo) error {
	x.path, x.size, x.changed = path, info.Size(), info.ModTime()
	if x.size > mostBytes {
		return nil
	}
	x.file = make([]byte, x.size)
	if _, err := f.ReadAt(x.file, 0); err != nil && err != io.EOF {
		return plain(path, err)
	}
	return nil
}

// Same reports whether two photos are one picture, brought in twice.
func (p *Photo) Same(o *Photo) bool {
	a, b := &p.pixels, &o.pixels
	switch {
	case a.path == "" || b.path == "" || a.size != b.size:
		return false
	case a.file != nil && b.file != nil:
		return bytes.Equal(a.file, b.file)
	}
	return a.path == b.path && a.changed.Equal(b.changed)
}

// again reads the pixels once more.
func (x *pixels) again(colours bool) (picture.Picture, error) {
	read := picture.ReadGray
	if colours {
		read = picture.Read
	}
	if x.file != nil {
		p, err := read(bytes.NewReader(x.file), x.size)
		if err != nil {
			return p, unread(x.path, err)
		}
		return p, nil
	}
	f, err := os.Open(x.path)
	if err != nil {
		return picture.Picture{}, plain(x.path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return picture.Picture{}, plain(x.path, err)
	}
	if info.Size() != x.size || !info.ModTime().Equal(x.changed) {
		return picture.Picture{}, words.Errorf("%s was changed meanwhile: bring it in again", info.Name())
	}
	p, err := read(f, x.size)
	if err != nil {
		return p, unread(x.path, err)
	}
	return p, nil
}

// hold is the photo with its pixels, which stay until done is called; without
// colours where those are not asked for. The error is one sentence for the sewist.
func (p *Photo) hold(colours bool) (full picture.Picture, done func(), err error) {
	x := &p.pixels
	full = p.Picture
	if x.path == "" { // made of pixels
		return full, func() {}, nil
	}
	x.lock.Lock()
	defer x.lock.Unlock()
	if x.gray == nil || colours && x.colour == nil {
		q, err := x.again(colours)
		if err != nil {
			return full, nil, err
		}
		x.gray, x.colour = q.Gray, q.Color
	}
	x.held++
	full.Gray, full.Color = x.gray, x.colour
	return full, sync.OnceFunc(func() {
		x.lock.Lock()
		defer x.lock.Unlock()
		x.held--
		x.drop()
	}), nil
}

// drop lets the pixels go that nobody holds or wants kept.
func (x *pixels) drop() {
	if x.held == 0 && !x.kept {
		x.gray, x.colour = nil, nil
	}
}

// Colours is the photo to be looked at; its pixels are kept from now on, until
// PutDown.
func (p *Photo) Colours() (*image.RGBA, error) {
	full, done, err := p.hold(true)
	if err != nil {
		return nil, err
	}
	defer done()
	p.pixels.lock.Lock()
	defer p.pixels.lock.Unlock()
	p.pixels.kept = true
	return full.Color, nil
}

// PutDown lets the pixels go as soon as nobody works on them. What needs them
// later reads them again, which takes some tenths of a second.
func (p *Photo) PutDown() {
	p.pixels.lock.Lock()
	defer p.pixels.lock.Unlock()
	p.pixels.kept = false
	p.pixels.drop()
}

// holdAll holds the greys of several parts.
func holdAll(parts []Part) (all []picture.Picture, done func(), err error) {
	var let []func()
	done = func() {
		for _, f := range let {
			f()
		}
	}
	for _, q := range parts {
		full, one, err := q.Photo.hold(false)
		if err != nil {
			done()
			return nil, nil, err
		}
		all, let = append(all, full), append(let, one)
	}
	return all, done, nil
}
