package assets

import _ "embed"

// Licences are those of Quarterstep and of all that is built into it, as text;
// .ci/licences writes it.
//
//go:embed licences.txt
var Licences string
