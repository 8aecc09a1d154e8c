package document

import (
	"fmt"
	"math"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"strings"
)

// appendix has everything that is needed to check and repeat the numbers.
func (b *builder) appendix() {
	b.chapter(11, "Appendix: verdicts, faults, limits, inputs")
	b.scope()
	b.allVerdicts()
	b.faults()
	b.objects()
	b.limitsUsed()
	b.assumed()
	b.model()
	b.sourceList()
	b.inputs()
}

func (b *builder) scope() {
	b.section("What this file is and is not")
	var items []Text
	for _, s := range append(benchmark.Scope(), benchmark.Cautions()...) {
		items = append(items, own(s.Text+" "+b.source(s.Source)))
	}
	b.add(List{Items: items})
}

func (b *builder) allVerdicts() {
	b.section("Every verdict")
	t := Table{Caption: "Failures and unknowns first. A number in brackets is a source, at the end of this part.",
		Head: []string{"Answer", "Question", "Value and limit", "Basis", "Why", "Mind"}, Widths: []int{11, 21, 19, 10, 23, 16}}
	for _, v := range b.in.Report.Verdicts {
		why := v.Why.String()
		if len(v.Advice) != 0 {
			why = strings.TrimRight(why, ". ") + ". " + v.Advice.String()
		}
		basis := string(v.Basis)
		if v.Status == finding.NotApplicable {
			basis = ""
		}
		t.Rows = append(t.Rows, []Text{strong(show.Word(v.Status)), join(own(v.Title+" "), code(v.ID)),
			own(dash(b.in.against(v)) + " " + b.source(v.Source)),
			own(dash(basis)), own(dash(why)), own(dash(v.Caveat.String()))})
		t.Tones = append(t.Tones, show.ToneOf(v.Status))
	}
	b.add(t)
	var notes []Text
	for _, n := range finding.Strings(b.in.Report.Notes) {
		notes = append(notes, own(n))
	}
	if len(notes) > 0 {
		b.add(List{Items: notes})
	}
}

// faults is the table of single faults, and of pairs with a hidden one.
func (b *builder) faults() {
	f := b.in.Faults
	if f == nil {
		return
	}
	b.section("Single faults and pairs with a hidden one")
	b.say(own("This is not the risk assessment of part 2; it is part of its evidence. A hidden fault is one that neither normal use nor the " +
		"check before use shows."))
	b.faultTable("Single faults, worst first", f.Faults)
	pairs, rest := worstFaults(f.Pairs)
	b.faultTable("Pairs, worst first", pairs)
	if rest > 0 {
		b.say(own(fmt.Sprintf("%d more pairs were computed; all of them pass. puffproof faults lists them.", rest)))
	}
}

// worstFaults keeps every fault that does not pass and the first few that do.
// The list comes worst first.
func worstFaults(all []fault.Result) (shown []fault.Result, rest int) {
	const passes = 10
	good := 0
	for _, r := range all {
		if r.Status == finding.Pass || r.Status == finding.NotApplicable {
			if good++; good > passes {
				rest++
				continue
			}
		}
		shown = append(shown, r)
	}
	return shown, rest
}

func (b *builder) faultTable(caption string, rows []fault.Result) {
	if len(rows) == 0 {
		return
	}
	t := Table{Caption: caption, Head: []string{"Answer", "Fault", "Pressure, energy", "What comes of it", "Seen by, prevented by"},
		Widths: []int{11, 23, 18, 26, 22}}
	for _, r := range rows {
		tone := show.ToneOf(r.Status)
		if r.Status == finding.OpenItem { // an item of part 8 holds it: nothing is to be done about it here
			tone = show.Faint
		}
		name := join(given(r.Name()), own(faultState(r.State)))
		if r.With != "" {
			name = join(name, own(", with "), code(r.With))
		}
		t.Rows = append(t.Rows, []Text{strong(show.Word(r.Status)), name, own(b.in.faultFigures(r)), own(faultWords(r)), own(seenBy(r))})
		t.Tones = append(t.Tones, tone)
	}
	b.add(t)
}

func faultState(s string) string {
	if s == "" || s == "any" {
		return ""
	}
	return " while " + s
}

func (in *Input) faultFigures(r fault.Result) string {
	var parts []string
	if !math.IsNaN(r.WorstGauge) {
		parts = append(parts, in.Units.Worst(show.Gauge, r.WorstGauge))
	}
	if !math.IsNaN(r.Judged) && r.Judged > 0 {
		parts = append(parts, in.Units.Worst(show.Energy, r.Judged)+" judged")
	}
	return dash(strings.Join(parts, ", "))
}

func faultWords(r fault.Result) string {
	var parts []string
	for _, t := range []string{r.Consequence.String(), r.Reason.String()} {
		if t != "" {
			parts = append(parts, strings.TrimRight(t, "."))
		}
	}
	if len(parts) == 0 {
		return dash(string(r.Effect))
	}
	return strings.Join(parts, ". ") + "."
}

func seenBy(r fault.Result) string {
	var parts []string
	if r.Latent {
		parts = append(parts, "hidden")
	}
	if len(r.DetectedBy) != 0 {
		parts = append(parts, "seen by "+r.DetectedBy.String())
	}
	if r.RevealedBy != "" {
		parts = append(parts, "test "+r.RevealedBy)
	}
	if len(r.PreventedBy) != 0 {
		parts = append(parts, "prevented by "+r.PreventedBy.String())
	}
	return dash(strings.Join(parts, "; "))
}

// objects lists what was shot in the model besides the projectile.
func (b *builder) objects() {
	v, ok := b.verdict("misuse.objects")
	if !ok {
		return
	}
	b.section("Objects a child may put into the barrel")
	b.verdictLine(v)
	t := Table{Caption: "Objects tried in the model, alone and on the projectile; besides them a snug plug of 1 to 60 g, two projectiles, a " +
		"soaked and a frozen one", Head: []string{"Object", "Diameter", "Mass", "Source"}, Shape: Narrow}
	for _, o := range benchmark.MisuseObjects() {
		t.Rows = append(t.Rows, []Text{own(o.Name), own(b.in.Units.Near(show.Length, o.Diameter)), own(b.in.Units.Near(show.Mass, o.Mass)),
			own(o.Document + " (" + string(o.Evidence) + ")")})
	}
	for _, o := range b.in.Launcher.Objects {
		t.Rows = append(t.Rows, []Text{given(o.Name), own(b.in.Units.Near(show.Length, o.Diameter.Low)),
			own(b.in.Units.Near(show.Mass, o.Mass.High)), own("the design")})
	}
	b.add(t)
}

// limitsUsed lists the benchmarks that verdicts rest on.
func (b *builder) limitsUsed() {
	b.section("Limits used")
	b.say(own("Policy " + word(b.in.Launcher.Limits.Policy, launcher.Conservative) +
		". Where published figures differ the stricter one is taken, from the worst case of every tolerance, and times a factor: that is why " +
		"they are conservative. " +
		"(M) is a figure from memory: look it up before you lean on it."))
	t := Table{Caption: "Published figures that verdicts may rest on", Head: []string{"Figure", "Value", "Source", "What it does not say"},
		Widths: []int{28, 14, 29, 29}}
	for _, l := range benchmark.Benchmarks() {
		if l.Use != benchmark.ForVerdict {
			continue
		}
		value := b.in.benchmark(l)
		if l.Evidence == benchmark.FromMemory {
			value += memoryFlag
		}
		t.Rows = append(t.Rows, []Text{own(l.What), own(value), own(l.Source()), own(dash(l.Caveat))})
	}
	b.add(t)
}

// benchmark shows a benchmark's value in the units of the paper.
func (in *Input) benchmark(b benchmark.Benchmark) string {
	quantities := map[string]show.Quantity{"J": show.Energy, "J/m2": show.EnergyPerArea, "Pa": show.Gauge, "m": show.Length, "kg": show.Mass,
		"m/s": show.Speed, "m3": show.Volume, "s": show.Time, "Pa m3": show.PressureVolume}
	const year = 365.25 * 86400
	if b.Unit == "s" && b.Value >= year {
		return in.Units.Near(show.Age, b.Value)
	}
	if q, ok := quantities[b.Unit]; ok {
		return in.Units.Near(q, b.Value)
	}
	return strings.TrimSuffix(show.Number(b.Value, 3)+" "+b.Unit, " -") // "-" has no unit
}

// assumed lists every band that the design does not state.
func (b *builder) assumed() {
	if len(b.in.Report.Assumed) == 0 {
		return
	}
	b.section("Assumed because the design does not state it")
	t := Table{Caption: "Assumed bands; they are wide and include the dangerous end. Measure what moves the worst case first.",
		Head: []string{"Key", "From", "To", "Rule"}, Widths: []int{30, 13, 13, 44}}
	for _, a := range b.in.Report.Assumed {
		low, _ := b.in.keys().Value(a.Key, a.Low)
		high, _ := b.in.keys().Value(a.Key, a.High)
		t.Rows = append(t.Rows, []Text{code(a.Key), own(dash(low)), own(dash(high)), own(dash(a.Reason.String()))})
	}
	b.add(t)
}

// model says what the model is and where it ends.
func (b *builder) model() {
	b.section("The model and its limits")
	items := []Text{
		own("One network of lumped volumes, flow paths and a barrel that grows as the projectile moves; air as an ideal gas; the same network " +
			"answers every question."),
		own("Left out: waves in barrel and hoses, moisture, bending and wear of parts, anything electrical. The model factor stands for the " +
			"first."),
		own("Covered: air up to 10 bar gauge, 250 to 340 K. Outside it the program refuses."),
		own("Solved by an explicit Runge-Kutta method of order 8(5,3), an implicit one where it is stiff, with events; relative error aimed at " +
			"in each step " + show.Short(pneumatics.DefaultTolerance, 1) + "."),
		own("Conservation of mass and energy is computed for every run; a run that misses it is withheld, not shown."),
	}
	if e := b.in.Report.Energy; e != nil && e.Runs > 0 {
		items = append(items, own(fmt.Sprintf("The worst case is the largest of %d computed shots with %s found, the best and the second best "+
			"%s apart. That is a search, not a proof; the model factor %s stands for what it missed (%s).",
			e.Runs, show.Plural(e.Maxima, "local maximum", "local maxima"), b.in.Units.Near(show.Energy, e.Gap), show.Number(e.Factor, 3),
			e.FactorSource.String())))
	}
	b.add(List{Items: items})
}

func (b *builder) sourceList() {
	b.section("Sources")
	t := Table{Caption: "V read in the primary text, V2 in a secondary text, C own arithmetic, M from memory",
		Head: []string{"No.", "Source"}, Shape: Narrow, Widths: []int{8, 92}}
	for i, s := range b.sources {
		t.Rows = append(t.Rows, []Text{own(fmt.Sprintf("[%d]", i+1)), own(s)})
	}
	b.add(t)
}

// inputs are the design in full and how to repeat the figures.
func (b *builder) inputs() {
	b.section("Inputs and how to repeat this")
	in := b.in
	b.add(Form{[]Field{{"Design file, SHA-256", code(in.Design.SHA256)}, {"Program", own("puffproof " + in.Version)},
		{"Date of this file", own(in.Date)}}})
	b.add(List{Items: []Text{
		join(own("Copy the text below into design.toml, or let the program take it out: "), code("puffproof verify FILE"),
			own(" reads the inputs that this file carries and runs them again.")),
		join(code("puffproof dossier design.toml --date "+in.Date+" -o again.html"),
			own(" makes the same file, byte for byte, with the same program.")),
		join(code("puffproof verify FILE DESIGN"), own(" tells whether this file still describes a design, what changed since, and which "+
			"signatures that voids.")),
	}})
	b.add(Raw{Caption: "The design file as read", Text: in.Text})
}
