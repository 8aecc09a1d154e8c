package commission

import (
	"fmt"
	"math"
	"strings"

	"puffproof/limits/checklist"
	"puffproof/limits/finding"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// Judged is what comes of a reading.
type Judged struct {
	Outcome finding.Outcome
	Says    finding.Text // why it does not close its step, or what a series of readings shows; nil: nothing
	// Value is what the checklist gets to keep: the words as they were given; of a series what it shows; of what did not
	// pass that it did not.
	Value string
}

// Series takes the figures of an answer as times and pressures in turn, as a stopwatch and a gauge give them; a time that goes
// back begins another run. False: they are no such list.
func Series(figures []finding.Figure) (log vent.Log, ok bool) {
	const least = 3 // pairs: fewer are one reading with what belongs to it
	if len(figures)%2 != 0 || len(figures) < 2*least {
		return log, false
	}
	for i := 0; i < len(figures); i += 2 {
		t, p := figures[i], figures[i+1]
		if t.Unit != finding.InSecond || p.Unit != finding.InPascalGauge {
			return log, false
		}
		run := 0
		if n := len(log.Readings); n > 0 {
			last := log.Readings[n-1]
			if run = last.Run; t.Value < last.Time {
				run++
			}
		}
		log.Readings = append(log.Readings, vent.LogReading{Run: run, Time: t.Value, Gauge: p.Value})
	}
	return log, true
}

// Logged tells whether a step is answered by a series of readings too.
func Logged(id string) bool { return id == finding.ItemVentTest || id == finding.ItemLeakDown }

// Judge holds an answer to a step against its item, against the band of this launcher, and a series of readings (log; nil:
// none) against the whole course. The error is as of stopwatch.Judge.
func (r *Run) Judge(s *Step, c *finding.Confirmation, log *vent.Log) (Judged, error) {
	if found, ok := Series(c.Figures); ok && log == nil && len(c.Odd) == 0 && Logged(s.ID) {
		log = &found
	}
	if log != nil {
		return r.judgeSeries(s, c, log)
	}
	outcome, why := finding.Judge(&s.Item, c, r.in.Day)
	if outcome == finding.Closes && s.Band != nil {
		outcome, why = s.Band.Judge(c)
	}
	if said := outsideOf(s.Band, c); outcome == finding.Failing && len(said) != 0 && len(s.Contradicted(c)) == 0 {
		why = said
	}
	if short := s.tooShort(c); outcome == finding.Closes && len(short) != 0 {
		outcome, why = finding.Unusable, short
	}
	if outcome == finding.Closes && s.Figure == nil && finding.Telling(c.Value) < fewWords {
		outcome, why = finding.Unusable, finding.Say("its answer, %q, says too little: what was seen, so that who was not there can tell",
			strings.TrimSpace(c.Value))
	}
	if outcome == finding.Closes && s.Figure == nil && !finding.Affirms(s.ID, c.Value) {
		outcome, why = finding.Unusable, finding.Say("its answer, %q, does not say that it was as it should be", strings.TrimSpace(c.Value))
	}
	if s.Stop > 0 && outcome != finding.Unusable {
		for _, f := range c.Figures {
			if f.Unit == finding.InMetrePerSecond && f.Value > s.Stop {
				outcome, why = finding.Failing, finding.Say("%s is faster than the stop figure of %s: the day ends here",
					finding.Speed(f.Value), finding.Speed(s.Stop))
			}
		}
	}
	return conclude(outcome, why, c.Value, c.Value), nil
}

// fewWords is how many words that tell something an answer in words has at least (own rule of this project): "no cracks".
const fewWords = 2

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

// tooShort tells whether a reading that has to go on for a while says for how long, and for long enough.
func (s *Step) tooShort(c *finding.Confirmation) finding.Text {
	const slack = 0.005 // times are written down rounded
	longest := math.Inf(-1)
	first := math.Inf(1)
	for _, f := range c.Figures {
		if f.Unit == finding.InSecond {
			longest, first = max(longest, f.Value), min(first, f.Value)
		}
	}
	if first == longest { // one time is how long it took
		first = 0
	}
	if s.lasts <= 0 || longest-first >= s.lasts*(1-slack) {
		return nil
	}
	return finding.Say("its answer, %q, does not say that it was read for %s", strings.TrimSpace(c.Value), vent.Minutes(s.lasts))
}

// conclude words what the checklist keeps.
func conclude(outcome finding.Outcome, why finding.Text, value, failed string) Judged {
	if outcome == finding.Failing {
		if value = strings.TrimSpace(failed); !strings.HasPrefix(strings.ToLower(value), "failed") {
			value = "failed: " + value
		}
	}
	return Judged{outcome, why, value}
}

// judgeSeries lets the judges of emptying and leak-down decide. What they cannot tell is not passed.
func (r *Run) judgeSeries(s *Step, c *finding.Confirmation, log *vent.Log) (Judged, error) {
	dated := *c
	dated.Value, dated.Figures = "read", nil
	if outcome, why := finding.Judge(&finding.Item{ID: s.ID}, &dated, r.in.Day); outcome == finding.Void {
		return Judged{Outcome: outcome, Says: why}, nil
	}
	l := r.in.Launcher
	if s.ID == finding.ItemLeakDown {
		a, err := vent.JudgeLeakDown(l, *log)
		if err != nil {
			return Judged{}, err
		}
		words := finding.Say("%s, from %s to %s, %d readings over %s", string(a.Status), finding.Bar3(a.Start), finding.Bar3(a.End), a.Count,
			vent.Minutes(a.Length)).String()
		if a.Status == vent.LeakCannotTell {
			return Judged{Outcome: finding.Unusable, Says: a.Says}, nil
		}
		return conclude(passes(a.Status == vent.LeakTight), a.Says, words, words), nil
	}
	a, err := stopwatch.Judge(l, *log, r.in.Day)
	if err != nil {
		return Judged{}, err
	}
	words := fmt.Sprintf("%s, %d readings", a.Status, a.Count)
	if a.Status == stopwatch.TooFew || a.Status == stopwatch.GaugeBlind {
		return Judged{Outcome: finding.Unusable, Says: a.Says}, nil
	}
	passed := a.Status == stopwatch.Agrees
	if passed && !checklist.LogCloses(a, l) {
		return Judged{Outcome: finding.Unusable,
			Says: finding.Words("it agrees, and is one run, or of one volume of several; asked are two runs " +
				"and every gauge: give the longest time as the reading")}, nil
	}
	if passed {
		words = fmt.Sprintf("%s after %s (%s)", finding.Bar(a.Target), finding.Second(a.Duration).With(3), words)
		fits := finding.Confirmation{Value: words, Figures: []finding.Figure{{Value: a.Duration, Unit: finding.InSecond}}}
		if s.Band != nil {
			if outcome, why := s.Band.Judge(&fits); outcome != finding.Closes {
				return conclude(finding.Failing, why, words, words), nil
			}
		}
	}
	return conclude(passes(passed), a.Says, words, words), nil
}

func passes(good bool) finding.Outcome {
	if good {
		return finding.Closes
	}
	return finding.Failing
}
