package commission

import (
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
)

// narrow gives a step the band that this launcher's assessment expects, where its item asks for a wider one.
func narrow(in Input, s *Step) {
	defer func() {
		s.Expect = s.Expect.Inward(s.Band, &finding.Expected{Unit: finding.InMetrePerSecond, High: s.Stop})
	}()
	switch s.ID {
	case finding.ItemShotsWeak:
		shoots(in, s, 0)
	case finding.ItemShotsMiddle:
		shoots(in, s, 1)
	case finding.ItemShots:
		shoots(in, s, 2)
	}
}

// shoots expects of shots the speeds of the plan at its n-th pressure.
func shoots(in Input, s *Step, n int) {
	if in.Plan == nil || len(in.Plan.Refused) != 0 {
		return
	}
	at, ok := measure.PlanStep(n, len(in.Plan.Pressures))
	if !ok {
		return
	}
	p := &in.Plan.Pressures[at]
	if !(p.High > 0) {
		return
	}
	s.Stop = p.Stop
	s.Band = &finding.Expected{Unit: finding.InMetrePerSecond, Low: p.Low, High: p.High, Least: 2, Times: measure.LeastShots}
	s.Asks = checklist.ShotPressure(p.Gauge)
	slowest := finding.Say("%s", finding.Speed(p.Low))
	if p.Low == 0 {
		slowest = finding.Words("a stall")
	}
	s.Expect = finding.Say("%d shots or more from %s: about %s, between %s and %s over the tolerances; a shot faster than %s ends the day",
		p.Shots, finding.Bar(p.Gauge), finding.Speed(p.Nominal), slowest, finding.Speed(p.High), finding.Speed(p.Stop))
}
