package control

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What people write for series, for side by side and for the other way round is told as it is written here; what says nothing of the
// kind gets no hint, and no hint is itself refused.
func TestHintsForTextsThatAreNoStep(t *testing.T) {
	for text, want := range map[string]string{
		"k1.4 and k2.3":       `what the current passes one after the other are texts of their own: "k1.4", "k2.3"`,
		"f1, key, stop":       `what the current passes one after the other are texts of their own: "f1", "key", "stop"`,
		"f1 -> start OR k1.1": `what the current passes one after the other are texts of their own: "f1", "start or k1.1"`,
		"start OR k1.1":       `did you mean "start or k1.1"?`,
		"start || k1.1":       `did you mean "start or k1.1"?`,
		"start/k1.1":          `did you mean "start or k1.1"?`,
		"NOT k1":              `did you mean "not k1"?`,
		"!k1.2":               `did you mean "not k1.2"?`,
		"k1.0":                "", "k1 k2": "", "": "", "or": "",
	} {
		_, err := ParseStep(text)
		assert.Error(t, err, text)
		assert.Equal(t, want, Hint(text), text)
	}
}

// A contact of a part that there is not: a number written otherwise, a name that is part of one or has one in it; where two parts
// might be meant, neither is named.
func TestHintsForPartsThatThereAreNot(t *testing.T) {
	w := twoRelays(t)
	for part, want := range map[string]string{"k1-3": `did you mean "k1.3"?`, "k1:3": `did you mean "k1.3"?`, "k1_12": `did you mean "k1.12"?`,
		"k1-13": "", "key2": `did you mean "key.2"?`, "emergency_stop": `did you mean "stop"?`, "REMOTE_1": `did you mean "remote"?`,
		"start_stop": "", "coil": "", "fire": `"fire" is a load, and has no contacts: name what its current passes`} {
		assert.Equal(t, want, w.HintOf(Contact{Part: part, No: 1}), part)
	}
}

// By hand: c opens its own way and a only follows it; d and e move each other for ever, by a contact that closes as d drops; k holds
// itself and rests.
func TestTheRelaysOfALoopAreNamed(t *testing.T) {
	relay := func(name string, through ...string) Part {
		return Part{Name: name, Kind: Relay, Through: ways(t, through...)}
	}
	w := &Wiring{Parts: []Part{relay("a", "c"), relay("c", "not c.2")}}
	assert.Equal(t, []string{"c"}, w.Restless(armed), "a comes first, and only follows")
	w = &Wiring{Parts: []Part{relay("a", "e"), relay("d", "e.2"), relay("e", "not d"), {Name: "load", Kind: Load, Through: ways(t, "d.3")}}}
	assert.Equal(t, []string{"d", "e"}, w.Restless(armed))
	w = twoRelays(t)
	w.Parts = append(w.Parts, relay("x", "k1.5", "not x"))
	assert.Empty(t, w.Restless(off))
	assert.Equal(t, []string{"x"}, w.Restless(charging), "the relays before it rest")
}
