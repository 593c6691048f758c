// Package settings keeps what Quarterstep remembers between days: recent
// files, the theme, the last folder, how true printers are. A file that is
// missing or spoilt reads as the first day.
package settings
