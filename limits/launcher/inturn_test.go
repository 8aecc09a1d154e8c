package launcher

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics"
)

// TestValvesInSeriesAreOpenedInTurn: a hand opens one valve, and then the next is worked. Counted as opened at the same moment, a tap that
// takes a second throttled the solenoid valve behind it to a fiftieth of the energy, and the launcher passed.
func TestValvesInSeriesAreOpenedInTurn(t *testing.T) {
	firing, armed := pneumatics.SetOf(pneumatics.Firing), pneumatics.SetOf(pneumatics.Armed, pneumatics.Firing)
	const hand, electric = pneumatics.HandValve, pneumatics.Valve
	path := func(name, from, to string, kind pneumatics.PathKind, open pneumatics.StateSet) PathSpec {
		return PathSpec{Name: name, From: from, To: to, Kind: kind, OpenIn: open}
	}
	for _, c := range []struct {
		name  string
		paths []PathSpec
		first []string
	}{
		{"a tap, then a solenoid valve", []PathSpec{path("tap", "dose", "mid", hand, firing), path("fire", "mid", "barrel", electric, firing)},
			[]string{"tap"}},
		{"a solenoid valve, then a tap", []PathSpec{path("fire", "dose", "mid", electric, firing), path("tap", "mid", "barrel", hand, firing)},
			[]string{"tap"}},
		{"two taps", []PathSpec{path("second", "mid", "barrel", hand, firing), path("first", "dose", "mid", hand, firing)}, []string{"first"}},
		{"two taps and a solenoid valve", []PathSpec{path("first", "tank", "dose", hand, firing), path("second", "dose", "mid", hand, firing),
			path("fire", "mid", "barrel", electric, firing)}, []string{"first", "second"}},
		{"a hose between", []PathSpec{path("tap", "tank", "dose", hand, firing), path("pipe", "dose", "mid", pneumatics.Hose, 0),
			path("fire", "mid", "barrel", electric, firing)}, []string{"tap"}},
		{"stated so", []PathSpec{path("tap", "dose", "mid", hand, armed), path("fire", "mid", "barrel", electric, firing)}, nil},
		{"one current opens both", []PathSpec{path("safety", "dose", "mid", electric, firing),
			path("fire", "mid", "barrel", electric, firing)}, nil},
		{"side by side", []PathSpec{path("tap", "dose", "barrel", hand, firing), path("fire", "dose", "barrel", electric, firing)}, nil},
		{"a tap alone", []PathSpec{path("tap", "dose", "barrel", hand, firing)}, nil},
		{"a tap that fills", []PathSpec{path("tap", "tank", "dose", hand, pneumatics.SetOf(pneumatics.Charging)),
			path("fire", "dose", "barrel", electric, firing)}, nil},
	} {
		l := &Launcher{Volumes: []VolumeSpec{{Name: "tank"}, {Name: "dose"}, {Name: "mid"}}, Paths: c.paths}
		var first []string
		for _, p := range l.InTurn().Paths {
			if p.OpensFirst {
				first = append(first, p.Name)
				assert.True(t, p.OpenIn.Has(pneumatics.Armed) && p.OpenIn.Has(pneumatics.Firing), c.name)
			}
		}
		assert.ElementsMatch(t, c.first, first, c.name)
	}
}
