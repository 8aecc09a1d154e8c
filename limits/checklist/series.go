package checklist

import (
	"fmt"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
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

// SeriesOf is a course of readings that an answer is; false: it is none.
func SeriesOf(c *finding.Confirmation) (vent.Log, bool) {
	if len(c.Odd) != 0 {
		return vent.Log{}, false
	}
	return Series(c.Figures)
}

// Conclude words what the checklist keeps.
func Conclude(outcome finding.Outcome, why finding.Text, value string) Judged {
	if outcome == finding.Failing {
		if value = strings.TrimSpace(value); !strings.HasPrefix(strings.ToLower(value), "failed") {
			value = "failed: " + value
		}
	}
	return Judged{outcome, why, value}
}

// JudgeSeries lets the judges of emptying and leak-down decide. What they cannot tell is not passed.
func JudgeSeries(it *finding.Item, c *finding.Confirmation, log *vent.Log, l *launcher.Launcher, day string) (Judged, error) {
	dated := *c
	dated.Value, dated.Figures = "read", nil
	if outcome, why := finding.Judge(&finding.Item{ID: "log"}, &dated, day); outcome == finding.Void {
		return Judged{Outcome: outcome, Says: why}, nil
	}
	if it.ID == finding.ItemLeakDown {
		a, err := vent.JudgeLeakDown(l, *log)
		if err != nil {
			return Judged{}, err
		}
		words := finding.Course{Judged: string(a.Status), Start: finding.Bar3(a.Start), End: finding.Bar3(a.End), Count: a.Count,
			Length: vent.Minutes(a.Length)}.Text().String()
		if a.Status == vent.LeakCannotTell {
			return Judged{Outcome: finding.Unusable, Says: a.Says}, nil
		}
		return Conclude(passes(a.Status == vent.LeakTight), a.Says, words), nil
	}
	a, err := stopwatch.Judge(l, *log, day)
	if err != nil {
		return Judged{}, err
	}
	words := fmt.Sprintf("%s, %d readings", a.Status, a.Count)
	if a.Status == stopwatch.TooFew || a.Status == stopwatch.GaugeBlind {
		return Judged{Outcome: finding.Unusable, Says: a.Says}, nil
	}
	passed := a.Status == stopwatch.Agrees
	if passed && !LogCloses(a, l) {
		return Judged{Outcome: finding.Unusable,
			Says: finding.Words("it agrees, and is one run, or of one volume of several; asked are two runs " +
				"and every gauge: give the longest time as the reading, and what every gauge showed then")}, nil
	}
	if passed {
		words = fmt.Sprintf("%s after %s (%s)", finding.Bar(a.Target), finding.Second(a.Duration).With(3), words)
		fits := finding.Confirmation{Value: words, Figures: []finding.Figure{{Value: a.Duration, Unit: finding.InSecond}}}
		if it.Figure != nil {
			if outcome, why := it.Figure.Judge(&fits); outcome != finding.Closes {
				return Conclude(finding.Failing, why, words), nil
			}
		}
	}
	return Conclude(passes(passed), a.Says, words), nil
}

func passes(good bool) finding.Outcome {
	if good {
		return finding.Closes
	}
	return finding.Failing
}

// answeredBySeries judges what somebody wrote into the design as a course of readings by the judges of logs, as commission does.
func answeredBySeries(items []finding.Item, l *launcher.Launcher, day string) {
	for i := range items {
		it := &items[i]
		if !Logged(it.ID) {
			continue
		}
		for k := range l.Checklist {
			c := &l.Checklist[k]
			if log, ok := SeriesOf(c); ok && c.Item == it.ID && c.Signed() {
				it.Done, it.OpenWhy = nil, nil
				judged, err := JudgeSeries(it, c, &log, l, day)
				switch {
				case err != nil:
					it.OpenWhy = finding.Say("its answer, %q, cannot be judged: %s", c.Value, err.Error())
				case judged.Outcome == finding.Closes:
					it.Done = c
				default:
					it.OpenWhy = judged.Says
				}
			}
		}
	}
}
