package design

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/control"
	"puffproof/pneumatics"
)

// cart is the demo with a wiring.
func cart(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../../../testdata/designs/soapbox.toml")
	require.NoError(t, err)
	return string(data)
}

// The wiring of the demo, switched through by hand: which load has current in which state; no weld changes that, and the stop
// takes it from all of them.
func TestTheWiringOfTheCart(t *testing.T) {
	w := read(t, []byte(cart(t))).Control
	require.NotNil(t, w)
	table := map[pneumatics.State][]string{pneumatics.Off: nil, pneumatics.Loading: nil, pneumatics.Charging: {"dump", "pump"},
		pneumatics.Armed: {"dump", "pump"}, pneumatics.Firing: {"dump", "fire", "pump"}}
	check := func(s pneumatics.State, wrong ...control.Failure) {
		var got []string
		on := w.WrongIn(s, wrong...)
		for _, i := range w.Loads() {
			if on[i] {
				got = append(got, w.Parts[i].Name)
			}
		}
		assert.Equal(t, table[s], got, "%s, %v", s, wrong)
		assert.Empty(t, w.Stopped(s, wrong...), "%s, %v", s, wrong)
	}
	require.Len(t, w.Welds(), 11, "k1, k2, pedal, remote, brake; two contacts each of key, start, stop")
	for s := range table {
		check(s)
		for _, f := range w.Welds() {
			check(s, f)
		}
	}
	assert.Empty(t, w.Fuses())
	assert.Empty(t, w.Shorts(), "no two loads share a contact")
}

// What contradicts itself or other tables is refused where it stands, with what would be right.
func TestAWiringThatContradictsItselfIsRefused(t *testing.T) {
	for name, c := range map[string]struct{ old, now, says string }{
		"unknown part":      {`"k1.3", "k2.3"`, `"k1.3", "kk2.3"`, `did you mean "k2"`},
		"a load as contact": {`"k1.3", "k2.3"`, `"k1.3", "pump"`, "names an unknown part"},
		"no contact":        {`"k1.3", "k2.3"`, `"k1.3", "k2.0"`, "the number of a contact"},
		"unknown kind":      {`kind = "pressure switch"`, `kind = "pressostat"`, `did you mean "pressure switch"`},
		"builder's kind":    {`kind = "stop"`, `kind = "kill switch"`, `did you mean "stop"`},
		"no list":           {`moves = ["dump"]`, `moves = "dump"`, `write ["dump"]`},
		"no coil":           {`moves = ["dump"]`, `moves = ["relief"]`, "has no coil here"},
		"pump for supply":   {`moves = ["supply"]`, `moves = ["pump"]`, `did you mean "supply"`},
		"moved twice":       {`moves = ["dump"]`, `moves = ["fire"]`, "is moved twice"},
		"not of a stop":     {`"key.1", "stop.1"`, `"key.1", "not stop.1"`, "only a relay has contacts that close when it drops"},
		"key of another":    {"kind = \"stop\"\n", "kind = \"stop\"\nthrough = [\"f1\"]\n", "does not belong"},
		"wrong position": {`"f1", "k1.4", "k2.4", "brake", "pedal", "remote"`, `"f1", "k1.4", "k2.4", "brake"`,
			"has current in state charging by its wiring, but paths.fire has none then"},
		"never opens":       {`"brake", "pedal", "remote"`, `"brake", "not k1.5"`, "has no current in state firing by its wiring"},
		"supply off":        {`through = ["f2", "k1.2", "k2.2", "cut_out"]`, `through = ["f2", "cut_out"]`, "supply does not run then (runs_in)"},
		"not ended":         {`"k1.2", "k2.2", "cut_out"]`, `"k1.2", "k2.2"]`, "nothing in the way of the supply ends the filling"},
		"one contact twice": {`"k1.2", "k2.2", "cut_out"]`, `"k1.1", "k2.2", "cut_out"]`, "two different things before it"},
		"timer for switch": {"kind = \"pressure switch\"", "kind = \"timer\"\nclosed_in = [\"charging\", \"armed\", \"firing\"]",
			"nothing in the way of the supply ends the filling"},
		"chatters":              {`"start.1 or k1.1"`, `"not k1.1"`, `control.k1.through: chatters in state charging: "k1"`},
		"one in the loop alone": {`"start.2 or k2.1"`, `"not k2.1"`, `control.k2.through: chatters in state charging: "k2"`},
		"written as a sentence": {`"k1.3", "k2.3"`, `"k1.3 and k2.3"`, `texts of their own: "k1.3", "k2.3"`},
		"written large":         {`"start.1 or k1.1"`, `"start.1 OR k1.1"`, `did you mean "start.1 or k1.1"?`},
		"a number after a dash": {`"k1.3", "k2.3"`, `"k1-3", "k2.3"`, `did you mean "k1.3"?`},
		"a longer name":         {`"key.1", "stop.1"`, `"key.1", "emergency_stop.1"`, `did you mean "stop"?`},
		"what a load is":        {`"k1.3", "k2.3"`, `"k1.3", "pump"`, `"pump" is a load, and has no contacts`},
		"what was before": {`["f1", "key.1", "stop.1", "start.1 or k1.1"]`, `["f1", "stop.1", "start.1 or k1.1"]`,
			"depends on what was before"},
		"current as length": {`rating = "2 A, label"`, `rating = "2 mm"`, "has a unit of something else"},
		"no unit":           {`rating = "2 A, label"`, `rating = "2"`, "such as 5 A"},
	} {
		text := cart(t)
		require.Equal(t, 1, strings.Count(text, c.old), "%s: %s", name, c.old)
		_, problems := Read("cart.toml", []byte(strings.Replace(text, c.old, c.now, 1)))
		require.NotEmpty(t, problems, name)
		assert.Contains(t, list(problems), c.says, name)
	}
}

// What nobody knows yet is listed, and the wiring says nothing then.
func TestAWiringNotYetKnown(t *testing.T) {
	for old, key := range map[string]string{`through = ["f1", "k1.3", "k2.3"]`: "control.dump.through",
		"closed_in = [\"firing\"]\n\n[control.brake]": "control.pedal.closed_in"} {
		text := cart(t)
		require.Equal(t, 1, strings.Count(text, old), old)
		name, rest, _ := strings.Cut(old, " = ")
		_, after, _ := strings.Cut(rest, "\n")
		now := name + " = \"?\""
		if after != "" {
			now += "\n" + after
		}
		l := read(t, []byte(strings.Replace(text, old, now, 1)))
		assert.Contains(t, l.ToFind, key)
		assert.Equal(t, []string{key}, l.Control.Unknown())
	}
}
