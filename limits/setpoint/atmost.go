package setpoint

import (
	"errors"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
)

// atMost judges the design with its relief valve set as high as the answer says, as check does once that is entered, and says what else
// has to change then.
func (s *solver) atMost() error {
	c, o := &s.chain, &s.out
	if !o.Works || o.ReliefSetMax == nil || c.relief == reliefNone || c.launcher.ReliefOnSupply() < 0 {
		return nil
	}
	w := c.launcher.Clone()
	MoveRelief(&w.Paths[w.ReliefOnSupply()], c.setMax)
	o.ReliefMaxNeeds = gaugeFor(w)
	var withheld *worst.WithheldError
	j, err := s.judgeStages(w, stagesFor(w), s.energy.hardest)
	switch {
	case errors.As(err, &withheld):
		o.ReliefMaxNeeds = finding.Notes(o.ReliefMaxNeeds, finding.Words("check would withhold its result"))
		return nil
	case err != nil:
		return err
	}
	for _, v := range s.failing(j) {
		if v.ID != finding.GaugeRange {
			o.ReliefMaxNeeds = finding.Notes(o.ReliefMaxNeeds, finding.Words("only once more than the settings is changed: ").And(failsWith(&v)))
		}
	}
	return nil
}

// gaugeFor says which gauges a launcher needs instead of its own for gauge.range to hold; "" none.
func gaugeFor(w *launcher.Launcher) (needs finding.Text) {
	for i := range w.Gauges {
		g := &w.Gauges[i]
		if least := verdict.LeastScale(w, g.On); g.Range.Set && least > g.Range.Low {
			needs = finding.Notes(needs, finding.Say("with a gauge on %s whose scale ends at %s or more (the design's: %s)", g.On,
				finding.WorstBar(least), finding.Bar(g.Range.Low)))
		}
	}
	return needs
}
