package commission

import (
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// narrow gives a step the band that this launcher's assessment expects, where its item asks for a wider one.
func narrow(in Input, s *Step) {
	defer func() {
		s.Expect = s.Expect.Inward(s.Band, &finding.Expected{Unit: finding.InMetrePerSecond, High: s.Stop})
	}()
	switch s.ID {
	case finding.ItemReliefTest:
		lifts(in, s)
	case finding.ItemStaysEmpty:
		s.Expect = finding.Say("%s or less on every gauge; %s", finding.Bar(in.Emptying.Target), s.Expect)
	case finding.ItemLeakDown:
		holds(in, s)
	case finding.ItemShotsWeak:
		shoots(in, s, 0)
	case finding.ItemShotsMiddle:
		shoots(in, s, 1)
	case finding.ItemShots:
		shoots(in, s, 2)
	}
}

// lifts expects of a relief valve that it begins to hiss within its set pressure's band. Of several the readings lie between
// the lowest and the highest.
func lifts(in Input, s *Step) {
	band := finding.FigureBetween(finding.InPascalGauge, math.Inf(1), math.Inf(-1))
	for i := range in.Launcher.Paths {
		if p := &in.Launcher.Paths[i]; p.Kind == pneumatics.Relief {
			band.Low, band.High = min(band.Low, p.SetPressure.Low), max(band.High, p.SetPressure.High)
		}
	}
	if band.Low <= band.High {
		s.Band = band
	}
}

// holds expects of a sealed launcher that the reading stands once it has cooled, to what the gauge can tell.
func holds(in Input, s *Step) {
	volume := vent.LogVolume(in.Launcher, vent.Log{})
	i := slices.IndexFunc(in.Emptying.Leaks, func(t vent.LeakTest) bool { return t.Volume == volume })
	if i < 0 {
		return
	}
	t := in.Emptying.Leaks[i]
	if t.Opens != "" || math.IsNaN(t.May) || math.IsInf(t.Needed, 1) {
		return
	}
	s.Band, s.lasts = finding.FigureBetween(finding.InPascalGauge, 0, t.May), t.Needed-t.Settled
	s.Takes = t.Needed
	s.Expect = finding.Say("%s; from %s to %s it falls by %s at most", s.Expect, vent.Minutes(t.Settled), vent.Minutes(t.Needed),
		finding.Bar(t.May))
	s.Read = finding.Say("how far the gauge fell between %s and %s, as \"%s from %s to %s\"; or %s", vent.Minutes(t.Settled),
		vent.Minutes(t.Needed), finding.Bars.Of(1e3, 1), vent.Minutes(t.Settled), vent.Minutes(t.Needed), s.Read)
}

// shotPressure is how far from that of the plan the pressure of shots may be [-] (own rule of this project, no source).
const shotPressure = 0.05

// shoots expects of shots the speeds of the plan at its n-th pressure.
func shoots(in Input, s *Step, n int) {
	if in.Plan == nil || len(in.Plan.Refused) != 0 || n >= len(in.Plan.Pressures) {
		return
	}
	p := &in.Plan.Pressures[n]
	if !(p.High > 0) {
		return
	}
	s.Stop = p.Stop
	s.Band = &finding.Expected{Unit: finding.InMetrePerSecond, Low: p.Low, High: p.High, Least: 2, // the slowest and the fastest
		Also: finding.FigureBetween(finding.InPascalGauge, (1-shotPressure)*p.Gauge, (1+shotPressure)*p.Gauge)}
	slowest := finding.Say("%s", finding.Speed(p.Low))
	if p.Low == 0 {
		slowest = finding.Words("a stall")
	}
	s.Expect = finding.Say("%d shots or more from %s: about %s, between %s and %s over the tolerances; a shot faster than %s ends the day",
		p.Shots, finding.Bar(p.Gauge), finding.Speed(p.Nominal), slowest, finding.Speed(p.High), finding.Speed(p.Stop))
}
