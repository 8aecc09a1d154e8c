package measure

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// Careless files are caught by a sentence.
func TestCarelessReadings(t *testing.T) {
	l := sample.Plain(sample.Measured)
	texts := func(shots ...Shot) (string, *Findings) {
		found, err := Evaluate(context.Background(), l, &ShotLog{Shots: shots})
		require.NoError(t, err)
		s := ""
		for _, r := range found.Remarks {
			s += r.Text.String() + "\n"
		}
		return s, found
	}
	s, found := texts(shotsAt(9*sample.Bars, 2, 8, 8.1)...)
	assert.Contains(t, s, "9 psi are 0.62 bar")
	assert.NotEmpty(t, found.Severe())

	// A video of 0.5 m at the model's speed, filmed at 240 a second.
	v, _ := NewShotModel(l.Clone()).Shot(0.9*sample.Bars, 0)
	k := Decay(l, 0).Value
	frames := 240 * math.Expm1(k*0.5) / (k * v)
	video := func(rate, n float64) Shot {
		return Shot{Line: 2, Gauge: 0.9 * sample.Bars, Method: Video, FrameRate: rate, Frames: n, Span: 0.5}
	}
	s, found = texts(video(30, math.Round(frames)), video(30, math.Round(frames)))
	assert.Contains(t, s, "taken at 240 frames a second and played back at 30")
	assert.Contains(t, found.Groups[0].Faults[len(found.Groups[0].Faults)-1].String(), "in doubt")
	s, _ = texts(video(240, frames+1))
	assert.Contains(t, s, "counted from one")
	s, _ = texts(video(240, frames))
	assert.Empty(t, s)
}

// Playback at half of the rate is caught at every pair of common rates; too many
// pressures are refused at once.
func TestHalfRateAndManyPressures(t *testing.T) {
	for _, rate := range []float64{30, 60, 120, 240} {
		s := &ShotSpeed{Shot: Shot{Line: 2, FrameRate: rate, Frames: 40}}
		got := videoRemark(s, 2.5, 5, "the model gives")
		require.Len(t, got, 1)
		assert.Contains(t, got[0].Text.String(), "slow-motion")
	}
	l := sample.Plain(sample.Measured)
	var shots []Shot
	for i := range mostGroups + 1 {
		shots = append(shots, Shot{Line: i + 2, Gauge: (0.05 + 0.0201*float64(i)) * sample.Bars, Method: Chronograph, Speed: 5})
	}
	found, err := Evaluate(context.Background(), l, &ShotLog{Shots: shots})
	require.NoError(t, err)
	require.Len(t, found.Groups, mostGroups+1)
	require.NotEmpty(t, found.Severe())
	assert.Contains(t, found.Severe()[0].Text.String(), "different pressures")
	assert.Equal(t, 1, found.Groups[0].Shots)
	found.Groups = found.Groups[1:]
	for _, r := range plausible(l, found, &ShotLog{}) {
		assert.NotContains(t, r.Text.String(), "different pressures", "as many as are taken")
	}
}

// A pressure that neither gauge nor supply can show refuses the file; one far above the
// working pressure is asked about.
func TestPressureThatCannotBe(t *testing.T) {
	l := sample.Plain(sample.CutOut(0.3*sample.Bars), func(l *launcher.Launcher) {
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", 1*sample.Bars)}}
		l.Supply.DeadHead = launcher.Exact("", 0.8*sample.Bars)
	})
	for gauge, want := range map[float64]string{0.3: "", 0.44: "", 0.5: "far above the highest normal pressure", 0.79: "far above",
		0.81: "more than the supply can give", 1.01: "above the gauge's range"} {
		r, bad := pressureRemark(l, 7, gauge*sample.Bars)
		assert.Equal(t, want != "", bad, "%v bar", gauge)
		assert.Contains(t, r.Text.String(), want)
		assert.Equal(t, gauge > 0.8, r.Severe, "%v bar", gauge)
	}
}
