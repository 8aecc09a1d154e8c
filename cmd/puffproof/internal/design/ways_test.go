package design

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// withFire is the whale with another firing valve.
func withFire(t *testing.T, table string) []byte {
	t.Helper()
	whale := demo(t, "whale.toml")
	from, to := bytes.Index(whale, []byte("[paths.fire]")), bytes.Index(whale, []byte("[paths.dump_tank]"))
	return bytes.Join([][]byte{whale[:from], []byte(table), whale[to:]}, []byte("\n"))
}

const threeWayFire = `[paths.fire]
from = "dose"
to = "barrel"
kind = "three_way"
Cv = "2.0 ± 10 %"
open_in = ["firing"]
unpowered = "closed"
drive = "direct"
opening_time = "30 ms ± 10 ms"
closing_time = "40 ms ± 10 ms"
pulse = "150 ms ± 10 ms"
hose = { bore = "10 mm ± 0.2 mm", length = "0.4 m ± 0.02 m", side = "after" }
`

// One table, two paths: the second runs from the outlet to the exhaust, is open where
// the first is shut, goes the other way without power, and passes the outlet's hose,
// whose air is counted once.
func TestThreeWayValveIsTwoPaths(t *testing.T) {
	l := read(t, withFire(t, threeWayFire+`exhaust = { orifice = "3 mm ± 0.1 mm", points = "away" }`))
	require.Len(t, l.Paths, 6)
	fire, exhaust := l.Paths[1], l.Paths[2]
	require.Equal(t, launcher.ThreeWay, fire.Way)
	require.Equal(t, pneumatics.Valve, fire.Kind)
	require.Equal(t, 2, l.OtherWay(1))
	require.Equal(t, 1, l.OtherWay(2))
	require.Equal(t, -1, l.OtherWay(0))
	require.Equal(t, "fire.exhaust", exhaust.Name)
	require.Equal(t, launcher.ThreeWayExhaust, exhaust.Way)
	require.Equal(t, "barrel", exhaust.From)
	require.Equal(t, "atmosphere", exhaust.To)
	require.Equal(t, pneumatics.SetOf(pneumatics.Off, pneumatics.Charging, pneumatics.Armed, pneumatics.Loading), exhaust.OpenIn)
	require.Equal(t, pneumatics.Open, exhaust.Unpowered)
	require.Equal(t, "away", exhaust.Points)
	require.Equal(t, "paths.fire.exhaust.orifice", exhaust.Flow.Value.Key)
	require.InEpsilon(t, 3e-3, exhaust.Flow.Value.Nominal, 1e-12)
	require.Equal(t, [2]float64{0, 0.04}, [2]float64{exhaust.ClosingTime.Low, exhaust.ClosingTime.High}, "some time while the inlet opens")
	require.Equal(t, [2]float64{0, 0.05}, [2]float64{exhaust.OpeningTime.Low, exhaust.OpeningTime.High}, "some time while it shuts")
	require.True(t, exhaust.Hose.Shared)

	c := new(pneumatics.Circuit)
	l.Fill(c)
	require.InEpsilon(t, 40e-6+launcher.Circle(10e-3)*0.4, c.Barrel.DeadVolume, 1e-12)
	require.Zero(t, c.Paths[2].Pulse)
	require.InEpsilon(t, 0.15, c.Paths[2].Reopens, 1e-12)
	require.False(t, c.Paths[2].Hose.IsZero())
}

// An exhaust that is not stated passes a quarter of the valve's flow to all of it.
func TestThreeWayValveWithoutAnExhaustFigure(t *testing.T) {
	l := read(t, withFire(t, threeWayFire))
	f := l.Paths[2].Flow
	require.Equal(t, launcher.FlowCv, f.Form)
	require.InDeltaSlice(t, []float64{0.25 * 1.8, 0.7 * 2, 2.2}, []float64{f.Value.Low, f.Value.Nominal, f.Value.High}, 1e-12)
	require.True(t, f.Value.Assumed)
	require.Equal(t, "paths.fire.exhaust.Cv", f.Value.Key)
	require.Equal(t, "paths.fire.exhaust.critical_ratio", f.CriticalRatio.Key)
	require.Equal(t, "unknown", l.Paths[2].Points)
	seat := read(t, withFire(t, strings.Replace(threeWayFire, `Cv = "2.0 ± 10 %"`, `seat_bore = "8 mm ± 0.5 mm"`, 1)))
	require.InEpsilon(t, 0.5*7.5e-3, seat.Paths[2].Flow.Value.Low, 1e-12, "half the bore is a quarter of the area")
}

// By hand both ways are a hand valve's; a piloted one that is open at rest needs its
// least differential to reach the exhaust.
func TestThreeWayValveByHandAndPiloted(t *testing.T) {
	byHand := strings.NewReplacer(`unpowered = "closed"`, `unpowered = "stays"`, `drive = "direct"`, `drive = "hand"`)
	l := read(t, withFire(t, byHand.Replace(threeWayFire)))
	require.Equal(t, pneumatics.HandValve, l.Paths[1].Kind)
	require.Equal(t, pneumatics.HandValve, l.Paths[2].Kind)
	require.Equal(t, pneumatics.Stays, l.Paths[2].Unpowered)

	piloted := strings.NewReplacer(`unpowered = "closed"`, `unpowered = "open"`, `drive = "direct"`, `drive = "piloted"`)
	l = read(t, withFire(t, piloted.Replace(threeWayFire)))
	require.False(t, l.Paths[1].MinDifferential.Set)
	require.InEpsilon(t, 5e4, l.Paths[2].MinDifferential.High, 1e-12)
	require.Equal(t, pneumatics.Closed, l.Paths[2].Unpowered)
	l = read(t, withFire(t, strings.Replace(threeWayFire, `drive = "direct"`, `drive = "piloted"`, 1)))
	require.InEpsilon(t, 5e4, l.Paths[1].MinDifferential.High, 1e-12)
	require.False(t, l.Paths[2].MinDifferential.Set)
}

func TestThreeWayValveThatIsWrong(t *testing.T) {
	for _, c := range []struct{ name, table, want string }{
		{"no power for a hand", strings.Replace(threeWayFire, `drive = "direct"`, `drive = "hand"`, 1),
			"a valve that a person moves needs no power"},
		{"a hand on another kind", strings.NewReplacer("three_way", "valve", `drive = "direct"`, `drive = "hand"`).Replace(threeWayFire),
			`what a person moves is a "hand valve"`},
		{"outlet in the open", strings.Replace(threeWayFire, `to = "barrel"`, `to = "atmosphere"`, 1), "the outlet of a valve with an exhaust"},
		{"exhaust into the inlet", threeWayFire + `exhaust = { to = "dose" }`, "leads back to the inlet"},
		{"exhaust into the outlet", threeWayFire + `exhaust = { to = "barrel" }`, "leads back to the outlet"},
		{"exhaust into nowhere", threeWayFire + `exhaust = { to = "tonk" }`, `did you mean "tank"?`},
		{"two flows", threeWayFire + `exhaust = { orifice = "3 mm", Cv = "1" }`, "is a second flow figure"},
		{"an unknown key", threeWayFire + `exhaust = { orfice = "3 mm" }`, "did you mean orifice?"},
		{"an exhaust on a valve of two ports", strings.Replace(threeWayFire, "three_way", "valve", 1) + `exhaust = { orifice = "3 mm" }`,
			`exhaust with kind "three_way"`},
	} {
		_, problems := Read("test.toml", withFire(t, c.table))
		require.Contains(t, list(problems), c.want, c.name)
	}
}
