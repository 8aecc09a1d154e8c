package vent

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Filled is where the volumes come to rest while a supply that nothing but its dead head stops fills them: what it
// delivers and what leaves by paths that are open while charging are in balance then [Pa gauge].
type Filled struct {
	Low, Nominal, High []float64 // weak supply and wide paths, as stated, strong supply and narrow paths
}

// FilledOf finds it; false for any other filling, and where no delivery is stated. The error is a WithheldError.
func FilledOf(l *launcher.Launcher) (f Filled, ok bool, err error) {
	if l.Supply == nil || l.Working().By != launcher.StopDeadHead || !l.Supply.DeliveryKnown() || !l.Supply.FreeAir.Set {
		return f, false, nil
	}
	for _, one := range []struct {
		end    End
		supply func(*launcher.SupplySpec)
		into   *[]float64
	}{{FastEnd, (*launcher.SupplySpec).Weakest, &f.Low}, {NominalEnd, func(*launcher.SupplySpec) {}, &f.Nominal},
		{SlowEnd, (*launcher.SupplySpec).Strongest, &f.High}} {
		w := AtEnd(l, one.end)
		one.supply(w.Supply)
		e := Emptier{Start: make([]float64, len(l.Volumes))}
		s := e.entering(w, Scenario{Shutdown, pneumatics.Charging}, one.end, pneumatics.Charging)
		s.scenario.SupplyRuns = true
		r, err := e.Run(s, warmAir, loadingLasts, 0)
		if err != nil {
			return f, false, err
		}
		*one.into = s.gauges(r)
	}
	return f, true, nil
}

// Sensed is the pressure of the sensed volume as a band [Pa gauge].
func (f *Filled) Sensed(l *launcher.Launcher) launcher.Band {
	i := l.Node(l.Sensed())
	return launcher.Band{Set: true, Low: f.Low[i], Nominal: f.Nominal[i], High: f.High[i]}
}
