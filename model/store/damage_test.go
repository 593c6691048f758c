package store

import (
	"encoding/json"
	"reflect"
	"testing"
)

// substitutes stand for what damage, or another program, may leave in the
// place of a part of a file: nothing, emptiness, another kind of thing, a
// number out of all reason, a name that nothing has.
var substitutes = []string{`null`, `[]`, `{}`, `[{}]`, `[[]]`, `[null]`, `""`, `"nothing has this name"`, `-1`, `3`, `1e300`, `true`}

// place is a part of a JSON document: the keys and indices that lead to it.
type place []any

// placesOf are all parts of v below the top, in the order they are met.
func placesOf(v any, at place) []place {
	var out []place
	step := func(k, sub any) {
		here := append(append(place{}, at...), k)
		out = append(append(out, here), placesOf(sub, here)...)
	}
	switch v := v.(type) {
	case map[string]any:
		for k, sub := range v {
			step(k, sub)
		}
	case []any:
		for i, sub := range v {
			step(i, sub)
		}
	}
	return out
}

// put is v with the part at at replaced, v itself left as it was.
func put(v any, at place, with json.RawMessage) any {
	if len(at) == 0 {
		return with
	}
	switch v := v.(type) {
	case map[string]any:
		k := at[0].(string)
		out := make(map[string]any, len(v))
		for j, sub := range v {
			out[j] = sub
		}
		out[k] = put(v[k], at[1:], with)
		return out
	case []any:
		i := at[0].(int)
		out := append([]any{}, v...)
		out[i] = put(v[i], at[1:], with)
		return out
	}
	return v
}

// readDamaged reads a document and writes what was accepted: neither may
// panic, and what was accepted comes back the same.
func readDamaged(t *testing.T, doc any, what ...any) {
	t.Helper()
	data, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if r := recover(); r != nil {
			t.Fatalf("%v: %v", what, r)
		}
	}()
	p, err := decode(data)
	if err != nil {
		return
	}
	again, err := encode(p)
	if err != nil {
		t.Fatalf("%v: what was read cannot be written: %v", what, err)
	}
	if q, err := decode(again); err != nil || !reflect.DeepEqual(p, q) {
		t.Fatalf("%v: came back changed, %v", what, err)
	}
}

// TestDamagedAnywhere puts each of the substitutes in the place of every part
// of the sample, and then, besides, takes out every list of the piece it is in:
// rules that look at one part by the index of another are caught by that.
func TestDamagedAnywhere(t *testing.T) {
	data, err := encode(sample())
	if err != nil {
		t.Fatal(err)
	}
	var doc any
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	places := placesOf(doc, nil)
	if len(places) < 300 {
		t.Fatalf("the sample has %d parts only", len(places))
	}
	for _, at := range places {
		for _, s := range substitutes {
			readDamaged(t, put(doc, at, json.RawMessage(s)), at, s)
		}
	}
	lists := 0
	for _, at := range places {
		if v, ok := valueAt(doc, at).([]any); !ok || len(v) == 0 || len(at) > 4 {
			continue
		}
		lists++
		without := put(doc, at, json.RawMessage(`[]`))
		readDamaged(t, without, at)
		for _, other := range places {
			if !begins(other, at) {
				for _, s := range []string{`[]`, `{}`, `[{}]`, `3`} {
					readDamaged(t, put(without, other, json.RawMessage(s)), at, "taken out,", other, s)
				}
			}
		}
	}
	if lists < 10 {
		t.Fatalf("the sample has %d lists only", lists)
	}
}

func valueAt(v any, at place) any {
	for _, k := range at {
		switch k := k.(type) {
		case string:
			v = v.(map[string]any)[k]
		case int:
			v = v.([]any)[k]
		}
	}
	return v
}

// begins reports whether one of the two places is within the other.
func begins(a, b place) bool {
	n := min(len(a), len(b))
	return reflect.DeepEqual(a[:n], b[:n])
}
