package design

import (
	"slices"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/pneumatics"
)

// bench reads [bench] and lets its readings replace bands of the launcher.
func (r *reader) bench(root *toml.Table, l *launcher.Launcher) {
	s := r.single(root, "bench", "")
	if s == nil || r.Partial || !r.Sound() {
		return
	}
	spec := launcher.BenchSpec{GaugeError: s.band("gauge_error"), ReliefSteady: s.readings["relief_steady"], CutOuts: s.readings["cut_outs"],
		CutIns: s.readings["cut_ins"], FillVolume: s.band("fill_volume"), FillFrom: s.band("fill_from"), FillTo: s.band("fill_to"),
		FillTimes: s.readings["fill_times"]}
	if spec.FillTo.Set && spec.FillFrom.Nominal >= spec.FillTo.Nominal {
		r.value("bench.fill_to", "is not above fill_from", r.above(quantity.Gauge, spec.FillFrom.Nominal))
		return
	}
	if len(spec.FillTimes) > 0 && (!spec.FillVolume.Set || !spec.FillTo.Set) {
		s.fault("fill_times", Problem{Message: "tells nothing alone", Want: "fill_volume and fill_to beside it",
			Hint: "how much was filled, and up to which reading"})
		return
	}
	if r.testsOfNothing(s, l, &spec) {
		return
	}
	if measure.FilledBeyondDeadHead(l, spec) {
		r.value("bench.fill_to", "lies above supply.dead_head", r.below(quantity.Gauge, l.Supply.DeadHead.High),
			"the supply pushed further than it is said to: state as dead_head what the gauge comes to with everything shut")
		return
	}
	measure.ApplyBench(l, spec)
}

// testsOfNothing refuses bench tests of parts that the design does not have, or that
// contradict each other: they would be left out in silence.
func (r *reader) testsOfNothing(s *section, l *launcher.Launcher, spec *launcher.BenchSpec) bool {
	lacks := func(key string, read []float64, there bool, table string) {
		if len(read) > 0 && !there {
			s.fault(key, Problem{Message: "is a test of what the design does not have", Want: table + " beside it",
				Hint: "describe the part that was tested, or leave the readings out"})
		}
	}
	relief := slices.ContainsFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Kind == pneumatics.Relief })
	lacks("cut_outs", spec.CutOuts, l.Switch != nil, "[pressure_switch]")
	lacks("cut_ins", spec.CutIns, l.Switch != nil, "[pressure_switch]")
	lacks("relief_steady", spec.ReliefSteady, relief, "a path of kind \"relief\"")
	lacks("fill_times", spec.FillTimes, l.Supply != nil, "[supply]")
	if len(spec.CutIns) > 0 && len(spec.CutOuts) > 0 && slices.Min(spec.CutIns) >= slices.Max(spec.CutOuts) {
		r.value("bench.cut_ins", "are not below the cut_outs", r.below(quantity.Gauge, slices.Max(spec.CutOuts)), "are the two lists swapped?")
	}
	return !r.Sound()
}
