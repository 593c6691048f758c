package store

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
)

var update = flag.Bool("update", false, "write the golden file anew")

func write(t rapid.TB, f File) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, f); err != nil {
		t.Fatalf("writing: %v", err)
	}
	return b.Bytes()
}

func read(data []byte) (File, error) { return Read(bytes.NewReader(data), int64(len(data))) }

// archive is a zip with the given entries, in that order: name, content, ...
func archive(t testing.TB, entries ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for i := 0; i < len(entries); i += 2 {
		w, err := z.Create(entries[i])
		if err == nil {
			_, err = io.WriteString(w, entries[i+1])
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Any pattern comes back bit for bit, and twice written gives the same bytes.
func TestRoundTripIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := File{Pattern: drawPattern(t), Home: anyWords.Draw(t, "home")}
		if rapid.Bool().Draw(t, "pictures") {
			f.Pictures = map[string][]byte{"a.jpg": rapid.SliceOfN(rapid.Byte(), 1, 20).Draw(t, "a"), "b.png": {1}}
		}
		data := write(t, f)
		got, err := read(data)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, f) {
			t.Fatalf("got  %+v\nwant %+v", got, f)
		}
		if !bytes.Equal(write(t, got), data) {
			t.Fatal("the same pattern gave other bytes")
		}
	})
}

// pattern.json as a stranger sees it.
func TestGolden(t *testing.T) {
	const path = "testdata/version5.json"
	got, err := encode(sample())
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("pattern.json is now\n%s", got)
	}
}

// Every reader reads the files of all earlier versions.
func TestEarlierVersions(t *testing.T) {
	for path, want := range map[string]model.Pattern{
		"testdata/version1.json": first().Pattern, "testdata/version2.json": second().Pattern, "testdata/version3.json": thirdFile().Pattern, "testdata/version4.json": fourthFile().Pattern,
		"testdata/version5.json": sample().Pattern,
	} {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if f, err := decode(data); err != nil || !reflect.DeepEqual(f.Pattern, want) {
			t.Errorf("%s is read as %+v, %v", path, f, err)
		}
	}
}

// The layout changes spaces only: the standard library compacts it back.
func TestLayoutIsTheSameJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		laid, err := encode(File{Pattern: drawPattern(t)})
		if err != nil {
			t.Fatal(err)
		}
		var back bytes.Buffer
		if err := json.Compact(&back, laid); err != nil {
			t.Fatal(err)
		}
		if got := layOut(back.Bytes()); !bytes.Equal(got, laid) {
			t.Fatalf("laid out again it is\n%s\nnot\n%s", got, laid)
		}
	})
}

func TestFilesThatCannotBeUsed(t *testing.T) {
	good, err := encode(sample())
	if err != nil {
		t.Fatal(err)
	}
	g := string(good)
	swap := func(old, new string) string {
		t.Helper()
		if !strings.Contains(g, old) {
			t.Fatalf("the sample has no %s", old)
		}
		return strings.Replace(g, old, new, 1)
	}
	whole := write(t, sample())
	for _, c := range []struct {
		say  string
		data []byte
		is   error
		want string
	}{
		{"empty", nil, ErrNotOurs, ""},
		{"not a zip", []byte("an SVG, maybe"), ErrNotOurs, ""},
		{"cut off", whole[:len(whole)-30], ErrNotOurs, ""},
		{"another zip", archive(t, "letter.txt", "Dear"), ErrNotOurs, "pattern.json"},
		{"another format", archive(t, "pattern.json", `{"format":"knitting","version":1,"pattern":{}}`), ErrNotOurs, ""},
		{"twice", archive(t, "pattern.json", g, "pattern.json", g), nil, "twice"},
		{"picture twice", archive(t, "pattern.json", g, "pictures/a", "1", "pictures/a", "2"), nil, "picture a twice"},
		{"no JSON", archive(t, "pattern.json", "{"), nil, "spoilt"},
		{"a newer version", archive(t, "pattern.json", swap(`"version": 5`, `"version": 6`)), ErrNewer, "version is 6"},
		{"no version", archive(t, "pattern.json", swap(`"version": 5`, `"version": 0`)), nil, "no version"},
		{"no pattern", archive(t, "pattern.json", `{"format":"quarterstep pattern","version":1}`), nil, "no pattern"},
		{"words for a number", archive(t, "pattern.json", swap(`"place": 3`, `"place": "3"`)), nil, "spoilt"},
		{"half a point", archive(t, "pattern.json", swap(`"at": [20, 30]`, `"at": [20]`)), nil, "2 numbers"},
		{"an empty point", archive(t, "pattern.json", swap(`"at": [20, 30]`, `"at": [20, null]`)), nil, "2 numbers"},
		{"an endless number", archive(t, "pattern.json", swap(`"at": [20, 30]`, `"at": [20, 1e999]`)), nil, "spoilt"},
		{"a pattern that cannot be", archive(t, "pattern.json", swap(`"place": 3`, `"place": 33`)), nil, "size wanted"},
		{"a broken outline", archive(t, "pattern.json", swap(`220, 0]`, `221, 0]`)), nil, "Front, size 38"},
	} {
		_, err := read(c.data)
		if err == nil || c.is != nil && !errors.Is(err, c.is) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.say, err)
		}
	}
}

func TestWhatIsNotKnownIsPassedOver(t *testing.T) {
	good, err := encode(sample())
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(good), `"place": 3`, `"place": 3, "season": ["spring", {"a": null}]`, 1)
	f, err := read(archive(t, "extra/notes.txt", "x", "pictures/", "", "pictures/../up", "x", "pattern.json", text, "pictures/a.jpg", "1"))
	if err != nil || !reflect.DeepEqual(f.Pattern, sample().Pattern) || len(f.Pictures) != 1 || string(f.Pictures["a.jpg"]) != "1" {
		t.Errorf("read %+v, %v", f, err)
	}
}

// A small archive that unpacks to more than a file may hold is refused before
// the memory is gone.
func TestTooMuchIsRefused(t *testing.T) {
	if _, err := read(archive(t, "pattern.json", strings.Repeat(" ", maxPattern+1))); !errors.Is(err, ErrTooBig) {
		t.Errorf("a huge pattern: %v", err)
	}
	if _, err := read(archive(t, make([]string, 2*(maxEntries+1))...)); !errors.Is(err, ErrTooBig) {
		t.Errorf("too many entries: %v", err)
	}
	f := sample()
	f.Pictures = map[string][]byte{"a": make([]byte, MostPicture+1)}
	if err := Write(io.Discard, f); !errors.Is(err, ErrTooBig) {
		t.Errorf("a huge picture: %v", err)
	}
}

func TestWriteRefusesWhatReadWould(t *testing.T) {
	for _, name := range []string{"", "a/b", `a\b`, "..", ".hidden", strings.Repeat("x", 201)} {
		f := sample()
		f.Pictures = map[string][]byte{name: {1}}
		if err := Write(io.Discard, f); err == nil || !strings.Contains(err.Error(), "name of a picture") {
			t.Errorf("picture %.20q: %v", name, err)
		}
	}
	f := sample()
	f.Pattern.Target.Place = -1
	if err := Write(io.Discard, f); err == nil || !strings.Contains(err.Error(), "size wanted") {
		t.Errorf("a pattern that cannot be: %v", err)
	}
}

func TestMigrationsRunInOrder(t *testing.T) {
	step := func(name string) migration {
		return func(d json.RawMessage) (json.RawMessage, error) { return append(d, name...), nil }
	}
	steps := []migration{step("a"), step("b"), step("c")}
	for version, want := range map[int]string{1: "-abc", 2: "-bc", 4: "-"} {
		if got, err := migrate(json.RawMessage("-"), version, steps); err != nil || string(got) != want {
			t.Errorf("from version %d: %s, %v", version, got, err)
		}
	}
	if _, err := migrate(json.RawMessage("-"), 5, steps); !errors.Is(err, ErrNewer) {
		t.Errorf("from version 5: %v", err)
	}
	bad := func(json.RawMessage) (json.RawMessage, error) { return nil, io.ErrUnexpectedEOF }
	if _, err := migrate(json.RawMessage("-"), 1, []migration{bad}); !errors.Is(err, io.ErrUnexpectedEOF) || !strings.Contains(err.Error(), "version 1 to 2") {
		t.Errorf("a step that fails: %v", err)
	}
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestSaveReplacesWholeOrNotAtAll(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "apron.qstep")
	if err := Save(path, sample()); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o600); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	bad := sample()
	bad.Pattern.Target.Place = 99
	if err := Save(path, bad); err == nil {
		t.Error("a pattern that cannot be was saved")
	}
	broken := errors.New("the disk is full")
	if err := Replace(path, func(w io.Writer) error {
		_, err := w.Write(make([]byte, 1<<16))
		return errors.Join(err, broken)
	}); !errors.Is(err, broken) {
		t.Errorf("half a write: %v", err)
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(before, after) {
		t.Errorf("a failed save changed the old file: %v", err)
	}
	next := sample()
	next.Pattern.Name = "Second"
	if err := Save(path, next); err != nil {
		t.Fatal(err)
	}
	if f, err := Load(path); err != nil || !reflect.DeepEqual(f, next) {
		t.Errorf("loaded %+v, %v", f.Pattern.Name, err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file's rights became %v, %v", info.Mode(), err)
	}
	if got := names(t, dir); len(got) != 1 {
		t.Errorf("left behind: %v", got)
	}
}

func TestSaveWritesWhereALinkLeads(t *testing.T) {
	dir := t.TempDir()
	path, link := filepath.Join(dir, "real.qstep"), filepath.Join(dir, "link.qstep")
	if err := Save(path, sample()); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	next := sample()
	next.Pattern.Name = "Second"
	if err := Save(link, next); err != nil {
		t.Fatal(err)
	}
	if f, err := Load(path); err != nil || f.Pattern.Name != "Second" {
		t.Errorf("the real file holds %q, %v", f.Pattern.Name, err)
	}
}

func TestLoadSaysWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	if _, err := Load(filepath.Join(dir, "gone.qstep")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a file that is not there: %v", err)
	}
	if _, err := Load(dir); !errors.Is(err, ErrNotOurs) {
		t.Errorf("a folder: %v", err)
	}
	if err := Save(filepath.Join(dir, "no", "such.qstep"), sample()); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a folder that is not there: %v", err)
	}
}

// FuzzPattern feeds pattern.json; FuzzRead the whole file.
func FuzzPattern(f *testing.F) {
	good, err := encode(sample())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add([]byte(`{"format":"quarterstep pattern","version":1,"pattern":{"chart":{"sizes":[{"name":"1"}]}}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := decode(data)
		if err != nil {
			return
		}
		again, err := encode(p)
		if err != nil {
			t.Fatalf("what was read cannot be written: %v", err)
		}
		q, err := decode(again)
		if err != nil || !reflect.DeepEqual(p, q) {
			t.Fatalf("%+v\ncame back as\n%+v, %v", p, q, err)
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add(write(f, sample()))
	f.Add(archive(f, "pattern.json", "{}"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := read(data)
		if err != nil {
			return
		}
		if again, err := read(write(t, got)); err != nil || !reflect.DeepEqual(got, again) {
			t.Fatalf("came back changed, %v", err)
		}
	})
}
