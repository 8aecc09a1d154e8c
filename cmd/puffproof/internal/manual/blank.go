package manual

import (
	"strings"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
)

// blankValue is the value of a key, written as TOML, in a file to start from: a claim is not made, and a figure says that
// it is the template's.
func blankValue(k *keys.Key, value string) string {
	switch {
	case k.Claim():
		return quoted(keys.NotKnown)
	case k.Kind != keys.Number, value == quoted(keys.NotKnown):
		return value
	}
	figure := strings.Trim(value, `"`)
	for _, o := range []unit.Origin{unit.Measured, unit.Datasheet, unit.Label, unit.Estimated, unit.Declared, unit.Template} {
		figure = strings.TrimSuffix(figure, ", "+string(o))
	}
	return quoted(figure + ", " + string(unit.Template))
}

// Blank makes of a design a file to start from: its figures become the template's, in units of a system, and what only
// a builder can say is left blank. Comments, blanks and order stay. The error says that the file is no TOML.
func Blank(data []byte, units quantity.System) ([]byte, error) {
	f, err := edit.Open(data)
	if err != nil {
		return nil, err
	}
	for _, s := range f.All() {
		k := LookUp(s.Key)
		if k == nil || k.Table == "" || k.Table == "checklist" {
			continue
		}
		value, _ := f.Value(s.Key)
		if value == "false" && k.OutIsNone { // blank would be no answer
			if err := f.Remove(s.Key); err != nil {
				return nil, err
			}
			continue
		}
		if err := f.Set(s.Key, blankValue(k, units.Example(value))); err != nil {
			return nil, err
		}
	}
	return f.Bytes(), nil
}

// quoted is a line of text as TOML.
func quoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}
