package measure

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// shotModel computes the nominal shot of a launcher whose nominal values are
// moved between calls. It reuses its space: one per goroutine.
type shotModel struct {
	l     *launcher.Launcher
	c     pneumatics.Circuit
	sc    pneumatics.Scenario
	sim   pneumatics.Sim
	gauge []float64
}

func NewShotModel(l *launcher.Launcher) *shotModel { return &shotModel{l: l} }

// Shot gives final speed and exit time of a shot from gauge [Pa] at the stated
// travel. temperature [K]; 0: the design's. A shot that does not leave has speed
// 0 and an infinite exit time.
func (m *shotModel) Shot(gauge, temperature float64) (speed, exit float64) {
	m.l.FillShot(&m.c)
	if temperature > 0 {
		m.c.Ambient.Temperature = temperature
	}
	m.gauge = m.l.StartPressures(&m.c, gauge, m.gauge)
	volumes := m.sc.Volumes[:0]
	for _, g := range m.gauge {
		volumes = append(volumes, pneumatics.Condition{Pressure: m.c.Ambient.Pressure + g, Temperature: m.c.Ambient.Temperature})
	}
	m.sc = pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Parts: m.l.Model.Parts, Volumes: volumes}
	r := m.sim.Run(&m.c, &m.sc, pneumatics.Options{Tolerance: 1e-6, NoPeak: true})
	if r.Outcome != pneumatics.Left || r.Reason != "" {
		return 0, math.Inf(1)
	}
	return r.FinalSpeed, r.ExitTime
}
