package measure

import (
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// The bar and the psi that are confused on gauges with two scales [Pa].
const (
	onePsi = 6894.757293168
	OneBar = 1e5
)

// mostGroups is the most pressures of one log. A gauge has some 50 marks, and
// shots at one pressure must repeat.
const mostGroups = 60

// plausible looks for readings that cannot be what they say: psi in a bar
// column, frames counted from one, slow motion whose playback rate was written
// down, misfires, outliers. What is impossible is severe; the rest is for a
// person to judge.
func plausible(l *launcher.Launcher, e *Findings, log *ShotLog) []Remark {
	var out []Remark
	if n := len(e.Groups); n > mostGroups {
		out = append(out, Remark{0, finding.Say("the shots have %d different pressures; at most %d are taken. A bound needs at least %d "+
			"shots at one pressure: set it with the gauge and write that reading", n, mostGroups, LeastShots), true})
	}
	for i := range e.Shots {
		s := &e.Shots[i]
		if r, bad := pressureRemark(l, s.Shot.Line, s.Shot.Gauge); bad {
			out = append(out, r)
		}
		if len(s.Trouble) != 0 && !s.Shot.Misfire {
			out = append(out, Remark{s.Shot.Line, s.Trouble, true})
		}
	}
	for i := range log.Bench {
		b := &log.Bench[i]
		if b.Kind == ClickToPop || b.Kind == Emptying {
			if r, bad := pressureRemark(l, b.Line, b.Gauge); bad {
				out = append(out, r)
			}
		}
	}
	for _, v := range e.Bench {
		if len(v.Trouble) != 0 {
			out = append(out, Remark{v.Lines[0], v.Trouble, true})
		}
	}
	if slices.ContainsFunc(out, func(r Remark) bool { return r.Severe }) {
		return out
	}
	out = append(out, videoRemarks(l, e)...)
	out = append(out, speedRemarks(l, e)...)
	return append(out, benchRemarks(e)...)
}

// pressureRemark compares a gauge reading with what gauge and source can show.
func pressureRemark(l *launcher.Launcher, line int, gauge float64) (Remark, bool) {
	hint := finding.Say("if the gauge shows psi, write psi in the header: %.3g psi are %s", gauge/OneBar,
		finding.Bars.Of(gauge/OneBar*onePsi, 2))
	read := finding.Bars.Of(gauge, 3)
	for _, g := range l.Gauges {
		if g.On == l.Sensed() && g.Range.Set && gauge > g.Range.High*(1+1e-9) {
			return Remark{line, finding.Say("%s is above the gauge's range of %s; %s", read, finding.Bars.Of(g.Range.Nominal, 3), hint), true}, true
		}
	}
	if l.Supply != nil && l.Supply.DeadHead.Set && gauge > l.Supply.DeadHead.High*(1+1e-9) {
		return Remark{line, finding.Say("%s is more than the supply can give, %s; %s", read, finding.Bars.Of(l.Supply.DeadHead.High, 3),
			hint), true}, true
	}
	if high, ok := l.SoakedHigh(); ok && gauge > 1.5*high {
		return Remark{line, finding.Say("%s is far above the highest normal pressure, %s; %s", read, finding.Bars.Of(high, 2), hint), false}, true
	}
	return Remark{}, false
}

// videoRemarks looks at the groups with video speeds. The yardstick is the other
// methods at the same pressure, else the model with nominal values.
func videoRemarks(l *launcher.Launcher, e *Findings) []Remark {
	var out []Remark
	m := NewShotModel(l.Clone())
	for g := range e.Groups {
		var video, others []float64
		first := (*ShotSpeed)(nil)
		for i := range e.Shots {
			s := &e.Shots[i]
			switch {
			case s.Group != g || math.IsNaN(s.Speed):
			case s.Shot.Method == Video:
				video = append(video, s.Speed)
				if first == nil {
					first = s
				}
			default:
				others = append(others, s.Speed)
			}
		}
		if first == nil {
			continue
		}
		yard, of := mean(others), "the other methods at this pressure give"
		if len(others) == 0 {
			yard, _ = m.Shot(e.Groups[g].Gauge, first.Shot.Temperature)
			of = "the model with nominal values gives"
		}
		if yard > 0 {
			doubts := videoRemark(first, mean(video), yard, of)
			for range doubts {
				e.Groups[g].Doubted = true
				e.Groups[g].Faults = append(e.Groups[g].Faults, finding.Say("the video readings are in doubt, see line %d", first.Shot.Line))
			}
			out = append(out, doubts...)
		}
	}
	return out
}

// videoRemark compares one group's video speed with a yardstick.
func videoRemark(s *ShotSpeed, v, yard float64, of string) []Remark {
	ratio := yard / v
	given, expected := finding.MetresPerSecond.Of(v, 3), finding.MetresPerSecond.Of(yard, 3)
	rates := []float64{60, 120, 240, 480, 960, 1000}
	for _, taken := range rates {
		factor := taken / s.Shot.FrameRate
		// Within a fifth: the frame counts themselves are coarse.
		if s.Shot.FrameRate <= 480 && factor > 1.9 && math.Abs(math.Log(ratio/factor)) < 0.2 {
			return []Remark{{s.Shot.Line, finding.Say("the video gives %s where %s %s, %.2g times as much: a slow-motion film "+
				"taken at %.0f frames a second and played back at %.0f? Write the rate at which it was taken", given, of, expected, ratio, taken,
				s.Shot.FrameRate), false}}
		}
	}
	n := s.Shot.Frames
	shift := math.Log(n / (n - 1))
	if n > 1.5 && math.Log(ratio) > 0.5*shift && math.Log(ratio) < 1.5*shift {
		return []Remark{{s.Shot.Line, finding.Say("the video gives %s where %s %s: one frame less would agree. Were the frames "+
			"counted from one? The picture with the projectile at the first mark is number 0", given, of, expected), false}}
	}
	return nil
}

// speedRemarks names outliers, misfires, and unequal methods.
func speedRemarks(l *launcher.Launcher, e *Findings) []Remark {
	var out []Remark
	for i := range e.Groups {
		g := &e.Groups[i]
		for _, o := range g.Outliers {
			out = append(out, Remark{o.Line, finding.Say("%s lies %.2g standard deviations from the mean of %d shots, %s: a suspected outlier. "+
				"It counts; say in the note what was different", finding.MetresPerSecond.Of(o.Speed, 3), o.G, g.Shots,
				finding.MetresPerSecond.Of(g.Mean, 3)), false})
		}
		if len(g.Methods) > 1 {
			out = append(out, Remark{0, finding.Say("the shots at %s were measured in %d ways; the largest systematic error counts for all",
				finding.Bars.Of(g.Gauge, 3), len(g.Methods)), false})
		}
	}
	misfires := 0
	for i := range e.Shots {
		if e.Shots[i].Shot.Misfire {
			misfires++
		}
	}
	if misfires > 0 {
		out = append(out, Remark{0, finding.Say("%d of %d shots are misfires: they give no speed and stay in the log; find out where the "+
			"projectile stayed", misfires, len(e.Shots)), false})
	}
	return out
}

// benchRemarks names bench tests that contradict the design.
func benchRemarks(e *Findings) []Remark {
	var out []Remark
	for _, c := range e.Clashes {
		out = append(out, Remark{c.Line, c.Says(), false})
	}
	return out
}
