package folders

import (
	"net/url"
	"path/filepath"
	"strings"
)

// Meant is the path that typed words mean: a name in the folder, a path from
// there, or a whole path, ~ being home. Quotes around it, as Windows copies
// paths, and the file: of a file manager's copies are understood. Empty where
// nothing was typed.
func Meant(folder, home, typed string) string {
	typed = strings.TrimSpace(typed)
	if n := len(typed); n > 1 && (typed[0] == '"' || typed[0] == '\'') && typed[n-1] == typed[0] {
		typed = typed[1 : n-1]
	}
	if u, err := url.Parse(typed); err == nil && u.Scheme == "file" && u.Path != "" {
		typed = u.Path
		if len(typed) > 2 && typed[2] == ':' { // file:///C:/...
			typed = typed[1:]
		}
	}
	if typed == "" {
		return ""
	}
	path := filepath.FromSlash(typed)
	volume := filepath.VolumeName(path)
	switch {
	case path == "~":
		return home
	case strings.HasPrefix(path, "~"+string(filepath.Separator)):
		return filepath.Join(home, path[2:])
	case volume != "" && volume == path: // D: means all of it
		return path + string(filepath.Separator)
	case filepath.IsAbs(path):
		return filepath.Clean(path)
	case volume == "" && path[0] == filepath.Separator: // on Windows: of the drive that is shown
		return filepath.Join(filepath.VolumeName(folder)+string(filepath.Separator), path)
	}
	return filepath.Join(folder, path)
}

// isPath reports whether typed words say more than a name.
func isPath(typed string) bool {
	return strings.ContainsAny(typed, `/`+string(filepath.Separator)) || strings.HasPrefix(typed, "~") || filepath.VolumeName(typed) != ""
}
