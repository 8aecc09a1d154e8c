package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// appendix has everything that is needed to check and repeat the numbers.
func (b *builder) appendix() {
	b.chapter(appendixPart, "Appendix: argument, verdicts, faults, sheets, inputs")
	b.scope()
	b.argument()
	b.allVerdicts()
	b.faults()
	b.bowties()
	b.objects()
	b.energyDetails()
	b.sound()
	b.setpoint()
	b.sheetsToTake()
	b.limitsUsed()
	b.assumed()
	b.model()
	b.sourceList()
	b.inputs()
}

// sheetsToTake are what is filled in beside the launcher.
func (b *builder) sheetsToTake() {
	b.partsList()
	b.checklist()
	b.benchTests()
	b.emptyingSheets()
	b.measurements()
	b.faultsTried()
	b.photographList()
}

func (b *builder) scope() {
	b.section("What this file is and is not")
	var items []any
	for _, s := range append(benchmark.Scope(), benchmark.Cautions()...) {
		items = append(items, s.Text+" "+b.source(s.Source))
	}
	b.list(items...)
}

func (b *builder) allVerdicts() {
	b.section("Every verdict")
	t := document.Table{Caption: "Failures and unknowns first. A number in brackets is a source, at the end of this part.",
		Head: []string{"Answer", "Question", "Value and limit", "Basis", "Why", "Mind"}, Widths: []int{11, 21, 19, 10, 23, 16}}
	for _, v := range b.in.Report.Verdicts {
		why := b.text(v.Why)
		if len(v.Advice) != 0 {
			why = strings.TrimRight(why, ". ") + ". " + b.text(v.Advice)
		}
		if c := show.Condition(b.in.Units, v); c != "" {
			why = strings.TrimSpace(c + " " + capital(why))
		}
		basis := string(v.Basis)
		if v.Status == finding.NotApplicable {
			basis = ""
		}
		t.AddToned(show.ToneOf(v.Status), document.AsStrong(show.PaperWord(v.Status)), document.Join(v.Title+" ", document.AsCode(v.ID)),
			dash(b.in.against(v))+" "+b.source(v.Source), dash(basis), dash(why), dash(b.text(v.Caveat)))
	}
	b.add(t)
	var notes []any
	for _, n := range b.in.Report.Notes {
		notes = append(notes, b.text(n))
	}
	if len(notes) > 0 {
		b.list(notes...)
	}
}

// faults is the table of single faults, and of pairs.
func (b *builder) faults() {
	f := b.in.Faults
	if f == nil {
		return
	}
	b.section("Single faults, and two at once")
	b.say("This is not the hazard log of part 2; it is part of its evidence. The answer is about pressure and energy: what does not empty " +
		"is said in words, and judged in part 8. A hidden fault is one that neither normal use nor the check before use shows. What is " +
		"advised is shown by nothing unless a test is named. How far a part fails (a gauge by a tenth of its range, a bore to twice its width, " +
		"a projectile of twice its mass) is the project's own rule, no source.")
	b.faultTable("Single faults, worst first", f.Faults)
	b.faultTable("Two faults at once, worst first", shownPairs(f.Pairs))
	if len(f.Pairs) > 0 {
		b.say(pairCount(f.Pairs))
	}
}

// shownPairs keeps every pair that does not pass, but those that are open for one of the two alone, and the first
// few that pass with a shot of their own. The list comes worst first.
func shownPairs(all []fault.Result) (shown []fault.Result) {
	const passes = 10
	good := 0
	for _, r := range all {
		switch {
		case r.AsAlone(), r.Effect == fault.NotComputed:
			continue
		case r.Status == finding.Pass || r.Status == finding.NotApplicable:
			if good++; good > passes {
				continue
			}
		}
		shown = append(shown, r)
	}
	return shown
}

// pairCount says of how many pairs what is known, and what was not computed.
func pairCount(all []fault.Result) string {
	above, held, not := pairsAbove(all)
	shot, alone := 0, 0
	for i := range all {
		r := &all[i]
		if r.Effect == fault.NotComputed {
			continue
		}
		if r.AsAlone() {
			alone++
		}
		if r.Effect != fault.NoEffect {
			shot++
		}
	}
	t := fmt.Sprintf("%s of two faults at once. A shot was computed, or is the same as one that was, for %d; in %d neither fault "+
		"bears on the shot, by the circuit. Above a limit or unknown: %d. Held only by a test that is to find the first fault "+
		"before a second one happens: %d. Open because one of the two is open alone: %d.", show.Plural(len(all), "pair", "pairs"), shot,
		len(all)-not-shot, above, held, alone)
	if not > 0 {
		t += fmt.Sprintf(" %d were not computed.", not)
	}
	return t + " puffproof faults --pairs lists them."
}

func (b *builder) faultTable(caption string, rows []fault.Result) {
	if len(rows) == 0 {
		return
	}
	t := document.Table{Caption: caption, Head: []string{"Answer", "Fault", "Pressure, energy", "What comes of it",
		"How it is seen, what is advised"},
		Widths: []int{11, 23, 18, 26, 22}}
	for _, r := range rows {
		name := document.Join(document.AsGiven(r.Name()), faultState(r.State))
		if r.With != "" {
			name = document.Join(name, ", with ", document.AsCode(r.With))
		}
		t.AddToned(show.ToneOf(r.Status), document.AsStrong(show.PaperWord(r.Status)), name, b.in.faultFigures(r), b.faultWords(r), b.seenBy(r))
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
	gauge, energy := "", ""
	if !math.IsNaN(r.WorstGauge) {
		gauge = in.Units.Worst(quantity.Gauge, r.WorstGauge)
	}
	if !math.IsNaN(r.Judged) && r.Judged > 0 {
		energy = in.Units.Worst(quantity.Energy, r.Judged) + " judged"
	}
	return dash(show.Joined(", ", gauge, energy))
}

// capital begins a sentence.
func capital(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func (b *builder) faultWords(r fault.Result) string {
	words := show.Joined("; ", strings.TrimRight(b.text(r.Consequence), "."), strings.TrimRight(b.text(r.Reason), "."))
	if words == "" {
		return dash(string(r.Effect))
	}
	return words + "."
}

func (b *builder) seenBy(r fault.Result) string {
	hidden := ""
	if r.Latent {
		hidden = "hidden"
	}
	return dash(show.Joined("; ", hidden, show.Lead("seen: ", b.text(r.DetectedBy)), show.Lead("test: ", r.RevealedBy),
		show.Lead("advised: ", b.text(r.PreventedBy))))
}

// objects lists what was shot in the model besides the projectile.
func (b *builder) objects() {
	v, ok := b.in.Report.Verdict("misuse.objects")
	if !ok {
		return
	}
	b.section("Objects a child may put into the barrel")
	b.verdictLine(v)
	if tried := worst.MisuseNames(b.in.Launcher); len(tried) > 0 && v.Status != finding.NotApplicable {
		b.say(fmt.Sprintf("Shot in the model, %d in all: %s.", len(tried), b.text(finding.Join(tried, ", "))))
	}
	t := document.Table{Caption: "Objects of the list", Head: []string{"Object", "Diameter", "Mass", "Gets in", "Source"}}
	for _, o := range b.in.Launcher.AllObjects() {
		fits, source := "yes", "the design"
		if slices.Contains(b.in.Launcher.OverTube(), o) {
			fits = "over the tube"
		} else if o.Diameter > b.in.Launcher.Admits() {
			fits = "no"
		}
		if o.Evidence != "" {
			source = strings.TrimSpace(o.Document + " (" + string(o.Evidence) + ")")
		}
		t.Add(document.AsGiven(o.Name), b.in.Units.Near(quantity.Length, o.Diameter), b.in.Units.Near(quantity.Mass, o.Mass), fits, source)
	}
	b.add(t)
}

// limitsUsed lists the benchmarks that verdicts rest on.
func (b *builder) limitsUsed() {
	b.section("Limits used")
	b.say("Policy " + word(b.in.Launcher.Limits.Policy,
		launcher.Conservative) + ". Where published figures differ the stricter one is taken, from the worst case of " +
		"every tolerance, and times a factor: that is why they are conservative. (M) is a figure from memory: look it up before you lean on it.")
	t := document.Table{Caption: "Published figures that verdicts may rest on", Head: []string{"Figure", "Value", "Source",
		"What it does not say"},
		Widths: []int{28, 14, 29, 29}}
	for _, l := range benchmark.Benchmarks() {
		if l.Use != benchmark.ForVerdict {
			continue
		}
		value := show.Benchmark(b.in.Units, l)
		if l.Evidence == benchmark.FromMemory {
			value += memoryFlag
		}
		t.Add(l.What, value, l.Source(), dash(l.Caveat))
	}
	b.add(t)
}

// assumed lists every band that the design does not state.
func (b *builder) assumed() {
	if len(b.in.Report.Assumed) == 0 {
		return
	}
	b.section("Assumed because the design does not state it")
	t := document.Table{Caption: "Assumed bands; they are wide and include the dangerous end. Measure what moves the worst case first.",
		Head: []string{"Key", "From", "To", "Rule"}, Widths: []int{30, 13, 13, 44}}
	for _, a := range b.in.Report.Assumed {
		low, _ := b.in.keys().Value(a.Key, a.Low)
		high, _ := b.in.keys().Value(a.Key, a.High)
		t.Add(document.AsCode(a.Key), dash(low), dash(high), dash(b.text(a.Reason)))
	}
	b.add(t)
}

// model says what the model is and where it ends.
func (b *builder) model() {
	b.section("The model and its limits")
	items := []any{
		"One network of lumped volumes, flow paths and a barrel that grows as the projectile moves; air as an ideal gas; the same network " +
			"answers every question.",
		"Left out: waves in the barrel, moisture, bending and wear of parts. The model factor stands for the first. A hose is a row of cells " +
			"with its volume, inertia and friction. Circuits of current are not simulated: what stops, keys and relays can do wrong is among the " +
			"faults.",
		"Covered: air up to " + b.in.Units.Near(quantity.Gauge, flow.MaxGauge) + ", " + b.in.Units.Near(quantity.Temperature,
			flow.MinTemperature) +
			" to " + b.in.Units.Near(quantity.Temperature, flow.MaxTemperature) + ". Outside it the program refuses.",
		"Solved by an explicit Runge-Kutta method of order 8(5,3), an implicit one where it is stiff, with events; relative error aimed at in " +
			"each step " + quantity.Short(pneumatics.DefaultTolerance, 1) + ".",
		"Conservation of mass and energy is computed for every run; a run that misses it is withheld, not shown.",
	}
	if e := b.in.Report.Energy; e != nil && e.Runs > 0 {
		items = append(items, fmt.Sprintf("The worst case is the largest of %d computed shots with %s found, the best and the second best "+
			"%s apart. That is a search, not a proof; the model factor %s stands for what it missed (%s).", e.Runs, show.Plural(e.Maxima,
			"local maximum", "local maxima"), b.in.Units.Near(quantity.Energy, e.Gap), quantity.Number(e.Factor, 3), b.text(e.FactorSource)))
	}
	b.list(items...)
}

func (b *builder) sourceList() {
	b.section("Sources")
	t := document.Table{Caption: "V read in the primary text, V2 in a secondary text, C own arithmetic, M from memory",
		Head: []string{"No.", "Source"}, Shape: document.Narrow, Widths: []int{8, 92}}
	for i, s := range b.sources {
		t.Add(fmt.Sprintf("[%d]", i+1), s)
	}
	b.add(t)
}

// inputs are the design in full and how to repeat the figures.
func (b *builder) inputs() {
	b.section("Inputs and how to repeat this")
	in := b.in
	b.add(document.Form{Fields: []document.Field{{Label: "Design file, SHA-256", Value: document.AsCode(in.Design.SHA256)},
		{Label: "Program", Value: document.Own("puffproof " + in.Version)},
		{Label: "Date of this file", Value: document.Own(in.Date)}}})
	b.list(
		document.Join("Copy the text below into design.toml, or let the program take it out: ",
			document.AsCode("puffproof verify FILE"), " reads the inputs that this file carries and runs them again."),
		document.Join(document.AsCode("puffproof dossier design.toml --date "+in.Date+" -o again.html"),
			" makes the same file, byte for byte, with the same program."),
		document.Join(document.AsCode("puffproof verify FILE DESIGN"),
			" tells whether this file still describes a design, what changed since, and which signatures that voids."))
	b.add(document.Raw{Caption: "The design file as read", Text: in.Text})
}
