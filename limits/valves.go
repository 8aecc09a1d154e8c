package limits

import (
	"fmt"
	"strings"

	"puffproof/pneumatics"
)

// valves judges valve.differential: does the firing valve open at the lowest
// working pressure.
func (j *judge) valves() {
	v := j.newVerdict("valve.differential", "Lowest pressure for the firing valve", InPascalGauge)
	v.Source, v.Basis = "the valve's data sheet as stated in the design", OnData
	defer func() { j.add(v) }()
	var need Band
	for i := range j.Launcher.Paths {
		p := &j.Launcher.Paths[i]
		if p.OpenIn.Has(pneumatics.Firing) && p.MinDifferential.Set && (!need.Set || p.MinDifferential.High > need.High) {
			need = p.MinDifferential
		}
	}
	if !need.Set {
		v.notApplicable("no firing valve is declared as piloted and none states a least differential")
		return
	}
	low := 0.0
	if j.Launcher.Switch != nil && j.Launcher.Switch.CutIn.Set {
		low = j.Launcher.Switch.CutIn.Low
	}
	v.judgeLower(low, need.High)
	if v.Status == Pass {
		return
	}
	why := fmt.Sprintf("below %s the valve may stay shut or open slowly; the launcher can be fired from %s", bar(need.High), bar(low))
	if need.Assumed {
		v.unknown(why + "; the figure is assumed: read it off the data sheet (min_differential)")
		return
	}
	v.Why = why
	v.Advice = "A direct-acting valve, or a higher cut-in."
}

// storedEnergy judges stored.energy: what a burst would let loose.
func (j *judge) storedEnergy() {
	v := j.newVerdict("stored.energy", "Energy stored in all vessels", InJoule)
	limit, pv := BenchmarkOf(HighStoredEnergy), BenchmarkOf(SoundPracticePV)
	v.Source = joinNotes(limit.Source(), pv.Source())
	v.Caveat = "isentropic expansion (Baker); a burst can do less or, by Brode's figure, more"
	defer func() { j.add(v) }()
	pressures := j.Launcher.vesselPressures()
	var total, product float64
	var worst string
	for i, p := range pressures {
		if p.fault != p.fault {
			v.unknown("missing: " + p.why)
			return
		}
		volume := j.Launcher.Volumes[i].Volume.High
		total += Stored(volume, p.fault, j.Launcher.Ambient.Pressure.Low, j.Launcher.gas().Gamma).Isentropic
		if p.fault*volume > product {
			product, worst = p.fault*volume, j.Launcher.Volumes[i].Name
		}
	}
	times := fmt.Sprintf("pressure times volume is at most %s bar L (%s)", significant(product/barLitre, 2), worst)
	rule := fmt.Sprintf("sound engineering practice goes up to %s bar L = %s", significant(pv.Value/barLitre, 2), joule(pv.Value))
	if product/pv.Value > total/limit.Value { // of two limits the nearer one is shown
		v.judge(product, pv.Value)
		v.Why = times + "; " + rule + "; stored by Baker's figure: " + joule(total)
	} else {
		v.judge(total, limit.Value)
		v.Why = times + "; " + rule
	}
	if v.Status == Fail {
		v.Advice = "Beyond home practice: smaller vessels or less pressure, or a licensed engineer."
	}
}

// barLitre is one bar times one litre [J].
const barLitre = 100

// assumptions lists every band the design did not state.
func (j *judge) assumptions() {
	for _, b := range j.Launcher.Bands() {
		if b.Set && b.Assumed {
			j.report.Assumed = append(j.report.Assumed, *b)
		}
	}
}

// Bands lists every band of the design in the order of the design file.
func (l *Launcher) Bands() []*Band {
	a := &l.Ambient
	out := []*Band{&a.Pressure, &a.Temperature, &a.Hottest, &a.Coldest}
	for i := range l.Volumes {
		v := &l.Volumes[i]
		out = append(out, &v.Volume, &v.RatedPressure, &v.InnerDiameter)
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		f := &p.Flow
		out = append(out, &f.Value, &f.CriticalRatio, &f.PressureDropRatio, &f.DischargeCoefficient)
		if h := p.Hose; h != nil {
			out = append(out, &h.Bore, &h.Length, &h.Conductance)
		}
		out = append(out, &p.OpeningTime, &p.ClosingTime, &p.Pulse, &p.MinDifferential, &p.SetPressure,
			&p.FullFlowPressure, &p.ReseatPressure, &p.CrackingPressure, &p.Droop, &p.Creep)
	}
	if s := l.Supply; s != nil {
		out = append(out, &s.FreeAir, &s.DeadHead)
	}
	if s := l.Switch; s != nil {
		out = append(out, &s.CutOut, &s.CutIn, &s.Differential, &s.ReactionTime, &s.GaugeError, &s.AdjustableTo)
	}
	b, p := &l.Barrel, &l.Projectile
	return append(out, &b.Bore, &b.Travel, &b.TubeOuterDiameter, &b.TubeInnerDiameter, &b.Engagement, &b.DeadVolume,
		&b.RatedPressure, &p.Mass, &p.Diameter, &p.InsideDiameter, &p.ContactDiameter, &p.Breakaway, &p.Restart,
		&p.Sliding, &p.Clearance, &p.Drag)
}

// assumedAdvice names the assumed bands that bear on the shot.
func (j *judge) assumedAdvice() string {
	var keys []string
	for _, b := range shotBands(j.Launcher) {
		if b != nil && b.Set && b.Assumed && b.Width() > 0 {
			keys = append(keys, b.Key)
		}
	}
	if len(keys) == 0 {
		return ""
	}
	if len(keys) > 4 {
		keys = append(keys[:4], fmt.Sprintf("%d more", len(keys)-4))
	}
	return "Or measure what is only assumed: " + strings.Join(keys, ", ") + "."
}
