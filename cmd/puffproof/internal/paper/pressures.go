package paper

import (
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/drill"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

// pressures shows the ladder and what it is held against.
func (b *builder) pressures() {
	b.chapter(7, "Pressure")
	rungs := b.rungs()
	b.halfBarSentence(rungs)
	if len(rungs) > 0 {
		b.ladderFigure(rungs)
		b.ladderTable(rungs)
	}
	b.vesselTable()
}

// benchTests are the sheets of what is tried with pressure before the launcher is filled.
func (b *builder) benchTests() {
	b.section("Bench and proof tests")
	if stop := b.notBefore(); stop != "" {
		b.say(stop + ": until then no bench test with air. A proof test with water shows whether a vessel holds; it does not " +
			"give it a rating.")
		return
	}
	b.say("Home-made vessels are tested with water, never with air, at one and a half times the highest pressure (common practice, no " +
		"source), or rejected.")
	t := document.Table{Caption: "Relief valve bench test and proof tests",
		Head: []string{"Part", "Test", "Pressure reached", "Medium", "Result", "Date, two initials"}, Shape: document.Blanks}
	add := func(part, test, medium string) {
		t.Rows = append(t.Rows, []document.Text{document.Own(part), document.Own(test), nil, document.Own(medium), nil, nil})
	}
	if b.hasRelief() {
		add("relief valve", "on a bench, before any air enters the launcher: lifts, three times", "air, from a hand pump")
		if why := drill.NoBridging(b.in.Launcher); len(why) == 0 {
			add("relief valve", "on the launcher, switch held closed: holds the whole supply", "air")
		} else {
			b.say("The supply is not let run on against the relief valve: " + b.text(why) + ".")
		}
	}
	add("", "hydraulic proof test", "water")
	b.add(t)
}

// rungs are the pressures of the design as it is.
func (b *builder) rungs() []launcher.Rung {
	at := math.NaN()
	if s := b.in.Setpoint; s != nil && s.Pressure > 0 && s.Witness != nil { // else the search ended there, and no shot exceeds
		at = s.Pressure
	}
	return b.in.Launcher.Rungs(at)
}

// isBoundary tells whether a rung is one that must not be reached.
func isBoundary(r launcher.Rung) bool { return r.Limit == launcher.Yes }

// halfBarSentence says where everything stays below the start of pressure law.
func (b *builder) halfBarSentence(rungs []launcher.Rung) {
	if len(rungs) == 0 {
		return
	}
	law := benchmark.BenchmarkOf(benchmark.EUPressureLaw)
	highest, most := b.in.Report.HighestPressures(rungs, b.in.Faults)
	at, peak := b.in.Units.Worst(quantity.Gauge, highest), b.in.Units.Worst(quantity.Gauge, most)
	switch {
	case most <= law.Value:
		b.say(document.AsStrong("Everything, single faults included, stays at or below 0.5 bar gauge"),
			": at most "+peak+". EU pressure law starts above 0.5 bar gauge "+b.source(law.Source())+".")
	case highest <= law.Value:
		b.say(document.AsStrong("Every vessel, single faults included, stays at or below 0.5 bar gauge"), ": at most "+at+
			". EU pressure law starts above 0.5 bar gauge "+b.source(law.Source())+". The barrel can take more for the moment in which it "+
			"fills, up to "+peak+": ask whether that counts.")
	default:
		b.say("The highest pressure anywhere, single faults and the moment in which a barrel fills included, is " + peak +
			". That is above 0.5 bar gauge, where EU pressure law starts " + b.source(law.Source()) + ": ask which of its rules apply.")
	}
}

func (b *builder) ladderFigure(rungs []launcher.Rung) {
	f := curve.Ladder(rungs, b.in.Units)
	caption := "The ladder of pressures: bands are tolerances, marks are nominal values. Each rung must stay clear of the next one above it."
	if len(f.Beyond) > 0 {
		caption += " Beyond the right edge: " + strings.Join(f.Beyond, ", ") + "."
	}
	b.draw(caption, "Ladder of gauge pressures: "+strings.Join(f.Words, "; ")+".", f.Rows.Draw)
}

func (b *builder) ladderTable(rungs []launcher.Rung) {
	in := b.in
	t := document.Table{Caption: "The ladder in figures", Head: []string{"Rung", "Lowest", "Nominal", "Highest", "What happens there"},
		Widths: []int{20, 13, 13, 13, 41}}
	for _, r := range rungs {
		nominal := in.Units.Near(quantity.Gauge, r.Gauge)
		if r.Gauge == r.High && !isBoundary(r) { // only its top was computed
			nominal = "–"
		}
		t.Add(r.Name, in.Units.Near(quantity.Gauge, r.Low), nominal, in.Units.Worst(quantity.Gauge, r.High), b.text(r.What))
	}
	b.add(t)
	b.verdictLines("ladder.order")
}

// vesselTable shows pressure times volume of every vessel.
func (b *builder) vesselTable() {
	in := b.in
	t := document.Table{Caption: "Vessels: volume, rating and the product that pressure law looks at (rated pressure times volume)",
		Head: []string{"Vessel", "Volume", "Rated pressure", "Rating times volume", "Proof test on record"}}
	for i := range in.Launcher.Volumes {
		v := &in.Launcher.Volumes[i]
		product := "not known"
		if v.RatedPressure.Set {
			product = in.Units.Worst(quantity.PressureVolume, v.RatedPressure.Nominal*v.Volume.Nominal)
		}
		t.Add(document.AsGiven(v.Name),
			in.band(v.Volume, quantity.Volume), in.band(v.RatedPressure, quantity.Gauge), product, document.AsGiven(dash(v.ProofTest)))
	}
	b.add(t)
	b.verdictLines("vessel.rating", "vessel.material", "barrel.blocked", "stored.energy")
}

// setpoint shows what pressure the program would allow, beside the one chosen.
func (b *builder) setpoint() {
	s, in := b.in.Setpoint, b.in
	if s == nil {
		return
	}
	b.section("The highest pressure that would still hold")
	b.setpointAnswer(s)
	for _, n := range s.Notes {
		b.tell(show.Faint, b.text(n))
	}
	b.changes(s)
	if !in.Report.Holds { // nobody sets a switch by the file of a design that does not hold
		return
	}
	if len(s.Procedure) > 0 {
		b.section("Setting the switch")
		var items []any
		for _, p := range s.Procedure {
			items = append(items, b.text(p))
		}
		b.boxes(items...)
	}
}

// changes are those that would let another cut-out work, each by itself.
func (b *builder) changes(s *setpoint.Answer) {
	var items []any
	for _, c := range s.Changes {
		t := document.Own(b.text(c.What) + ".")
		if c.From != nil && c.To != nil {
			t = document.Join(document.AsCode(c.Key), " from "+b.in.keys().ValueOrNumber(c.Key, *c.From)+" to "+
				b.in.keys().ValueOrNumber(c.Key, *c.To)+": ", t)
		}
		items = append(items, t)
	}
	if len(items) > 0 {
		b.say("Changes that would do, one of them:")
		b.list(items...)
	}
}

// setpointAnswer is the cut-out in a sentence, after what speaks against it.
func (b *builder) setpointAnswer(s *setpoint.Answer) {
	in := b.in
	switch {
	case !s.Works:
	case len(s.Unknown) != 0:
		b.tell(show.Open, document.AsStrong("NOT KNOWN: "), b.text(s.Unknown)+". With that left open:")
	case len(s.Unmet) != 0:
		b.tell(show.Bad, document.AsStrong("DOES NOT HOLD: "), b.text(s.Unmet)+". But for that:")
	}
	switch {
	case !s.Works:
		b.say("No cut-out works with this design: " + b.text(s.Why) + ".")
	case s.CutOut == nil:
		b.say("No switch is needed for the energy: " + b.text(s.Why) + ".")
	default:
		t := "The highest nominal cut-out is " + in.Units.Words(quantity.Gauge, *s.CutOut, quantity.Down)
		if s.Stated != nil {
			t += "; the design has " + in.Units.Near(quantity.Gauge, *s.Stated)
			if *s.Stated > *s.CutOut {
				t += ": TOO HIGH"
			}
		}
		b.say(t + ". What binds: " + b.text(s.Why) + ".")
	}
}
