package screen

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// FaultsScreen shows every single fault, worst first.
type FaultsScreen struct {
	Frame
	Report *fault.Report
}

// Write prints the screen.
func (f *FaultsScreen) Write(w io.Writer) error {
	r := f.Report
	return f.write(w, show.Wrap(f.finding(), f.Width, "", ""), f.design, f.writeChanging, f.writeRest, f.writePairs,
		f.verdicts(r.Verdicts), f.items(r.Items), f.cautions)
}

func (f *FaultsScreen) finding() string {
	r := f.Report
	fails, unknown := countFaults(r.Faults)
	t, colour := fmt.Sprintf("None of %d single faults exceeds the limits, on the model.", len(r.Faults)), green
	if kept := r.AllKept(); len(kept) > 0 {
		var each []string
		for _, one := range kept {
			each = append(each, fmt.Sprintf("%s, %s (item %s keeps it from being fired)", one.Name(),
				f.Units.Worst(quantity.Energy, one.Judged), one.HeldBy))
		}
		t = fmt.Sprintf("Of %d single faults these alone exceed the limits, on the model: %s.", len(r.Faults), strings.Join(each, "; "))
	}
	if fails+unknown > 0 {
		t, colour = fmt.Sprintf("%s of %d exceed the limits or break a rule, %d unknown.",
			show.Plural(fails, "single fault", "single faults"), len(r.Faults), unknown), red
	}
	if r.AllPairs {
		if fails, unknown := countFaults(r.Pairs); fails+unknown > 0 {
			t, colour = t+fmt.Sprintf(" Of %s %d exceed them, %d unknown.", show.Plural(len(r.Pairs), "pair", "pairs"), fails, unknown), red
		}
		if open := show.OpenPairs(r.Pairs); open > 0 {
			t += fmt.Sprintf(" %s OPEN: only a test that is not done yet keeps the two apart.", show.Plural(open, "more is", "more are"))
			if colour == green {
				colour = yellow
			}
		}
	}
	if bad := badVerdicts(r.Verdicts); bad != "" {
		t, colour = t+" Not held: "+bad+".", red
	}
	if open := f.openWords(); open != "" {
		t += open
		if colour == green {
			colour = yellow
		}
	}
	return f.paint(colour, t)
}

// openWords say which faults an item of the checklist alone holds; "" none.
func (f *FaultsScreen) openWords() (t string) {
	s, runsOn := f.Style, false
	for _, one := range f.Report.Faults {
		switch {
		case one.Status != finding.OpenItem:
		case one.Mode == fault.Jammed:
			t += fmt.Sprintf(" A jammed projectile could get %s when a hand frees it too early: OPEN until the jam drill is confirmed.",
				s.Units.Worst(quantity.Energy, one.Freed))
		case one.Mode == fault.NotOpened:
			t += fmt.Sprintf(" Only a hand that opens %s empties it: OPEN until the item %s is confirmed.", show.Clean(one.Part), one.HeldBy)
		case !runsOn && one.HeldBy == finding.ItemSupplyOff:
			t += fmt.Sprintf(" A supply that runs on keeps it from being empty: OPEN until the item %s is confirmed.", one.HeldBy)
			runsOn = true
		default:
			by := fmt.Sprintf(" Held by people alone: OPEN until the item %s is confirmed.", one.HeldBy)
			if one.HeldBy != finding.ItemSupplyOff && !strings.Contains(t, by) {
				t += by
			}
		}
	}
	return t
}

func countFaults(all []fault.Result) (fails, unknown int) {
	for _, one := range all {
		switch one.Status {
		case finding.Fail:
			fails++
		case finding.Unknown:
			unknown++
		}
	}
	return fails, unknown
}

// badVerdicts names the verdicts that fail or are unknown; "" none.
func badVerdicts(verdicts []finding.Verdict) string {
	var parts []string
	for _, v := range show.Troubled(verdicts) {
		parts = append(parts, v.ID+map[finding.Status]string{finding.Fail: " fails", finding.Unknown: " is unknown"}[v.Status])
	}
	return strings.Join(parts, ", ")
}

// writeChanging prints the faults that bear on the shot, or do not pass, in full.
func (f *FaultsScreen) writeChanging() {
	f.gap()
	f.sayf("", "", "Faults that bear on the shot, worst first (limit %s, model factor included; one far below the worst and the limit "+
		"takes a brief look):", f.Units.Near(quantity.Energy, f.Report.Limit))
	for _, one := range f.Report.Faults {
		if briefly(one) {
			continue
		}
		f.writeFault(one)
	}
}

// briefly tells which faults take one line: they pass, cannot change the shot, and
// leave nothing that a hand could set free.
func briefly(one fault.Result) bool {
	return one.Effect == fault.NoEffect && one.Status == finding.Pass && !(one.Freed > 0)
}

func (f *FaultsScreen) writeFault(one fault.Result) {
	f.gap()
	f.say(f.statusHead(one.Status), statusIndent, faultName(one)+show.Lead(", after ", show.Clean(one.With)))
	reason := ""
	if one.Status != finding.Pass {
		reason = f.text(one.Reason)
	}
	seen := show.Lead("Shows by: ", f.text(one.DetectedBy))
	if one.Latent {
		seen = "Nobody notices it; revealed by: " + cmp.Or(show.Clean(one.RevealedBy), "no test")
	}
	f.under(f.figures(one), f.text(one.Consequence), reason, seen, show.Lead("Prevented by: ", f.text(one.PreventedBy)))
}

// faultName is part, mode and state; a mode that names its part does it alone.
func faultName(one fault.Result) string {
	t := show.Clean(one.Name())
	if one.State != "any" {
		t += ", while " + one.State
	}
	return t
}

func (f *FaultsScreen) figures(one fault.Result) string {
	var parts []string
	switch {
	case one.Mode == fault.Jammed && one.Freed > 0:
		parts = append(parts, f.Units.Worst(quantity.Energy, one.Freed)+" if a hand frees it")
	case one.Mode == fault.Jammed:
	case math.IsNaN(one.Judged):
		parts = append(parts, "energy not known")
	case one.Effect != fault.NoEffect:
		parts = append(parts, f.Units.Worst(quantity.Energy, one.Judged))
	}
	if !math.IsNaN(one.WorstGauge) {
		parts = append(parts, "up to "+f.Units.Worst(quantity.Gauge, one.WorstGauge)+" in "+show.Clean(one.Where))
	}
	if one.SameAs != "" {
		parts = append(parts, "the same shot as "+show.Clean(one.SameAs))
	}
	parts = append(parts, "basis "+show.Clean(string(one.Basis)))
	return strings.Join(parts, "; ")
}

// writeRest prints one line for each fault that cannot change the shot.
func (f *FaultsScreen) writeRest() {
	head := false
	for _, one := range f.Report.Faults {
		if !briefly(one) {
			continue
		}
		if !head {
			head = true
			f.gap()
			f.say("", "", "Faults that cannot change the shot: by the circuit, no shot was computed for them:")
		}
		t := faultName(one) + ": " + f.text(one.Reason) + show.Lead("; ", f.text(one.Consequence))
		if one.Latent && one.RevealedBy != "" {
			t += " (nobody notices it; " + one.RevealedBy + " reveals it)"
		}
		f.say("  ", "    ", t)
	}
}

// shownPairs is how many pairs the screen shows; --json has all.
const shownPairs = 12

func (f *FaultsScreen) writePairs() {
	r := f.Report
	if len(r.Pairs) == 0 {
		return
	}
	f.gap()
	if !r.AllPairs {
		bad, open := 0, 0
		for i := range r.Pairs {
			switch p := &r.Pairs[i]; {
			case !p.OnTest():
				bad++
			case p.Status == finding.OpenItem:
				open++
			}
		}
		f.sayf("", "", "%d pairs of a fault that nobody notices with another, not computed: %d rest on a test of the checklist, "+
			"of which %d on one that is not done yet, %d on nothing. --pairs computes them.", len(r.Pairs), len(r.Pairs)-bad, open, bad)
		return
	}
	f.sayf("", "", "Pairs of faults, worst first (%d in all, --json lists them):", len(r.Pairs))
	shown := 0
	for _, p := range r.Pairs {
		if p.AsAlone() {
			continue
		}
		if shown++; shown > shownPairs {
			break
		}
		f.writeFault(p)
	}
}
