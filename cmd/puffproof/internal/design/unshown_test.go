package design

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/launcher"
)

// An error of nothing is none that was measured: the finest dial gauges have a thousandth of their range (class 0.1 of EN 837-1). The
// class of the gauge counts then, without one class 4, as where nothing is stated.
func TestAGaugeErrorOfNothingIsNoMeasurement(t *testing.T) {
	whale := demo(t, "whale.toml") // its gauge has class 1.0 of 1.6 bar
	for text, want := range map[string]float64{`"0 bar"`: 0.016e5, `"0.0003 bar"`: 0.016e5, `"0.005 bar"`: 0.005e5, `"0.03 bar"`: 0.03e5} {
		of := bytes.Replace(whale, []byte("[pressure_switch]\n"), []byte("[pressure_switch]\ngauge_error = "+text+"\n"), 1)
		e := read(t, of).Switch.GaugeError
		assert.InDelta(t, want, e.High, 1e-9, text)
		assert.InDelta(t, -want, e.Low, 1e-9, text)
	}
	for text, want := range map[string]float64{`"0 bar"`: 0.064e5, `"0.001 bar"`: 0.064e5, `"0.005 bar"`: 0.005e5} {
		of := bytes.Replace(whale, []byte("class = 1.0"), []byte("error = "+text), 1)
		require.NotEqual(t, whale, of)
		l := read(t, of)
		assert.InDelta(t, want, l.Switch.GaugeError.High, 1e-9, text)
		size, _ := l.Gauges[0].ErrorSize()
		assert.InDelta(t, want, size, 1e-9, text)
	}
}

// A hole that is drilled through its part is said so; what is not said can be missing. Beside another flow figure the key means nothing.
func TestAHoleThatCannotBeLeftOut(t *testing.T) {
	whale := demo(t, "whale.toml")
	const feed = "to = \"dose\"\nkind = \"valve\"\n"
	with := func(line string) []byte { return bytes.Replace(whale, []byte(feed), []byte(feed+line+"\n"), 1) }
	assert.Equal(t, launcher.Unanswered, read(t, whale).Paths[0].Flow.Removable)
	assert.Equal(t, launcher.Unanswered, read(t, with(`orifice_removable = "?"`)).Paths[0].Flow.Removable)
	assert.Equal(t, launcher.No, read(t, with("orifice_removable = false")).Paths[0].Flow.Removable)
	declared := read(t, with(`orifice_removable = "declared no"`))
	assert.Equal(t, launcher.No, declared.Paths[0].Flow.Removable)
	assert.Contains(t, declared.Declared, "paths.feed.orifice_removable")
	_, problems := Read("whale.toml", bytes.Replace(whale, []byte("Cv = \"2.0 ± 10 %, datasheet\""),
		[]byte("Cv = \"2.0 ± 10 %, datasheet\"\norifice_removable = false"), 1))
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Message, "does not belong to Cv")
}

// The finest class of dial gauges is 0.1 (EN 837-1, from memory): a finer figure is a slip, such as of a percentage that was divided by a
// hundred, and would make each reading ten times as good. It is refused with what would be accepted; the finest class is read.
func TestAClassThatNoGaugeHasIsRefused(t *testing.T) {
	whale := demo(t, "whale.toml")
	of := func(class string) []byte {
		require.Contains(t, string(whale), "class = 1.0")
		return bytes.Replace(whale, []byte("class = 1.0"), []byte("class = "+class), 1)
	}
	for _, class := range []string{"0.01", "0.016", "0.099"} {
		_, problems := Read("whale.toml", of(class))
		require.Len(t, problems, 1, class)
		assert.Contains(t, list(problems), "gauge.class")
		assert.Contains(t, list(problems), "0.1")
	}
	assert.Equal(t, 0.1, read(t, of("0.1")).Gauges[0].Class)
}
