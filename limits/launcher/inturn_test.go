package launcher

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/control"
	"puffproof/pneumatics"
)

// TestValvesInSeriesAreOpenedInTurn: a hand, or a button of its own, opens one valve, and then the next is worked. Counted as opened at
// the same moment, a tap that takes a second throttled the solenoid valve behind it to a fiftieth of the energy, and the launcher passed.
func TestValvesInSeriesAreOpenedInTurn(t *testing.T) {
	firing, armed := pneumatics.SetOf(pneumatics.Firing), pneumatics.SetOf(pneumatics.Armed, pneumatics.Firing)
	const hand, electric = pneumatics.HandValve, pneumatics.Valve
	path := func(name, from, to string, kind pneumatics.PathKind, open pneumatics.StateSet) PathSpec {
		return PathSpec{Name: name, From: from, To: to, Kind: kind, OpenIn: open}
	}
	coils := func(through ...string) *control.Wiring { // of safety and of fire, behind a fuse and a key
		w := &control.Wiring{Parts: []control.Part{{Name: "f1", Kind: control.Fuse}, {Name: "key", Kind: control.KeySwitch},
			{Name: "red", Kind: control.Button}, {Name: "green", Kind: control.Button}}}
		for i, moves := range []string{"safety", "fire"}[:len(through)] {
			load := control.Part{Name: "coil" + moves, Kind: control.Load, Moves: []string{moves}}
			if len(through) == 1 {
				load.Moves = []string{"safety", "fire"}
			}
			for _, one := range strings.Fields(through[i]) {
				step, err := control.ParseStep(strings.ReplaceAll(one, "|", " or "))
				require.NoError(t, err)
				load.Through = append(load.Through, step)
			}
			w.Parts = append(w.Parts, load)
		}
		return w
	}
	series := []PathSpec{path("safety", "dose", "mid", electric, firing), path("fire", "mid", "barrel", electric, firing)}
	for _, c := range []struct {
		name  string
		paths []PathSpec
		wires *control.Wiring
		first []string
	}{
		{"one current opens both", series, coils("f1 key red"), nil},
		{"two poles of one button", series, coils("f1 key red.1", "key red.2"), nil},
		{"two buttons", series, coils("f1 key red", "f1 key green"), []string{"safety"}},
		{"a button more", series, coils("f1 key red", "f1 key red green"), []string{"safety"}},
		{"one of two buttons, and both", series, coils("f1 red|green", "f1 red green"), []string{"safety"}},
		{"no coil of one is stated", series, &control.Wiring{Parts: coils("f1 red", "f1 red").Parts[:5]}, []string{"safety"}},
		{"no wiring is stated", series, nil, []string{"safety"}},
		{"a tap before two buttons", append([]PathSpec{path("tap", "tank", "dose", hand, firing)}, series...), coils("red", "green"),
			[]string{"tap", "safety"}},
		{"a tap, then a solenoid valve", []PathSpec{path("tap", "dose", "mid", hand, firing), path("fire", "mid", "barrel", electric, firing)},
			nil, []string{"tap"}},
		{"a solenoid valve, then a tap", []PathSpec{path("fire", "dose", "mid", electric, firing), path("tap", "mid", "barrel", hand, firing)},
			nil, []string{"tap"}},
		{"two taps", []PathSpec{path("second", "mid", "barrel", hand, firing), path("first", "dose", "mid", hand, firing)},
			nil, []string{"first"}},
		{"two taps and a solenoid valve", []PathSpec{path("first", "tank", "dose", hand, firing), path("second", "dose", "mid", hand, firing),
			path("fire", "mid", "barrel", electric, firing)}, nil, []string{"first", "second"}},
		{"a hose between", []PathSpec{path("tap", "tank", "dose", hand, firing), path("pipe", "dose", "mid", pneumatics.Hose, 0),
			path("fire", "mid", "barrel", electric, firing)}, nil, []string{"tap"}},
		{"stated so", []PathSpec{path("tap", "dose", "mid", hand, armed), path("fire", "mid", "barrel", electric, firing)}, nil, nil},
		{"side by side", []PathSpec{path("tap", "dose", "barrel", hand, firing), path("fire", "dose", "barrel", electric, firing)}, nil, nil},
		{"a tap alone", []PathSpec{path("tap", "dose", "barrel", hand, firing)}, nil, nil},
		{"a tap that fills", []PathSpec{path("tap", "tank", "dose", hand, pneumatics.SetOf(pneumatics.Charging)),
			path("fire", "dose", "barrel", electric, firing)}, nil, nil},
	} {
		l := &Launcher{Volumes: []VolumeSpec{{Name: "tank"}, {Name: "dose"}, {Name: "mid"}}, Paths: slices.Clone(c.paths), Control: c.wires}
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
