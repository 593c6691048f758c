package assets

import "embed"

// Charts holds the built-in size charts, charts/ID.csv, in the form package
// model/sizechart reads.
//
//go:embed charts/*.csv
var Charts embed.FS
