package pneumatics

import (
	"testing"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// rocketOnHose is an invented launcher as many are built: a 2 L tank, a solenoid
// valve of Cv 0.8, an 8 mm hose, a 16 mm tube with a hollow foam rocket over it.
func rocketOnHose(length float64, after bool) (*Circuit, *Scenario) {
	const mass, travel = 8e-3, 0.2
	inside, tube := 17e-3, 16e-3
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature},
		Volumes: []Volume{{Name: "tank", Volume: 2e-3}},
		Paths: []Path{{Name: "fire", From: 0, To: BarrelNode, Kind: Valve, Flow: flow.FromCv(0.8, 0.7, 0.35), OpenIn: SetOf(Firing),
			OpeningTime: 0.02}},
		Barrel: Barrel{Present: true, Fit: OverTube, Area: discArea(inside), ExitArea: discArea(14e-3),
			LeakArea: discArea(inside) - discArea(tube), LeakCd: 0.6, DeadVolume: discArea(14e-3) * (travel + 0.05),
			Travel: travel, Mass: mass, Breakaway: 0.5, Sliding: 0.2, JetFactor: 2}}
	line := []line.Piece{{Bore: 8e-3, Length: length}}
	if after {
		c.Paths[0].After = line
	} else {
		c.Paths[0].Before = line
	}
	return c, &Scenario{From: Armed, To: Firing, Volumes: []Condition{{standardAtmosphere + 1e5, roomTemperature}}}
}

// BenchmarkShotWithLine is a shot with its hose as a line against the same shot with
// the hose a resistance, for hoses of several lengths on either side of the valve.
func BenchmarkShotWithLine(b *testing.B) {
	for _, k := range []struct {
		name   string
		length float64
		after  bool
	}{{"0.3 m after", 0.3, true}, {"1.2 m after", 1.2, true}, {"1.2 m before", 1.2, false}, {"3 m after", 3, true}, {"5 m after", 5, true}} {
		c, sc := rocketOnHose(k.length, k.after)
		benchLine(b, k.name, c, sc)
	}
	c, sc := wideValve()
	benchLine(b, "wide valve, 1.2 m after", c, sc)
}

// wideValve is a launcher with two stiff places: a valve wider than its hose, and a small tube
// that empties at once when the rocket has left it. Invented.
func wideValve() (*Circuit, *Scenario) {
	c, sc := rocketOnHose(1.2, true)
	c.Volumes[0].Volume = 0.4e-3
	c.Paths[0].Flow = flow.FromKv(1.15, 0.8, 0.5)
	c.Barrel.DeadVolume, c.Barrel.Travel = 14e-6, 0.055
	c.Barrel.Area, c.Barrel.ExitArea = discArea(16.3e-3), discArea(13e-3)
	c.Barrel.LeakArea = discArea(16.3e-3) - discArea(16e-3)
	sc.Volumes[0].Pressure = standardAtmosphere + 0.28e5
	return c, sc
}

func benchLine(b *testing.B, name string, c *Circuit, sc *Scenario) {
	for _, steady := range []bool{true, false} {
		as := "/line"
		if steady {
			as = "/resistance"
		}
		b.Run(name+as, func(b *testing.B) {
			sc.Parts.SteadyLines = steady
			var s Sim
			b.ReportAllocs()
			var r *Result
			for b.Loop() {
				r = s.Run(c, sc, Options{Tolerance: achieved, NoPeak: true})
			}
			b.ReportMetric(float64(r.Evaluations), "rhs/op")
			b.ReportMetric(float64(len(s.e.rows.Cells)), "cells")
		})
	}
}
