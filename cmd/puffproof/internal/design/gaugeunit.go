package design

import (
	"regexp"
	"strings"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
)

// behindNumber is the unit of a quantity that is one number.
var behindNumber = regexp.MustCompile(`^[0-9.]+\s*([A-Za-z][A-Za-z0-9/²]*)`)

// GaugeUnit is the unit that the gauge on a volume is marked in, as the file states its range; that of a system where no gauge is
// on it, or its range says none.
func GaugeUnit(file []byte, volume string, system quantity.System) unit.Unit {
	usual, _ := unit.Lookup("bar")
	if system == quantity.US {
		usual, _ = unit.Lookup("psi")
	}
	f, err := edit.Open(file)
	if err != nil {
		return usual
	}
	for _, s := range f.All() {
		table, on := strings.CutSuffix(s.Key, ".on")
		if !on || !strings.HasPrefix(table, "gauge") || s.Value != volume {
			continue
		}
		text, _ := f.Value(table + ".range")
		if m := behindNumber.FindStringSubmatch(strings.Trim(text, `"'`)); m != nil {
			if u, known := unit.Lookup(m[1]); known && u.Dimension == unit.Pressure && u.Reference != unit.Absolute {
				return u
			}
		}
	}
	return usual
}
