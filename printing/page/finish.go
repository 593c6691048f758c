package page

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"quarterstep/assets/words"
)

// wishes are what the file asks of the program that prints it: no scaling,
// paper by page size, one side only, the title in the window (ISO 32000-1,
// 12.2, table 150). Duplex needs version 1.7.
// words: none
const wishes = "\n/ViewerPreferences << /PrintScaling /None /PickTrayByPDFSize true /Duplex /Simplex /DisplayDocTitle true >>"

// seeThrough is what the writer gives every page once there are layers. No
// page here has anything see-through, and printers are slower for it.
const seeThrough = "/Group <</Type /Group /S /Transparency /CS /DeviceRGB>>\n"

var errShape = words.Fault("the PDF writer's file is not built as expected")

// finish gives the writer's file version 1.7, adds the wishes to its catalog,
// and packs the pages, which the writer leaves as they are: packed here, once
// and well, they are smaller than with the writer's quick setting and cost
// less. The cross-reference table (ISO 32000-1, 7.5.4) is made anew.
func finish(raw []byte) ([]byte, error) {
	offsets, table, err := objectOffsets(raw)
	if err != nil {
		return nil, err
	}
	out := bytes.NewBuffer(make([]byte, 0, len(raw)/2))
	out.WriteString("%PDF-1.7\n")
	moved := make([]int, len(offsets))
	packer := zlib.NewWriter(nil)
	ends := append(slices.Sorted(slices.Values(offsets[1:])), table)
	for i, from := range offsets[1:] {
		after, _ := slices.BinarySearch(ends, from+1)
		moved[i+1] = out.Len()
		if err := putObject(out, raw[from:ends[after]], packer); err != nil {
			return nil, err
		}
	}
	trailer := bytes.Index(raw[table:], []byte("trailer\n"))
	last := bytes.LastIndex(raw, []byte("startxref\n"))
	if trailer < 0 || last < table+trailer {
		return nil, errShape
	}
	newTable := out.Len()
	fmt.Fprintf(out, "xref\n0 %d\n0000000000 65535 f \n", len(offsets))
	for _, at := range moved[1:] {
		fmt.Fprintf(out, "%010d 00000 n \n", at)
	}
	out.Write(raw[table+trailer : last])
	fmt.Fprintf(out, "startxref\n%d\n%%%%EOF\n", newTable)
	return out.Bytes(), nil
}

// objectOffsets reads the writer's cross-reference table.
func objectOffsets(raw []byte) (offsets []int, table int, err error) {
	m := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\s*$`).FindSubmatch(raw)
	if m == nil {
		return nil, 0, errShape
	}
	table, err = strconv.Atoi(string(m[1]))
	if err != nil || table >= len(raw) || !bytes.HasPrefix(raw[table:], []byte("xref\n")) {
		return nil, 0, errShape
	}
	for _, row := range regexp.MustCompile(`(?m)^(\d{10}) \d{5} [nf] $`).FindAllSubmatch(raw[table:], -1) {
		at, err := strconv.Atoi(string(row[1]))
		if err != nil || at >= table {
			return nil, 0, errShape
		}
		offsets = append(offsets, at)
	}
	if len(offsets) < 2 {
		return nil, 0, errShape
	}
	return offsets, table, nil
}

var plainStream = regexp.MustCompile(`^(\d+ 0 obj\n)<</Length (\d+)>>\nstream\n`)

// putObject copies an object, packing its stream where it is not packed yet,
// adding the wishes where it is the catalog and taking the see-through group
// off a page.
func putObject(out *bytes.Buffer, object []byte, packer *zlib.Writer) error {
	if m := plainStream.FindSubmatch(object); m != nil {
		length, err := strconv.Atoi(string(m[2]))
		if err != nil || len(m[0])+length > len(object) {
			return errShape
		}
		var packed bytes.Buffer
		packer.Reset(&packed)
		if _, err := packer.Write(object[len(m[0]) : len(m[0])+length]); err != nil {
			return err
		}
		if err := packer.Close(); err != nil {
			return err
		}
		// words: none
		fmt.Fprintf(out, "%s<</Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream\nendobj\n", m[1], packed.Len(), packed.Bytes())
		return nil
	}
	catalog := []byte("<<\n/Type /Catalog")
	if at := bytes.Index(object, catalog); at >= 0 {
		at += len(catalog)
		out.Write(object[:at])
		fmt.Fprintf(out, "\n/Lang (%s)%s", language(), wishes)
		object = object[at:]
	}
	if bytes.Contains(object, []byte("/Type /Page\n")) {
		object = bytes.Replace(object, []byte(seeThrough), nil, 1)
	}
	out.Write(object)
	return nil
}

// language is the tag of the language that the words are in (RFC 5646).
func language() string {
	if words.Now() == "en" {
		return "en-GB"
	}
	return words.Now()
}
