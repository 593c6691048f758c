package folders

import (
	"bufio"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"quarterstep/assets/words"
)

// PlaceSort says what kind of place it is.
type PlaceSort int

// The sorts of places, in the order in which they stand.
const (
	Own PlaceSort = iota
	Drive
	Recent
)

// Place is a folder to go to at once.
type Place struct {
	Name string
	Path string
	Sort PlaceSort
}

// Places are the sewist's own folders that are there, sticks and drives, and the
// folders used last that are not among them.
func Places(home string, recent []string) []Place {
	known := userFolders(home)
	there := foldersOf(os.Stat, slices.Concat([]string{home}, slices.Collect(maps.Values(known)), recent), patience)
	var out []Place
	add := func(name, path string, sort PlaceSort) {
		if there[path] && !slices.ContainsFunc(out, func(p Place) bool { return p.Path == path }) {
			out = append(out, Place{name, path, sort})
		}
	}
	add(words.T("Home"), home, Own)
	add(words.T("Desktop"), known["DESKTOP"], Own)
	add(words.T("Documents"), known["DOCUMENTS"], Own)
	add(words.T("Downloads"), known["DOWNLOAD"], Own)
	add(words.T("Pictures"), known["PICTURES"], Own)
	out = append(out, drives()...)
	for _, path := range recent {
		add(filepath.Base(path), path, Recent)
	}
	return out
}

// userFolders are the sewist's folders by the names that freedesktop.org's
// xdg-user-dirs gives them in user-dirs.dirs; where that is not kept, they have
// their English names in her home, as on Windows and macOS, which only show
// them by others.
func userFolders(home string) map[string]string {
	if home == "" {
		return nil
	}
	known := map[string]string{}
	for key, name := range map[string]string{"DESKTOP": "Desktop", "DOCUMENTS": "Documents", "DOWNLOAD": "Downloads", "PICTURES": "Pictures"} {
		known[key] = filepath.Join(home, name)
	}
	config := os.Getenv("XDG_CONFIG_HOME")
	if config == "" {
		config = filepath.Join(home, ".config")
	}
	f, err := os.Open(filepath.Join(config, "user-dirs.dirs"))
	if err != nil {
		return known
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		key, path, ok := strings.Cut(strings.TrimSpace(lines.Text()), "=")
		key, kept := strings.CutPrefix(key, "XDG_")
		key, dir := strings.CutSuffix(key, "_DIR")
		path = strings.Trim(path, `"`)
		if rest, below := strings.CutPrefix(path, "$HOME"); below {
			path = filepath.Join(home, rest)
		}
		if ok && kept && dir && filepath.IsAbs(path) {
			known[key] = path
		}
	}
	return known
}

// plain is the part of a file's error that a sewist can use.
func plain(err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return words.Error("it is not there")
	case errors.Is(err, fs.ErrPermission):
		return words.Error("you may not look into it")
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
