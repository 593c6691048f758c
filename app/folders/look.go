package folders

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"quarterstep/assets/words"
)

// Stat says what lies at a path, as os.Stat does. A drive that is gone may keep it for
// minutes.
type Stat func(path string) (fs.FileInfo, error)

// Look is a question that only the disk can answer. Ask may keep whoever calls it for
// as long as the disk likes, and may run on any goroutine; what it returns gives the
// answer, on the Chooser's.
type Look struct {
	Path string // what is looked at
	Ask  func() func() Answer
}

// Now is the answer itself, waiting for the disk where that has to be asked.
func (a Answer) Now() Answer {
	for a.What == Wait {
		a = a.Look.Ask()()
	}
	return a
}

func (c *Chooser) stat() Stat {
	if c.Stat != nil {
		return c.Stat
	}
	return os.Stat
}

// look has the disk asked.
func (c *Chooser) look(path string, ask func(Stat) func() Answer) Answer {
	stat := c.stat()
	return Answer{What: Wait, Look: Look{path, func() func() Answer { return ask(stat) }}}
}

// find answers with the file or folder at a path that was typed; where there is
// neither, with the row in hand.
func (c *Chooser) find(path string) Answer {
	return c.look(path, func(stat Stat) func() Answer {
		info, err := stat(path)
		return func() Answer {
			switch {
			case err == nil && info.IsDir():
				return Answer{What: Enter, Paths: []string{path}}
			case err == nil:
				return Answer{What: Take, Paths: []string{path}}
			case c.at < 0:
				return Answer{Say: words.F("%s is not there.", path)}
			}
			return c.Open(c.at)
		}
	})
}

// save says what comes of writing to a path that was typed.
func (c *Chooser) save(path string) Answer {
	if path == "" {
		return Answer{Say: words.T("Give the file a name.")}
	}
	slash := strings.HasSuffix(c.typed, "/") || strings.HasSuffix(c.typed, string(filepath.Separator))
	return c.look(path, func(stat Stat) func() Answer {
		folder, above := stat.isFolder(path), stat.isFolder(filepath.Dir(path))
		file := c.withEnding(path)
		_, err := stat(file)
		return func() Answer {
			switch {
			case folder:
				return Answer{What: Enter, Paths: []string{path}}
			case slash:
				return Answer{Say: words.F("The folder %s is not there.", path)}
			case !above:
				return Answer{Say: words.F("The folder %s is not there.", filepath.Dir(path))}
			}
			if say := badName(filepath.Base(path)); say != "" {
				return Answer{Say: say}
			}
			return c.saveAt(file, err == nil)
		}
	})
}

// NewFolder makes a folder of that name where the Chooser is, and enters it.
func (c *Chooser) NewFolder(name string) Answer {
	name = strings.TrimSpace(name)
	if name == "" {
		return Answer{Say: words.T("Give the folder a name.")}
	}
	if say := badName(name); say != "" {
		return Answer{Say: say}
	}
	path := filepath.Join(c.folder, name)
	return c.look(path, func(stat Stat) func() Answer {
		say := ""
		if _, err := stat(path); err == nil {
			say = words.F("%s is there already.", name)
		} else if err := os.Mkdir(path, 0o755); err != nil {
			say = words.F("The folder %s cannot be made: %s.", name, plain(err))
		}
		return func() Answer {
			if say != "" {
				return Answer{Say: say}
			}
			return Answer{What: Enter, Paths: []string{path}}
		}
	})
}

func (s Stat) isFolder(path string) bool {
	info, err := s(path)
	return err == nil && info.IsDir()
}

// patience is how long a place may take to say that it is there.
const patience = time.Second

// foldersOf says which of the paths are folders; what does not answer in time is none.
func foldersOf(stat Stat, paths []string, patience time.Duration) map[string]bool {
	type found struct {
		path   string
		folder bool
	}
	all := make(chan found, len(paths))
	for _, path := range paths {
		go func() { all <- found{path, stat.isFolder(path)} }()
	}
	out, late := map[string]bool{}, time.After(patience)
	for range paths {
		select {
		case f := <-all:
			out[f.path] = f.folder
		case <-late:
			return out
		}
	}
	return out
}
