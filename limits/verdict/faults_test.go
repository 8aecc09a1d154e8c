package verdict

import (
	"math"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBarriersWhileLoading(t *testing.T) {
	second := launcher.PathSpec{Name: "shut-off", From: "tank", To: "dose", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed),
		Flow: launcher.FlowSpec{Form: launcher.SonicConductance, Value: launcher.Exact("", 1e-8), CriticalRatio: launcher.Exact("", 0.3)}}
	twoValves := func(l *launcher.Launcher) {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 1e-3)})
		l.Paths[0].From = "dose"
		l.Paths = append(l.Paths, second)
	}
	for _, c := range []struct {
		name   string
		change func(l *launcher.Launcher)
		value  float64
		want   finding.Status
	}{
		{"one valve, tank charged", func(*launcher.Launcher) {}, 1, finding.Fail},
		{"one valve, tank vented", func(l *launcher.Launcher) { l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }, 2, finding.Pass},
		{"two valves, no vent: the dose may hold air", twoValves, 1, finding.Fail},
		{"two valves and a vent on the dose", func(l *launcher.Launcher) {
			twoValves(l)
			vent := l.Paths[1]
			vent.Name, vent.From, vent.OpenIn = "dose vent", "dose", pneumatics.SetOf(pneumatics.Off, pneumatics.Loading)
			l.Paths = append(l.Paths, vent)
		}, 3, finding.Pass},
		{"a check valve towards the dose is no barrier", func(l *launcher.Launcher) {
			twoValves(l)
			l.Paths[2].Kind = pneumatics.Check
		}, 1, finding.Fail},
		{"firing valve open while loading", func(l *launcher.Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }, 0, finding.Fail},
		// 12 L/min through a hole of 1.2 mm: the vent does not keep it empty (orifice
		// flow: about 0.4 bar).
		{"the supply runs while loading", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		}, 1, finding.Fail},
		{"the supply runs while loading against a wide vent", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = sample.Orifice(4e-3, 0.75)
			l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		}, 2, finding.Pass},
		{"a vent that a piloted valve keeps shut", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].MinDifferential = launcher.Exact("", 0.2e5)
		}, 1, finding.Fail},
		{"a vent too narrow for an hour", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = sample.Orifice(0.05e-3, 0.75)
		}, 1, finding.Fail},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := sample.VentedTank()
			c.change(l)
			target, _ := vent.Target(l, math.Inf(1))
			v := loadingEmpty(&assessment.Assessment{Launcher: l, Loading: vent.LoadingOf(l, target)})
			assert.Equal(t, c.want, v.Status, v.Why.String())
			require.NotNil(t, v.Value)
			assert.InDelta(t, c.value, *v.Value, 0, v.Why.String())
		})
	}
}
