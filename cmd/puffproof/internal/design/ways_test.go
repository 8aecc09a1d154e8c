package design

import (
	"bytes"
	"math"
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
	require.Len(t, l.Paths, 7)
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

// A quick-exhaust valve is a check valve from inlet to outlet, and an exhaust that its
// inlet holds shut.
func TestQuickExhaustIsTwoPaths(t *testing.T) {
	const quick = `[volumes.line]
volume = "20 mL ± 5 mL"
[paths.charge]
from = "dose"
to = "line"
kind = "orifice"
orifice = "1 mm"
[paths.quick]
from = "line"
to = "tank"
kind = "quick_exhaust"
orifice = "4 mm ± 0.1 mm"
cracking_pressure = "0.04 bar ± 0.02 bar"
`
	data := func(more string) []byte { return append(demo(t, "whale.toml"), quick+more...) }
	l := read(t, data(`seat_share = "0.3 ± 0.1"`+"\n"+`min_differential = "0.02 bar ± 0.01 bar"`+"\n"+
		`exhaust = { orifice = "6 mm ± 0.1 mm", points = "away" }`))
	i := l.PathIndex("quick")
	inlet, exhaust := l.Paths[i], l.Paths[l.OtherWay(i)]
	require.Equal(t, pneumatics.Check, inlet.Kind)
	require.InEpsilon(t, 4e3, inlet.CrackingPressure.Nominal, 1e-12)
	require.Equal(t, pneumatics.QuickExhaust, exhaust.Kind)
	require.Equal(t, "tank", exhaust.From)
	require.Equal(t, "atmosphere", exhaust.To)
	c := new(pneumatics.Circuit)
	l.Fill(c)
	b := c.Paths[l.PathIndex("quick.exhaust")].Balance
	require.Equal(t, l.Node("line"), b.Pilot)
	require.InEpsilon(t, 0.3, b.SeatShare, 1e-12)
	require.InEpsilon(t, 0.7*2e3, b.Spring, 1e-12)

	l = read(t, data(""))
	exhaust = l.Paths[l.PathIndex("quick.exhaust")]
	require.InEpsilon(t, math.Sqrt(0.5)*3.9e-3, exhaust.Flow.Value.Low, 1e-9, "half of the area")
	require.InEpsilon(t, math.Sqrt(3)*4.1e-3, exhaust.Flow.Value.High, 1e-9, "three times the area")
	require.Equal(t, [2]float64{0.1, 0.8}, [2]float64{exhaust.SeatShare.Low, exhaust.SeatShare.High})
	require.Equal(t, [2]float64{0, 3e4}, [2]float64{exhaust.OpensAt.Low, exhaust.OpensAt.High})

	for _, c := range []struct{ table, want string }{
		{`exhaust = { to = "dose", orifice = "6 mm" }`, "empties into the open or into the barrel"},
		{`exhaust = { to = "barrel" }`, "has no flow figure"},
		{`exhaust = { orifice = "6 mm", opening_time = "10 ms" }`, `opening_time with kind "three_way"`},
		{`unpowered = "closed"`, "does not belong to a path of kind \"quick_exhaust\""},
	} {
		_, problems := Read("test.toml", data(c.table))
		require.Contains(t, list(problems), c.want)
	}
}

// A diaphragm valve is a valve of the states whose diaphragm may lift at any pressure up to
// what its data sheet promises.
func TestDiaphragmValve(t *testing.T) {
	const fire = `[paths.fire]
from = "dose"
to = "barrel"
kind = "diaphragm"
Cv = "2.0 ± 10 %"
open_in = ["firing"]
unpowered = "closed"
`
	l := read(t, withFire(t, fire+`min_differential = "0.2 bar ± 0.05 bar"`))
	p := l.Paths[1]
	require.Equal(t, pneumatics.Valve, p.Kind)
	require.True(t, p.Diaphragm())
	require.InDeltaSlice(t, []float64{0, 1e4, 2.5e4}, []float64{p.OpensAt.Low, p.OpensAt.Nominal, p.OpensAt.High}, 1e-9)
	require.InDeltaSlice(t, []float64{0, 4e4, 1e5}, []float64{p.FullAt.Low, p.FullAt.Nominal, p.FullAt.High}, 1e-9)
	require.InDelta(t, 0.15, p.OpeningTime.High, 1e-12, "that of a piloted valve")
	c := new(pneumatics.Circuit)
	l.Fill(c)
	require.Equal(t, pneumatics.Atmosphere, c.Paths[1].Balance.Pilot)
	require.InEpsilon(t, 0.6*1e4, c.Paths[1].Balance.Spring, 1e-9)
	require.InEpsilon(t, 4e4-0.6*1e4, c.Paths[1].Balance.Span, 1e-9)

	l = read(t, withFire(t, fire+"pilot_vents = \"outlet\"\n"))
	require.InEpsilon(t, 5e4, l.Paths[1].MinDifferential.High, 1e-12, "not stated: that of a piloted valve")
	l.Fill(c)
	require.Equal(t, pneumatics.BarrelNode, c.Paths[1].Balance.Pilot)

	hand := strings.Replace(fire, `unpowered = "closed"`, "unpowered = \"stays\"\ndrive = \"hand\"", 1)
	require.Equal(t, pneumatics.HandValve, read(t, withFire(t, hand)).Paths[1].Kind)
	_, problems := Read("test.toml", withFire(t, fire+"drive = \"direct\"\n"))
	require.Contains(t, list(problems), `a coil that lifts the seal itself is in a "valve"`)
}
