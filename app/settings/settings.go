package settings

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/jsonsize"
	"quarterstep/model/trace/straight"
)

const (
	fileName   = "settings.json"
	maxRecent  = 8
	maxFolders = 6

	// What the file may hold: a spoilt one must not keep the program from starting.
	maxBytes  = 1 << 20
	maxKnown  = 200 // lenses or printers
	maxScreen = 100 // pixels to a mm
	maxWords  = 4096
)

// Settings is what is remembered. The zero value is the first day.
type Settings struct {
	Recent []string `json:"recent,omitempty"` // project files, latest first
	Dark   bool     `json:"dark,omitempty"`
	Text   float64  `json:"text,omitempty"` // how large words are, 1 to 1.5; 0 is 1
	// Language is the code of the language chosen, empty for the system's.
	Language string   `json:"language,omitempty"`
	Folder   string   `json:"folder,omitempty"`  // where files were last opened or saved
	Folders  []string `json:"folders,omitempty"` // and before that, latest first
	Paper    string   `json:"paper,omitempty"`   // id of the paper last printed on
	Printer  string   `json:"printer,omitempty"` // name of the printer last chosen
	Screen   float64  `json:"screen,omitempty"`  // window pixels a mm of this screen, 0 while not measured
	// Lenses are those of cameras, as photos of them have told, newest last.
	Lenses []straight.KnownLens `json:"lenses,omitempty"`
	// Printers are those whose scale was checked.
	Printers []Printer `json:"printers,omitempty"`
}

// TextSize is how large words are: 1, or up to half as large again.
func (s Settings) TextSize() float64 {
	if !(s.Text >= 1) { // never chosen, or spoilt
		return 1
	}
	return min(s.Text, 1.5)
}

// Dir is the folder where settings live on this system.
func Dir() (string, error) {
	base, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(base, "quarterstep"), nil
}

// Load reads the settings in folder dir; recent files that are gone are left
// out, and so is what cannot be meant. An empty dir is nowhere, and reads as the first day.
func Load(dir string) Settings {
	var s Settings
	if dir == "" {
		return s
	}
	f, err := os.Open(filepath.Join(dir, fileName))
	if err != nil {
		return s
	}
	defer f.Close()
	return read(f)
}

// read is Load from any reader.
func read(r io.Reader) Settings {
	var s Settings
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil || len(data) > maxBytes || jsonsize.Check(data, jsonsize.Most{Items: []int{1000}, Names: 10_000}) != nil || json.Unmarshal(data, &s) != nil {
		return Settings{}
	}
	if max(len(s.Folder), len(s.Paper), len(s.Printer), len(s.Language)) > maxWords {
		return Settings{}
	}
	if !(s.Screen >= 0 && s.Screen <= maxScreen) {
		s.Screen = 0
	}
	s.Recent = s.Recent[:min(len(s.Recent), 4*maxRecent)] // each is looked for on the disk
	s.Recent = slices.DeleteFunc(s.Recent, func(path string) bool {
		_, err := os.Stat(path)
		return err != nil || len(path) > maxWords
	})
	s.Recent = s.Recent[:min(len(s.Recent), maxRecent)]
	s.Folders = slices.DeleteFunc(s.Folders, func(path string) bool { return len(path) > maxWords })
	s.Folders = s.Folders[:min(len(s.Folders), maxFolders)]
	s.Printers = slices.DeleteFunc(s.Printers, func(p Printer) bool { return !p.sane() })
	s.Printers = s.Printers[:min(len(s.Printers), maxKnown)]
	s.Lenses = slices.DeleteFunc(s.Lenses, func(k straight.KnownLens) bool { return k.Plausible() != nil })
	s.Lenses = s.Lenses[max(0, len(s.Lenses)-maxKnown):]
	return s
}

// Save writes the settings to folder dir, whole or not at all.
func (s Settings) Save(dir string) error {
	data, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	tmp, err := os.CreateTemp(dir, ".settings-*")
	if err != nil {
		return err
	}
	_, err = tmp.Write(append(data, '\n'))
	if err = errors.Join(err, tmp.Sync(), tmp.Close()); err == nil {
		err = os.Rename(tmp.Name(), filepath.Join(dir, fileName))
	}
	if err != nil {
		return errors.Join(words.Errorf("keeping the settings: %w", err), os.Remove(tmp.Name()))
	}
	return nil
}

// WithRecent is s with path as the latest file.
func (s Settings) WithRecent(path string) Settings {
	recent := slices.DeleteFunc(slices.Clone(s.Recent), func(p string) bool { return p == path })
	recent = append([]string{path}, recent...)
	s.Recent = recent[:min(len(recent), maxRecent)]
	return s.WithFolder(filepath.Dir(path))
}

// WithFolder is s with a folder as the one last used.
func (s Settings) WithFolder(folder string) Settings {
	before := slices.DeleteFunc(slices.Clone(s.Folders), func(p string) bool { return p == folder })
	before = append([]string{folder}, before...)
	s.Folder, s.Folders = folder, before[:min(len(before), maxFolders)]
	return s
}
