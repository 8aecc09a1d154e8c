package design

import (
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/launcher"
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
		s.fault("fill_to", Problem{Message: "is not above fill_from", Found: bar(spec.FillTo.Nominal),
			Want: "more than " + bar(spec.FillFrom.Nominal)})
		return
	}
	if len(spec.FillTimes) > 0 && (!spec.FillVolume.Set || !spec.FillTo.Set) {
		s.fault("fill_times", Problem{Message: "tells nothing alone", Want: "fill_volume and fill_to beside it",
			Hint: "how much was filled, and up to which reading"})
		return
	}
	l.ApplyBench(spec)
}
