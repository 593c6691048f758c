package pdf

import (
	"bytes"
	"errors"
	"fmt"
)

// wishes are what the file asks of the program that prints it: no scaling,
// paper by page size, one side only, the title in the window (ISO 32000-1,
// 12.2, table 150). Duplex needs version 1.7.
const wishes = "\n/Lang (en-GB)\n/ViewerPreferences << /PrintScaling /None /PickTrayByPDFSize true /Duplex /Simplex /DisplayDocTitle true >>"

// finish sets the version to 1.7 and adds the wishes to the catalog. The
// catalog being the last object before the cross-reference table, only the
// table itself moves.
func finish(raw []byte) ([]byte, error) {
	catalog := []byte("/Type /Catalog")
	version, header := []byte("%PDF-1.7"), []byte("%PDF-1.")
	at := bytes.LastIndex(raw, catalog)
	table := bytes.LastIndex(raw, []byte("\nxref\n"))
	last := bytes.LastIndex(raw, []byte("\nstartxref\n"))
	if !bytes.HasPrefix(raw, header) || at < 0 || table < at || last < table || bytes.Contains(raw[at:table], []byte(" obj\n")) {
		return nil, errors.New("the PDF writer's file is not built as expected")
	}
	at += len(catalog)
	out := make([]byte, 0, len(raw)+len(wishes)+16)
	out = append(out, version...)
	out = append(out, raw[len(version):at]...)
	out = append(out, wishes...)
	out = append(out, raw[at:last]...)
	return fmt.Appendf(out, "\nstartxref\n%d\n%%%%EOF\n", table+1+len(wishes)), nil
}
