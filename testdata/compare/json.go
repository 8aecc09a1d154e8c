package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
)

func decode(data []byte) (any, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return nil, err
	}
	if d.More() {
		return nil, fmt.Errorf("more than one document")
	}
	return v, nil
}

// json compares two JSON values. Lists whose members have an id are compared member by
// member, wherever they stand.
func (w *differ) json(path, kind string, a, b any) {
	switch x := a.(type) {
	case map[string]any:
		if y, ok := b.(map[string]any); ok {
			w.objects(path, kind, x, y)
			return
		}
	case []any:
		if y, ok := b.([]any); ok {
			w.lists(path, kind, x, y)
			return
		}
	}
	if show(a) != show(b) {
		w.add(path, kind, show(a), show(b))
	}
}

func (w *differ) objects(path, kind string, a, b map[string]any) {
	keys := maps.Clone(a)
	maps.Copy(keys, b)
	dotted := func(at, key string) string {
		if at == "" || strings.HasSuffix(at, ": ") {
			return at + key
		}
		return at + "." + key
	}
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		x, had := a[key]
		y, has := b[key]
		switch {
		case !had:
			w.add(dotted(path, key), dotted(kind, key), "(no such key)", show(y))
		case !has:
			w.add(dotted(path, key), dotted(kind, key), show(x), "(no such key)")
		default:
			w.json(dotted(path, key), dotted(kind, key), x, y)
		}
	}
}

func (w *differ) lists(path, kind string, a, b []any) {
	x, y := byID(a), byID(b)
	if x == nil || y == nil {
		if len(a) != len(b) {
			w.add(path+"[]", kind+"[] (length)", fmt.Sprint(len(a)), fmt.Sprint(len(b)))
		}
		for i := range min(len(a), len(b)) {
			w.json(fmt.Sprintf("%s[%d]", path, i), kind+"[]", a[i], b[i])
		}
		return
	}
	var order [2][]string
	for _, id := range slices.Concat(idsOf(a), missingFrom(x, idsOf(b))) {
		one := kind + "[]"
		if strings.HasSuffix(path, "verdicts") {
			one = kind + "[" + id + "]"
		}
		at := path + "[" + id + "]"
		_, had := x[id]
		_, has := y[id]
		switch {
		case !had:
			w.add(at, one, "(none)", show(y[id]))
		case !has:
			w.add(at, one, show(x[id]), "(none)")
		default:
			w.json(at, one, x[id], y[id])
		}
	}
	order[0], order[1] = missingFrom(nil, idsOf(a)), missingFrom(nil, idsOf(b))
	if slices.Equal(slices.Sorted(slices.Values(order[0])), slices.Sorted(slices.Values(order[1]))) && !slices.Equal(order[0], order[1]) {
		w.add(path+"[]", kind+"[] (order)", strings.Join(order[0], " "), strings.Join(order[1], " "))
	}
}

// byID gives the members of a list by their ids; nil where they have none of their own.
func byID(list []any) map[string]any {
	out := map[string]any{}
	for _, id := range idsOf(list) {
		out[id] = nil
	}
	if len(out) != len(list) || len(list) == 0 {
		return nil
	}
	for i, id := range idsOf(list) {
		out[id] = list[i]
	}
	return out
}

// idsOf lists the ids of a list's members that have one.
func idsOf(list []any) []string {
	var out []string
	for _, one := range list {
		if o, ok := one.(map[string]any); ok {
			if id, ok := o["id"].(string); ok {
				out = append(out, id)
			}
		}
	}
	return out
}

// missingFrom gives those ids that a map does not have.
func missingFrom(m map[string]any, ids []string) []string {
	return slices.DeleteFunc(slices.Clone(ids), func(id string) bool { _, ok := m[id]; return ok })
}

func show(v any) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return err.Error()
	}
	return strings.TrimSpace(b.String())
}
