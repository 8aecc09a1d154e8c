package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/sound"
)

// loud is an assessment with one ear at 0.6 m and levels there and where toys are measured.
func loud(upper, expectedNear float64) *assessment.Assessment {
	a := assessed.WithFaults(sample.Plain())
	burst := sound.Source{ID: "burst", Name: finding.Words("the burst"), Levels: sound.Levels{Expected: expectedNear - 6, Upper: upper - 4.4}}
	a.Sound = &sound.Report{Sources: []sound.Source{burst},
		Ears: []sound.Ear{{Who: "the rider's ear", Distance: 0.6, Nearest: 0.6, Levels: sound.Levels{Expected: expectedNear - 1.6, Upper: upper},
			By: "burst"}},
		Near: sound.Ear{Distance: 0.5, Nearest: 0.5, Levels: sound.Levels{Expected: expectedNear, Upper: upper + 1.6}, By: "burst"}}
	return a
}

// sound.peak: above 135 dB(C) it fails, from 115 on, or where as much is expected half a metre off, it is conditional, else it is
// below the benchmark of toys; without an ear, or a shot, nobody knows. Limits: EN 71-1 4.20 as read in a secondary text,
// 2003/10/EC from memory.
func TestPeakSoundLevel(t *testing.T) {
	for name, c := range map[string]struct {
		upper, near float64
		want        finding.Status
	}{
		"above the action value": {above(135), 100, finding.Fail},
		"at it":                  {135, 100, finding.Conditional},
		"at the toy standard's":  {115, 100, finding.Conditional},
		"below it":               {114.99, 100, finding.Pass},
		"expected near it":       {114, 115.01, finding.Conditional},
		"expected at it":         {114, 115, finding.Pass},
	} {
		v := Of(loud(c.upper, c.near), finding.SoundAtPeak)
		assert.Equal(t, c.want, v.Status, name)
		assertFigure(t, c.upper, v.Value, name)
		assertFigure(t, 135, v.Limit, name)
		assert.Equal(t, finding.InDecibel, v.Unit)
		switch c.want {
		case finding.Conditional:
			assert.Equal(t, []string{finding.ItemHearing}, v.Items, name)
			assert.Contains(t, v.Condition.String(), "ear defenders", name)
		case finding.Pass:
			assert.Contains(t, v.Why.String(), "below the benchmark of 115 dB(C)", name)
		}
	}
	pump := loud(114, 90)
	pump.Sound.Sources = append(pump.Sound.Sources, sound.Source{ID: "pump", Name: finding.Words("the pump"), Apart: true,
		Levels: sound.Levels{Expected: 92, Upper: 120}})
	pump.Sound.Ears[0].Upper, pump.Sound.Ears[0].By = 126, "pump"
	noisy := Of(pump, finding.SoundAtPeak)
	assert.Equal(t, finding.Conditional, noisy.Status)
	assert.Contains(t, noisy.Condition.String(), "within 2.0 m of the pump wears ear defenders")
	assert.Contains(t, noisy.Advice.String(), "State supply.noise_level")
	assert.NotContains(t, noisy.Why.String(), "narrows it")
	pump.Sound.Ears[0].By = "burst"
	assert.Regexp(t, "a recording shows less.*; and everybody within 2.0 m of the pump", Of(pump, finding.SoundAtPeak).Condition.String())

	deaf := loud(100, 90)
	deaf.Sound.Ears = nil
	v := Of(deaf, finding.SoundAtPeak)
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Contains(t, v.Why.String(), "event.ear_to_muzzle")

	// A recording more than 10 dB below what is expected where it was made is believed no more than the model is.
	for high, want := range map[float64]finding.Status{97.9: finding.Unknown, 98.1: finding.Pass} {
		recorded := loud(112, 108)
		recorded.Sound.Recorded = &sound.Recording{Origin: launcher.Measured, Level: high, High: high, Model: recorded.Sound.Near.Levels}
		v := Of(recorded, finding.SoundAtPeak)
		assert.Equal(t, want, v.Status, "%g dB", high)
	}

	// A level is measured only where the design says so: a guess and a label are no recording.
	for origin, want := range map[launcher.Origin]struct {
		basis finding.Basis
		says  string
	}{
		launcher.Measured:  {finding.OnMeasured, "Recorded: at most 105 dB(C)"},
		launcher.Unstated:  {finding.OnModel, "is not marked as measured"},
		launcher.Label:     {finding.OnModel, "no label knows this launcher"},
		launcher.Estimated: {finding.OnModel, "is a guess"},
		launcher.Template:  {finding.OnModel, "is a guess"},
	} {
		stated := loud(112, 108)
		stated.Sound.Recorded = &sound.Recording{Origin: origin, Level: 101, High: 105, Model: stated.Sound.Near.Levels}
		v := Of(stated, finding.SoundAtPeak)
		assert.Equal(t, want.basis, v.Basis, origin)
		assert.Contains(t, v.Why.String(), want.says, origin)
	}

	blind := loud(100, 90)
	blind.Sound, blind.NoStart = nil, finding.Words("no pressure is known")
	v = Of(blind, finding.SoundAtPeak)
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Contains(t, v.Why.String(), "no pressure is known")
}

// A pump that is stated to be loud warns of its steady noise: from 85 dB(A) beside it in words, from 100 dB(A) at 1 m on only behind
// ear defenders, which a recording of shots does not stand for.
func TestSteadyNoiseOfAPump(t *testing.T) {
	for level, c := range map[float64]struct {
		want finding.Status
		told bool
	}{78: {finding.Pass, false}, 80: {finding.Pass, true}, 99.9: {finding.Pass, true}, 100: {finding.Conditional, true}} {
		a := loud(100, 90)
		a.Launcher.Supply.NoiseLevel = launcher.Band{Set: true, Nominal: level, Low: level, High: level, Line: 3}
		v := Of(a, finding.SoundAtPeak)
		assert.Equal(t, c.want, v.Status, "%g dB(A)", level)
		if c.told {
			assert.Contains(t, v.Why.String(), "an ear has a day's share after", "%g dB(A)", level)
		} else {
			assert.NotContains(t, v.Why.String(), "day's share", "%g dB(A)", level)
		}
		if c.want == finding.Conditional {
			assert.Contains(t, v.Condition.String(), "near the pump wears ear defenders")
			assert.Equal(t, []string{finding.ItemHearing}, v.Items)
		}
	}
	a := loud(above(135), 90)
	a.Launcher.Supply.NoiseLevel = launcher.Band{Set: true, Nominal: 110, Low: 110, High: 110, Line: 3}
	assert.Equal(t, finding.Fail, Of(a, finding.SoundAtPeak).Status, "what fails stays so")
}

// What lowers it most is named, and the next best where that is a distance: a rider's seat is where it is.
func TestWhatMakesItQuieter(t *testing.T) {
	a := loud(130, 100)
	a.Sound.Changes = []sound.Change{{What: finding.Words("every ear further"), Distance: true, Upper: 124},
		{What: finding.Words("a slower valve"), Upper: 126}}
	assert.Equal(t, "What lowers it most, of what was tried: every ear further, to 124 dB(C); at this distance a slower valve, to 126 dB(C). "+
		"Change the design so and check it again.", Of(a, finding.SoundAtPeak).Advice.String())
	a.Sound.Changes = a.Sound.Changes[1:]
	assert.NotContains(t, Of(a, finding.SoundAtPeak).Advice.String(), "at this distance")
	assert.Contains(t, Of(a, finding.SoundAtPeak).Why.String(), "event.peak_level", "how to narrow it")
}
