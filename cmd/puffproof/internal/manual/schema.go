package manual

import (
	"encoding/json"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
)

// Schema gives a JSON schema (draft 2020-12) of the design file, for editors.
// It knows the keys, their words and which must stand; units and values are
// checked by Read only. Its texts have their figures in units of a system.
func Schema(units quantity.System) []byte {
	known := keys.New()
	root := schemaTable(known, known.Row(""), units)
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = "puffproof design file, version " + keys.Version
	properties := root["properties"].(map[string]any)
	required := root["required"].([]string)
	for i := range known.Tables {
		row := &known.Tables[i]
		if row.Name == "" || row.Nested() {
			continue
		}
		name := row.TopName()
		one := schemaTable(known, row, units)
		switch {
		case name != row.Name:
			properties[name] = map[string]any{"type": "object", "minProperties": 1, "additionalProperties": one, "description": row.Teach}
		case row.List:
			properties[name] = map[string]any{"anyOf": []any{one, map[string]any{"type": "array", "items": one}}, "description": row.Teach}
		case row.Name == "checklist":
			// An item's name may have dots: then its parts are tables in tables.
			properties[name] = map[string]any{"type": "object", "description": row.Teach,
				"additionalProperties": map[string]any{"anyOf": []any{one, map[string]any{"type": "object",
					"additionalProperties": map[string]any{"type": "object"}}}}}
		default:
			properties[name] = one
		}
		if row.Required {
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
func schemaTable(known *keys.Table, row *keys.Row, u quantity.System) map[string]any {
	properties := map[string]any{}
	required := []string{}
	rows := known.Of(row.Name)
	for _, k := range rows {
		s := schemaKey(known, k, u)
		properties[k.Name] = s
		for _, a := range k.Aliases {
			properties[a] = s
		}
		if slices.Contains(k.Required, "*") && len(k.Aliases) == 0 {
			required = append(required, k.Name)
		}
	}
	t := map[string]any{"type": "object", "properties": properties, "additionalProperties": false, "required": required,
		"description": row.Teach}
	if row.Selector != "" {
		t["allOf"] = schemaChoices(known, row, rows)
	}
	return t
}

// schemaChoices gives, for each word of the selector, what must stand and what
// must not.
func schemaChoices(known *keys.Table, row *keys.Row, rows []*keys.Key) []any {
	var all []any
	for _, w := range known.Index[row.Name][row.Selector].Words {
		then := map[string]any{}
		required, either := []string{}, []any{}
		for _, k := range rows {
			switch {
			case !slices.Contains(k.Required, w):
			case k.Unless[0] == "":
				required = append(required, k.Name)
			default:
				either = append(either, map[string]any{"anyOf": []any{map[string]any{"required": []string{k.Name}}, map[string]any{
					"required": []string{k.Unless[0]}, "properties": map[string]any{k.Unless[0]: map[string]any{"const": k.Unless[1]}}}}})
			}
			if !k.Belongs(w) {
				then[k.Name] = false
			}
		}
		must := map[string]any{"required": required, "properties": then}
		if len(either) > 0 {
			must["allOf"] = either
		}
		all = append(all, map[string]any{
			"if":   map[string]any{"properties": map[string]any{row.Selector: map[string]any{"const": w}}},
			"then": must,
		})
	}
	return all
}

func schemaKey(known *keys.Table, k *keys.Key, u quantity.System) map[string]any {
	s := map[string]any{"description": k.TeachIn(u)}
	str := map[string]any{"type": "string"}
	switch k.Kind {
	case keys.Number:
		s["type"] = "string"
		if k.Dimension == unit.Dimensionless {
			s["type"] = []string{"string", "number"}
		}
		s["examples"] = []string{strings.Trim(k.ExampleIn(u), `"`)}
	case keys.Word:
		s["enum"] = k.AllWords()
	case keys.Text, keys.Date:
		s["type"] = "string"
	case keys.Answer:
		s["enum"] = []any{true, false, "unknown", keys.DeclaredYes, keys.DeclaredNo}
	case keys.States:
		s["type"], s["items"] = "array", map[string]any{"enum": keys.StateNames()}
	case keys.Controls:
		s["type"], s["items"] = "array", str
	case keys.Readings:
		s["type"], s["items"], s["minItems"] = "array", str, k.Least
	case keys.Names:
		s["type"], s["items"] = "array", str
	case keys.Curve:
		s["type"] = "array"
		s["items"] = map[string]any{"type": "array", "items": str, "minItems": 2, "maxItems": 2}
	case keys.Subtable:
		return schemaTable(known, known.Row("paths.*."+k.Name), u)
	}
	if len(k.Required) == 0 && !k.OutIsNone && s["type"] != "string" { // a text may be "?" as it is
		delete(s, "description")
		return map[string]any{"description": k.TeachIn(u), "anyOf": []any{s, map[string]any{"const": keys.NotKnown}}}
	}
	return s
}
