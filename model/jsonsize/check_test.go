package jsonsize

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestCheck(t *testing.T) {
	most := Most{Items: []int{3, 2}, Names: 4}
	for _, c := range []struct {
		data, say string
	}{
		{``, ""},
		{`[]`, ""},
		{`[ ]`, ""},
		{`[1,2,3]`, ""},
		{`[1,2,3,4]`, "more than 3 items"},
		{`{"a":[1,2]}`, ""},
		{`{"a":[1,2,3]}`, "more than 2 items"},
		{`{"a":[1],"b":[2]}`, ""},
		{`{"a":[1],"b":[2],"c":[3]}`, "more than 2 items"},
		{`[[[[1]],1]]`, "more than 2 items"},
		{`{"a":1,"b":2,"c":3,"d":4}`, ""},
		{`{"a":1,"b":2,"c":3,"d":4,"e":5}`, "more than 4 names"},
		{`"[,,,,,:::::"`, ""},
		{`"\"[,,,,,:::::"`, ""},
		{`"\\",[,,,`, "more than 3 items"},
		{strings.Repeat("[", 1_000_000), "more than 2 items"},
		{strings.Repeat(`{"a":[`, 3), ""},
		{strings.Repeat("{", 1_000_000), "64 deep"},
		{strings.Repeat(`{"a":`, 1_000_000), "more than 4 names"},
		{strings.Repeat("]", 9), ""},
		{`"\`, ""},
		{`"`, ""},
		{`[`, ""},
	} {
		err := Check([]byte(c.data), most)
		if (err == nil) != (c.say == "") || err != nil && !strings.Contains(err.Error(), c.say) {
			t.Errorf("%.40q: %v, want %q", c.data, err, c.say)
		}
	}
}

// What is counted is what encoding/json unpacks: the same numbers of items, to
// one more and one less, as its own values have.
func TestCountsAsTheLibraryUnpacks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := draw(t, 4)
		var data bytes.Buffer
		if err := json.NewEncoder(&data).Encode(value); err != nil {
			t.Fatal(err)
		}
		items, names := count(value)
		if err := Check(data.Bytes(), Most{[]int{items}, names}); err != nil {
			t.Fatalf("%s: %v", data.Bytes(), err)
		}
		if items > 0 && Check(data.Bytes(), Most{[]int{items - 1}, names}) == nil {
			t.Fatalf("%s: fewer than %d items were counted", data.Bytes(), items)
		}
		if names > 0 && Check(data.Bytes(), Most{[]int{items}, names - 1}) == nil {
			t.Fatalf("%s: fewer than %d names were counted", data.Bytes(), names)
		}
	})
}

func draw(t *rapid.T, deep int) any {
	kind := rapid.IntRange(0, 3).Draw(t, "kind")
	switch {
	case kind == 0 || deep == 0:
		return rapid.StringN(0, 6, -1).Draw(t, "words")
	case kind == 1:
		return rapid.Float64Range(-9, 9).Draw(t, "number")
	case kind == 2:
		out := map[string]any{}
		for range rapid.IntRange(0, 3).Draw(t, "names") {
			out[rapid.StringN(0, 4, -1).Draw(t, "name")] = draw(t, deep-1)
		}
		return out
	}
	out := []any{}
	for range rapid.IntRange(0, 4).Draw(t, "items") {
		out = append(out, draw(t, deep-1))
	}
	return out
}

func count(v any) (items, names int) {
	switch v := v.(type) {
	case []any:
		items = len(v)
		for _, one := range v {
			i, n := count(one)
			items, names = items+i, names+n
		}
	case map[string]any:
		names = len(v)
		for _, one := range v {
			i, n := count(one)
			items, names = items+i, names+n
		}
	}
	return items, names
}
