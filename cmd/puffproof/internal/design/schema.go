package design

import (
	"encoding/json"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
)

// Schema gives a JSON schema (draft 2020-12) of the design file, for editors.
// It knows the keys, their words and which must stand; units and values are
// checked by Read only. Its texts have their figures in units of a system.
func Schema(units quantity.System) []byte {
	keys := newKeyTable()
	root := schemaTable(keys, keys.row(""), units)
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = "puffproof design file, version " + Version
	properties := root["properties"].(map[string]any)
	required := root["required"].([]string)
	for i := range keys.tables {
		row := &keys.tables[i]
		if row.name == "" || row.nested() {
			continue
		}
		name := topName(row)
		one := schemaTable(keys, row, units)
		switch {
		case name != row.name:
			properties[name] = map[string]any{"type": "object", "minProperties": 1, "additionalProperties": one, "description": row.teach}
		case row.list:
			properties[name] = map[string]any{"anyOf": []any{one, map[string]any{"type": "array", "items": one}}, "description": row.teach}
		case row.name == "checklist":
			// An item's name may have dots: then its parts are tables in tables.
			properties[name] = map[string]any{"type": "object", "description": row.teach,
				"additionalProperties": map[string]any{"anyOf": []any{one, map[string]any{"type": "object",
					"additionalProperties": map[string]any{"type": "object"}}}}}
		default:
			properties[name] = one
		}
		if row.required {
			required = append(required, name)
		}
	}
	root["required"] = required
	out, err := json.MarshalIndent(root, "", "  ")
	if err != nil {
		panic("design: schema cannot be written: " + err.Error()) // maps of strings only
	}
	return append(out, '\n')
}

// schemaTable gives the schema of one table. Keys that depend on a kind or a fit
// are conditional.
func schemaTable(keys *keyTable, row *tableRow, u quantity.System) map[string]any {
	properties := map[string]any{}
	required := []string{}
	rows := keys.of(row.name)
	for _, k := range rows {
		s := schemaKey(keys, k, u)
		properties[k.name] = s
		for _, a := range k.aliases {
			properties[a] = s
		}
		if slices.Contains(k.required, "*") && len(k.aliases) == 0 {
			required = append(required, k.name)
		}
	}
	t := map[string]any{"type": "object", "properties": properties, "additionalProperties": false, "required": required,
		"description": row.teach}
	if row.selector != "" {
		t["allOf"] = schemaChoices(keys, row, rows)
	}
	return t
}

// schemaChoices gives, for each word of the selector, what must stand and what
// must not.
func schemaChoices(keys *keyTable, row *tableRow, rows []*key) []any {
	var all []any
	for _, w := range keys.index[row.name][row.selector].words {
		then := map[string]any{}
		required, either := []string{}, []any{}
		for _, k := range rows {
			switch {
			case !slices.Contains(k.required, w):
			case k.unless[0] == "":
				required = append(required, k.name)
			default:
				either = append(either, map[string]any{"anyOf": []any{map[string]any{"required": []string{k.name}}, map[string]any{
					"required": []string{k.unless[0]}, "properties": map[string]any{k.unless[0]: map[string]any{"const": k.unless[1]}}}}})
			}
			if !k.belongs(w) {
				then[k.name] = false
			}
		}
		must := map[string]any{"required": required, "properties": then}
		if len(either) > 0 {
			must["allOf"] = either
		}
		all = append(all, map[string]any{
			"if":   map[string]any{"properties": map[string]any{row.selector: map[string]any{"const": w}}},
			"then": must,
		})
	}
	return all
}

func schemaKey(keys *keyTable, k *key, u quantity.System) map[string]any {
	s := map[string]any{"description": k.teachIn(u)}
	str := map[string]any{"type": "string"}
	switch k.kind {
	case number:
		s["type"] = "string"
		if k.dimension == unit.Dimensionless {
			s["type"] = []string{"string", "number"}
		}
		s["examples"] = []string{strings.Trim(k.exampleIn(u), `"`)}
	case word:
		s["enum"] = k.words
	case text, date:
		s["type"] = "string"
	case answer:
		s["enum"] = []any{true, false, "unknown", declaredYes, declaredNo}
	case states:
		s["type"], s["items"] = "array", map[string]any{"enum": stateNames()}
	case controls:
		s["type"], s["items"] = "array", str
	case readings:
		s["type"], s["items"], s["minItems"] = "array", str, k.least
	case curve:
		s["type"] = "array"
		s["items"] = map[string]any{"type": "array", "items": str, "minItems": 2, "maxItems": 2}
	case subtable:
		s = schemaTable(keys, keys.row("paths.*."+k.name), u)
	}
	return s
}
