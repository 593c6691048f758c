package ipp

import (
	"bytes"
	"encoding/hex"
	"os"
	"reflect"
	"strings"
	"testing"
)

// example is a request as RFC 8010 lays out its first example, A.1 (from
// memory): a version, an operation, attributes of the operation and of the job.
const example = "0101" + "0002" + "00000001" +
	"01" +
	"47" + "0012" + "617474726962757465732d63686172736574" + "0005" + "7574662d38" + // attributes-charset utf-8
	"48" + "001b" + "617474726962757465732d6e61747572616c2d6c616e6775616765" + "0005" + "656e2d7573" + // attributes-natural-language en-us
	"22" + "0016" + "6970702d6174747269627574652d666964656c697479" + "0001" + "01" + // ipp-attribute-fidelity true
	"02" +
	"21" + "0006" + "636f70696573" + "0004" + "00000014" + // copies 20
	"44" + "0005" + "7369646573" + "0013" + "74776f2d73696465642d6c6f6e672d65646765" + // sides two-sided-long-edge
	"03"

func TestExampleOfTheStandard(t *testing.T) {
	data, err := hex.DecodeString(example)
	if err != nil {
		t.Fatal(err)
	}
	m, err := Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if m.Code != 2 || m.ID != 1 || len(m.Groups) != 2 || m.Groups[0].Tag != OperationGroup || m.Groups[1].Tag != JobGroup {
		t.Fatalf("%+v", m)
	}
	if op, job := m.Groups[0], m.Groups[1]; op.Text("attributes-charset") != "utf-8" || op.Int("ipp-attribute-fidelity") != 1 ||
		job.Int("copies") != 20 || job.Text("sides") != "two-sided-long-edge" || job.Text("none") != "" || job.Int("none") != 0 {
		t.Errorf("%+v", m)
	}
	again, err := m.Encode()
	if err != nil || !bytes.Equal(again, data) {
		t.Errorf("written again: %x, %v", again, err)
	}
}

// What CUPS 2.4.2 answered of two queues, with two collections each; ipptool,
// its own reader, shows these values.
func TestAnswerOfCUPS(t *testing.T) {
	data, err := os.ReadFile("testdata/cups-printers.ipp")
	if err != nil {
		t.Fatal(err)
	}
	m, err := Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if m.Code != 0 || m.ID != 7 || len(m.Groups) != 3 {
		t.Fatalf("code %d, id %d, %d groups", m.Code, m.ID, len(m.Groups))
	}
	roll, laser := m.Groups[1], m.Groups[2]
	if roll.Text("printer-name") != "Roll" || roll.Text("printer-info") != "Roll printer" || roll.Int("printer-state") != 3 || roll.Int("printer-is-accepting-jobs") != 1 {
		t.Errorf("the roll: %+v", roll)
	}
	var margins []int
	for _, v := range laser.Get("media-left-margin-supported") {
		margins = append(margins, v.Int())
	}
	if !reflect.DeepEqual(margins, []int{635, 0}) { // 18 pt in 1/100 mm
		t.Errorf("margins %v", margins)
	}
	if media := laser.Get("media-supported"); len(media) < 10 || media[0].Text() != "na_letter_8.5x11in" || media[2].Text() != "iso_a4_210x297mm" {
		t.Errorf("media %v", media)
	}
	for cutAt := range data {
		if _, err := Decode(data[:cutAt]); err == nil {
			t.Fatalf("%d of %d bytes are read as whole", cutAt, len(data))
		}
	}
}

func TestTextWithLanguage(t *testing.T) {
	for _, c := range []struct{ data, want string }{
		{"\x00\x02de\x00\x04Rolle", "Roll"},
		{"\x00\x02de\x00\x05Rolle", "Rolle"},
		{"\x00\x02de\x00\x06Rolle", ""},
		{"\x00", ""},
	} {
		if got := (Value{0x35, []byte(c.data)}).Text(); got != c.want {
			t.Errorf("%q reads %q, want %q", c.data, got, c.want)
		}
	}
	if _, err := (Message{Groups: []Group{{1, []Attribute{texts("title", tagName, strings.Repeat("x", 40000))}}}}).Encode(); err == nil {
		t.Error("40,000 letters are sent")
	}
}

// Whatever comes, it is an error or a message that can be written and read
// again.
func FuzzDecode(f *testing.F) {
	seed, err := hex.DecodeString(example)
	if err != nil {
		f.Fatal(err)
	}
	answer, err := os.ReadFile("testdata/cups-printers.ipp")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(seed)
	f.Add(answer)
	f.Add([]byte("\x01\x01\x00\x00\x00\x00\x00\x01\x01\x34\x00\x01a\x00\x00\x37\x00\x00\x00\x00\x03"))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := Decode(data)
		if err != nil {
			return
		}
		out, err := m.Encode()
		if err != nil {
			return // longer than may be sent
		}
		again, err := Decode(out)
		if err != nil || !reflect.DeepEqual(m, again) {
			t.Fatalf("read again: %v\n%+v\n%+v", err, m, again)
		}
	})
}
