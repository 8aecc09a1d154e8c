package limits

import (
	"math"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBarriersWhileLoading(t *testing.T) {
	second := PathSpec{Name: "shut-off", From: "tank", To: "dose", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed),
		Flow: FlowSpec{Form: SonicConductance, Value: Exact("", 1e-8), CriticalRatio: Exact("", 0.3)}}
	twoValves := func(l *Launcher) {
		l.Volumes = append(l.Volumes, VolumeSpec{Name: "dose", Volume: Exact("", 1e-3)})
		l.Paths[0].From = "dose"
		l.Paths = append(l.Paths, second)
	}
	for _, c := range []struct {
		name   string
		change func(l *Launcher)
		value  float64
		want   Status
	}{
		{"one valve, tank charged", func(*Launcher) {}, 1, Fail},
		{"one valve, tank vented", func(l *Launcher) { l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }, 2, Pass},
		{"two valves, no vent: the dose may hold air", twoValves, 1, Fail},
		{"two valves and a vent on the dose", func(l *Launcher) {
			twoValves(l)
			vent := l.Paths[1]
			vent.Name, vent.From, vent.OpenIn = "dose vent", "dose", pneumatics.SetOf(pneumatics.Off, pneumatics.Loading)
			l.Paths = append(l.Paths, vent)
		}, 3, Pass},
		{"a check valve towards the dose is no barrier", func(l *Launcher) {
			twoValves(l)
			l.Paths[2].Kind = pneumatics.Check
		}, 1, Fail},
		{"firing valve open while loading", func(l *Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }, 0, Fail},
		// 12 L/min through a hole of 1.2 mm: the vent does not keep it empty (orifice
		// flow: about 0.4 bar).
		{"the supply runs while loading", func(l *Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		}, 1, Fail},
		{"the supply runs while loading against a wide vent", func(l *Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = orifice(4e-3, 0.75)
			l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		}, 2, Pass},
		{"a vent that a piloted valve keeps shut", func(l *Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].MinDifferential = Exact("", 0.2e5)
		}, 1, Fail},
		{"a vent too narrow for an hour", func(l *Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = orifice(0.05e-3, 0.75)
		}, 1, Fail},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := ventedTank()
			c.change(l)
			target, _ := l.ventTarget(math.Inf(1))
			v := loadingEmpty(&Assessment{Launcher: l, Loading: loadingOf(l, target)})
			assert.Equal(t, c.want, v.Status, v.Why)
			require.NotNil(t, v.Value)
			assert.InDelta(t, c.value, *v.Value, 0, v.Why)
		})
	}
}
