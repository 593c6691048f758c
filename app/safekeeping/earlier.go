package safekeeping

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"quarterstep/assets/words"
	"quarterstep/model/store"
)

const (
	earlierDir  = "earlier"
	stampLayout = "20060102-150405.000"
	latestKept  = 2
)

// ages part the earlier versions: of those between two ages the oldest and the
// newest stay.
var ages = []time.Duration{0, 10 * time.Minute, time.Hour, 24 * time.Hour, 7 * 24 * time.Hour}

// Version is a project file as it was saved before.
type Version struct {
	Path string
	When time.Time // it was saved over
}

// KeepEarlier puts a copy of the project file at path by, before it is saved
// over. Where there is no file yet it does nothing.
func KeepEarlier(dir, path string) error { return keepEarlier(dir, path, time.Now()) }

func keepEarlier(dir, path string, now time.Time) error {
	in, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return words.Errorf("keeping the version before: %w", store.Plain(path, err))
	}
	defer in.Close()
	folder := earlierOf(dir, path)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return words.Errorf("keeping the version before: %w", store.Plain(folder, err))
	}
	copied := filepath.Join(folder, now.UTC().Format(stampLayout)+filepath.Ext(path))
	err = store.Replace(copied, func(w io.Writer) error {
		_, err := io.Copy(w, in)
		return err
	})
	if err != nil {
		return words.Errorf("keeping the version before: %w", err)
	}
	return thin(Earlier(dir, path), now)
}

// Earlier lists the earlier versions of the project file at path, latest first.
func Earlier(dir, path string) []Version {
	entries, err := os.ReadDir(earlierOf(dir, path))
	if err != nil {
		return nil
	}
	var out []Version
	for _, e := range entries {
		when, err := time.Parse(stampLayout, strings.TrimSuffix(e.Name(), filepath.Ext(path)))
		if err == nil && e.Type().IsRegular() {
			out = append(out, Version{filepath.Join(earlierOf(dir, path), e.Name()), when})
		}
	}
	slices.SortFunc(out, func(a, b Version) int { return b.When.Compare(a.When) })
	return out
}

// thin removes versions, latest first, that others stand for. The oldest between
// two ages stays since it is the next to pass on to the older ones, the newest
// since it is then left.
func thin(versions []Version, now time.Time) error {
	var err error
	for i, v := range versions {
		oldest := i+1 == len(versions) || ageOf(versions[i+1], now) != ageOf(v, now)
		newest := i == 0 || ageOf(versions[i-1], now) != ageOf(v, now)
		if i >= latestKept && !oldest && !newest {
			err = errors.Join(err, store.Plain(v.Path, os.Remove(v.Path)))
		}
	}
	return err
}

// ageOf is between which ages a version lies.
func ageOf(v Version, now time.Time) int {
	i := len(ages) - 1
	for i > 0 && now.Sub(v.When) < ages[i] {
		i--
	}
	return i
}

// earlierOf is the folder of the earlier versions of the file at path.
func earlierOf(dir, path string) string {
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	return filepath.Join(dir, earlierDir, name+"-"+key(path))
}

// known is the key of every path that Know was asked to know.
var known sync.Map

// Know finds out what path stands for, which its disk may keep waiting. Take, Earlier
// and PrintedFile then ask that disk no more.
func Know(path string) {
	if path != "" {
		known.Store(path, keyOf(path))
	}
}

// key stands for a path in the name of a file; however the path is written, and
// whether or not the file is there yet.
func key(path string) string {
	if k, ok := known.Load(path); ok {
		return k.(string)
	}
	return keyOf(path)
}

func keyOf(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	if folder, err := filepath.EvalSymlinks(filepath.Dir(path)); err == nil {
		path = filepath.Join(folder, filepath.Base(path))
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	sum := sha256.Sum256([]byte(path))
	return hex.EncodeToString(sum[:8])
}
