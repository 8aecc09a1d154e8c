package commission

import (
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
)

// Judged is what comes of a reading.
type Judged = checklist.Judged

// Judge holds an answer to a step against its item, against the band of this launcher, and a series of readings (log; nil:
// none) against the whole course. The error is as of stopwatch.Judge.
func (r *Run) Judge(s *Step, c *finding.Confirmation, log *vent.Log) (Judged, error) {
	if found, ok := checklist.SeriesOf(c); ok && log == nil && checklist.Logged(s.ID) {
		log = &found
	}
	if log != nil {
		return checklist.JudgeSeries(&s.Item, c, log, r.in.Launcher, r.in.Day)
	}
	outcome, why := finding.Judge(&s.Item, c, r.in.Day)
	if outcome == finding.Closes && s.Band != nil && s.Band != s.Figure {
		outcome, why = s.Band.Judge(c)
	}
	// a shot that is too fast is told, whatever the answer leaves out
	if said := outsideOf(s.Band, c); len(said) != 0 && len(s.Contradicted(c)) == 0 &&
		(outcome == finding.Failing || outcome == finding.Unusable && s.Stop > 0) {
		outcome, why = finding.Failing, said
	}
	if s.Stop > 0 && outcome != finding.Void {
		for _, f := range c.Figures {
			if f.Unit == finding.InMetrePerSecond && f.Value > s.Stop {
				outcome, why = finding.Failing, finding.Say("%s is faster than the stop figure of %s: the day ends here",
					finding.Speed(f.Value), finding.Speed(s.Stop))
			}
		}
	}
	return checklist.Conclude(outcome, why, c.Value), nil
}

// outsideOf names the figure that lies outside of a band; nil: none does.
func outsideOf(b *finding.Expected, c *finding.Confirmation) finding.Text {
	for e := b; e != nil; e = e.Also {
		for _, f := range c.Figures {
			one := finding.Confirmation{Figures: []finding.Figure{f}}
			alone := finding.Expected{Unit: e.Unit, Low: e.Low, High: e.High}
			unit, known := shownIn(e.Unit)
			if outcome, _ := alone.Judge(&one); f.Unit != e.Unit || outcome == finding.Closes || !known {
				continue
			}
			if f.Value > e.High {
				return finding.Say("%s is more than the %s at most that are expected", unit(f.Value), unit(e.High))
			}
			return finding.Say("%s is less than the %s at least that are expected", unit(f.Value), unit(e.Low))
		}
	}
	return nil
}

// shownIn shows a figure of an answer in a text; false: none of that quantity is shown.
func shownIn(q finding.Quantity) (func(float64) finding.Shown, bool) {
	switch q {
	case finding.InPascalGauge:
		return finding.Bar3, true
	case finding.InMetre:
		return finding.Millimetre, true
	case finding.InSecond:
		return func(v float64) finding.Shown { return finding.Second(v).With(3) }, true
	case finding.InMetrePerSecond:
		return finding.Speed, true
	case finding.InJoule:
		return finding.Joule, true
	case finding.InNewton:
		return finding.Newton, true
	}
	return nil, false
}
