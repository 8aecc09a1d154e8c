package design

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/launcher"
)

func TestCutInGetsTheToleranceOfCutOut(t *testing.T) {
	l := read(t, demo(t, "careless.toml"))
	in := l.Switch.CutIn
	require.InDeltaSlice(t, []float64{1.8e5, 1.4e5, 2.2e5}, []float64{in.Nominal, in.Low, in.High}, 1e-6)
	require.True(t, in.Assumed)
	require.Contains(t, in.Reason.String(), "cut_out")
	// No gauge: class 4 of a range of twice the 3 bar (common practice, no source).
	require.InDelta(t, 0.24e5, l.Switch.GaugeError.High, 1e-6) // rounding
	require.True(t, l.Switch.GaugeError.Assumed)
}

func TestDefaultsByOrigin(t *testing.T) {
	cases := map[string]struct{ low, high float64 }{
		`"12 L/min"`:            {7.2, 15.6}, // -40/+30 %: labels flatter
		`"12 L/min, label"`:     {7.2, 15.6},
		`"12 L/min, measured"`:  {11.4, 12.6}, // timed: ± 5 %
		`"12 L/min ± 0, label"`: {12, 12},
	}
	for text, c := range cases {
		l := read(t, []byte(minimal+"supply = { kind = \"compressor\", feeds = \"dose\", free_air = "+text+" }\n"))
		b := l.Supply.FreeAir
		const litrePerMinute = 1e-3 / 60
		require.InDeltaSlice(t, []float64{c.low, c.high}, []float64{b.Low / litrePerMinute, b.High / litrePerMinute}, 1e-9, text)
		require.Equal(t, !strings.Contains(text, "±"), b.Assumed, text)
	}
}

func TestNitrogenFromACylinder(t *testing.T) {
	l := read(t, []byte(minimal+"gas = { name = \"nitrogen\" }\nsupply = { kind = \"regulated cylinder\", feeds = \"dose\" }\n"))
	require.Equal(t, "nitrogen", l.Gas)
	require.Equal(t, launcher.RegulatedCylinder, l.Supply.Kind)
}

func TestTheFasterSpeedCounts(t *testing.T) {
	speeds := func(mount, event string) float64 {
		return read(t, []byte(minimal+"mount = { "+mount+" }\nevent = { "+event+" }\n")).Mount.MovingAt.Nominal
	}
	require.InDelta(t, 2, speeds(`moving_at = "2 m/s"`, `vehicle_speed = "1 m/s"`), 1e-12)
	require.InDelta(t, 3, speeds(`moving_at = "2 m/s"`, `vehicle_speed = "3 m/s"`), 1e-12)
	require.InDelta(t, 3, speeds(``, `vehicle_speed = "3 m/s"`), 1e-12)
}

// Without a switch the dead head is the working pressure and must be within the
// model's range; with one it may exceed it.
func TestDeadHeadOutOfRange(t *testing.T) {
	supply := "supply = { kind = \"compressor\", feeds = \"dose\", dead_head = \"12 bar\" }\n"
	_, problems := Read("x.toml", []byte(minimal+supply))
	require.Len(t, problems, 1)
	require.Contains(t, problems[0].String(), "10 bar gauge")
	read(t, []byte(minimal+supply+"pressure_switch = { senses = \"dose\", cut_out = \"4 bar ± 0.3 bar\", cut_in = \"3 bar\" }\n"))
}

// Reading goes on behind a syntax error: faults before and behind it are listed.
func TestFaultsBehindASyntaxError(t *testing.T) {
	_, problems := Read("x.toml", []byte(`name = "Three"
[projectile]
mass = "4 q"
diameter = 40 mm
contact_diameter = "22 mn"
[barrel
bore = 3
`))
	text := list(problems)
	require.Len(t, problems, 4, text)
	require.Equal(t, []int{3, 4, 5, 6}, []int{problems[0].Line, problems[1].Line, problems[2].Line, problems[3].Line})
	require.Contains(t, text, `write diameter = "40 mm"`)
	require.NotContains(t, text, "missing", "what is missing cannot be known")
}

// Limits of peaks are C-weighted. IEC 61672-1:2013, table 3: at 63 Hz weighting A takes 26.2 dB away, C 0.8 dB, so an A-weighted peak of
// a low bang reads far too low. A compressor's label is A-weighted.
func TestAPeakIsNotAWeighted(t *testing.T) {
	for _, text := range []string{"80 dB(A)", "80 dBA, measured", "80 dB(A) ± 2 dB", "78 dB(A) to 82 dB(A)", "78 to 82 dB(A)"} {
		_, problems := Read("x.toml", []byte(minimal+"event = { ear_to_muzzle = \"1 m\", peak_level = \""+text+"\" }\n"))
		require.Len(t, problems, 1, text)
		said := problems[0].String()
		require.Contains(t, said, "is A-weighted", text)
		require.Contains(t, said, "dB(C), or not weighted, dB", text)
		require.Contains(t, said, "reads low", text)
	}
	_, problems := Read("x.toml", []byte(minimal+"event = { ear_to_muzzle = \"1 m\", peak_level = \"78 dB to 82 dB(A)\" }\n"))
	require.Len(t, problems, 1)
	require.Contains(t, problems[0].String(), "both ends A-weighted")
	for _, text := range []string{"80 dB(C)", "80 dBC", "80 dB", "78 to 82 dB(C)"} {
		l := read(t, []byte(minimal+"event = { ear_to_muzzle = \"1 m\", peak_level = \""+text+"\" }\n"))
		require.InDelta(t, 80, l.Event.PeakLevel.Nominal, 1e-9, text)
	}
	l := read(t, []byte(minimal+"supply = { kind = \"compressor\", feeds = \"dose\", noise_level = \"78 dB(A)\" }\n"))
	require.InDelta(t, 78, l.Supply.NoiseLevel.Nominal, 1e-9)
	require.NotZero(t, l.Supply.NoiseLevel.Line, "stated, though its tolerance is not")
}

// A compressor of which no level is stated makes noise all the same: it counts with a wide band, which is told as assumed. What makes
// no noise of its own has none.
func TestAnUnstatedCompressorIsNotSilent(t *testing.T) {
	for kind, noisy := range map[string]bool{"compressor": true, "hand pump": false, "shop air": false, "regulated cylinder": false} {
		l, problems := Read("x.toml", []byte(minimal+"supply = { kind = \""+kind+"\", feeds = \"dose\" }\n"))
		require.Empty(t, problems, kind)
		b := l.Supply.NoiseLevel
		require.Equal(t, noisy, b.Set && b.Assumed, kind)
		if noisy {
			require.Equal(t, []float64{50, 100}, []float64{b.Low, b.High}) // labels, from memory
			require.Contains(t, b.Reason.String(), "from memory")
		}
	}
}

// On a ride-on the rider and the wheels belong to the vehicle that carries the muzzle: none of them is 30 m away.
func TestARideOnIsNoLongerThanItself(t *testing.T) {
	with := func(ride, ear, wheels string) []Problem {
		_, problems := Read("x.toml", []byte(minimal+"event = { ear_to_muzzle = \""+ear+"\", wheels = \""+wheels+"\" }\n"+
			"mount = { ride_on = "+ride+", moving_at = \"0 m/s\" }\n"))
		return problems
	}
	assert.Empty(t, with("true", "10 m", "10 m"))
	assert.Empty(t, with("false", "30 m", "30 m"), "nobody rides")
	problems := with("true", "30 m", "10.5 m")
	require.Len(t, problems, 2)
	for _, p := range problems {
		assert.Contains(t, p.String(), "farther away than a ride-on is long")
		assert.Equal(t, "at most 10.0 m", p.Want)
	}
}
