package app

import "quarterstep/assets/words"

// Version names the build: its date and commit. The packages stamp it.
var Version string

// VersionWords is the version as shown to the sewist.
func VersionWords() string {
	if Version == "" {
		return words.T("built from source")
	}
	return Version
}
