package paper

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// pageOne answers: may it be used, at what pressure, why, what is open, who is
// in charge, until when, and who else has looked.
func (b *builder) pageOne() {
	in := b.in
	running, tone := b.finding()
	b.add(document.Callout{Title: running, Tone: tone, Body: b.answers()})
	b.say(document.AsStrong("Name given by the builder: "), document.AsGiven(b.named()))
	if in.Launcher.Description != "" {
		b.say(document.AsStrong("What it is, in the builder's words: "), document.AsGiven(in.Launcher.Description))
	}
	form := document.Form{Fields: []document.Field{
		{Label: "Serial number or mark on the launcher", Value: optional(in.Launcher.Serial)},
		{Label: "Owner", Value: optional(in.Launcher.Owner)},
		{Label: "Adult in charge, keeps the key and the stop", Value: optional(in.Launcher.InCharge)},
		{Label: "Event and day", Value: nil},
		{Label: b.untilLabel(), Value: document.Own(b.holdsUntil())},
		{Label: "Signature of the adult in charge, date", Value: nil},
		{Label: "Second person, who did the tests of part 8 (name)", Value: nil},
		{Label: "Signature of the second person, date", Value: nil},
	}}
	if in.Record != nil && in.Record.Ends() != "" {
		form.Fields = append(form.Fields, document.Field{Label: "Last letters of the record, written by the second person", Value: nil})
	}
	b.add(form)
	b.say(document.AsStrong("Mind: "), "The figures are published benchmarks, used voluntarily; they give no approval of any kind. "+
		"Local law and codes, the organiser and a licensed engineer go before this file. Passing a benchmark is not harmless.")
	b.tell(show.Faint, fmt.Sprintf("Made on %s by puffproof %s from design file %s. A figure that is judged is rounded "+
		"towards its limit; (M) marks a benchmark known from memory.",
		in.Date, in.Version, in.Design.Fingerprint()))
	if tone != show.Bad { // what fails needs the room; the photographs of part 5 show the thing
		b.add(document.Space{Caption: "Photograph of the launcher, with its nameplate", Height: 62, Least: 24})
	}
}

// untilLabel names the date up to which a paper counts. Nothing counts before it
// is confirmed.
func (b *builder) untilLabel() string {
	if _, tone := b.finding(); tone != show.Open {
		return "This " + b.paper + " holds until"
	}
	return "This " + b.paper + " would hold, once confirmed, until"
}

// holdsUntil is the first due date and what it is.
func (b *builder) holdsUntil() string {
	if !b.in.Report.Holds || b.expired() != "" {
		return "it does not hold now"
	}
	due := b.in.Launcher.DueDates(b.in.Date)
	if len(due) == 0 {
		return ""
	}
	return due[0].Date + " (" + strings.TrimPrefix(due[0].What, "checklist.") + ")"
}

// answers are the lines of the box on page one.
func (b *builder) answers() []document.Text {
	var out []document.Text
	for _, a := range [][2]string{{"May it be used? ", b.mayBeUsed()}, {"At what pressure? ", b.pressureLine()}, {"Why? ", b.whyLine()},
		{"Who and when? ", b.useLine()},
		{"Who stands too near? ", b.tooNear()}, {"Holds only while people do what was declared: ", b.conditionLine()},
		{"What fails or is unknown: ", b.troubleLine()}, {"What must still be confirmed: ", b.openLine()}} {
		if a[1] != "" {
			out = append(out, document.Join(document.AsStrong(a[0]), a[1]))
		}
	}
	return out
}

// useLine is who loads, how old the youngest is, and in which weather.
func (b *builder) useLine() string {
	t := "Loaded by the adult in charge, or by a person named in part 3, and by nobody else. "
	e := b.in.Launcher.Event
	if e != nil && e.Youngest.Set {
		t += "Nobody younger than " + b.in.asStated(quantity.Age, e.Youngest.Nominal) + " near it. "
	} else {
		t += "The age of the youngest is not stated. "
	}
	return t + b.weatherLine()
}

// weatherLine is in which weather it may be used.
func (b *builder) weatherLine() string {
	in := b.in
	t := "No use below " + in.asStated(quantity.Temperature, in.Launcher.Ambient.Coldest.Low) + " or above " +
		in.asStated(quantity.Temperature, in.Launcher.Ambient.Hottest.High) + ", and none with ice or with wet projectiles."
	switch e := in.Launcher.Event; {
	case e == nil || !e.Wind.Set:
		t += " The strongest wind is not stated."
	case e.Wind.Nominal == 0:
		t += " No use in any wind."
	default:
		t += " No use in wind above " + in.asStated(quantity.Speed, e.Wind.Nominal) + "."
	}
	return t
}

func (b *builder) mayBeUsed() string {
	r := b.in.Report
	switch {
	case b.expired() != "":
		return "No. Something in it has expired."
	case !r.Holds:
		return "No. At least one question has the wrong answer or none."
	case r.OpenItems == 0 && r.Said > 0:
		return "Not yet. " + show.Plural(r.Said, "answer is", "answers are") + " " + show.SaidOnly +
			": do the steps with puffproof commission, or put their record back."
	case r.OpenItems > 0 || !r.Confirmed:
		return "Not yet. What could be computed holds; what only people can confirm is still open."
	}
	return "Yes, by the rules of part 3, once both adults have signed below."
}

// pressureLine says what the launcher is set to.
func (b *builder) pressureLine() string {
	in := b.in
	l := in.Launcher
	t := ""
	switch {
	case l.Switch != nil:
		t = "The switch stops the supply at " + in.band(l.Switch.CutOut, quantity.Gauge)
		if l.Supply == nil { // nothing is there to be stopped
			t = "No supply is stated, so what the switch stops is not known; its cut-out is " + in.band(l.Switch.CutOut, quantity.Gauge)
		}
		if l.Switch.CutIn.Set && l.Supply != nil {
			t += " and starts it at " + in.asStated(quantity.Gauge, l.Switch.CutIn.Nominal)
		}
		if t += "."; b.filledBy().at.Set {
			t += " Against what is open while charging the supply comes to rest before that, at " + in.band(b.filledBy().at, quantity.Gauge) + "."
		}
	case b.filledBy().sentence != "":
		f := b.filledBy()
		t = f.sentence + " at " + in.band(f.at, quantity.Gauge) + "."
	default:
		return "Not known: neither a switch nor the supply's dead head is stated."
	}
	if e := in.Report.Energy; e != nil && e.StartHigh > 0 {
		t += " Judged up to " + in.Units.Worst(quantity.Gauge, e.StartHigh) + " in normal use, the heat included."
	}
	if !in.Report.Holds {
		t = "At none as it is now. " + t
	}
	return t
}

// whyLine is the energy and what it rests on.
func (b *builder) whyLine() string {
	e := b.in.Report.Energy
	v, ok := b.in.Report.Verdict("energy.total")
	if e == nil || !ok || v.Status == finding.Unknown || v.Value == nil {
		return "The energy of the projectile is not known" + show.Lead(": ", b.text(v.Why)) + "."
	}
	t := fmt.Sprintf("The hardest shot has at most %s (%s).", b.in.against(v), judgedOn(e))
	f, ok := b.in.Report.Verdict("energy.fault")
	switch {
	case ok && f.Value != nil && f.Status != finding.Unknown:
		t += " At the worst single fault: " + b.in.against(f) + "."
		t += show.Lead(" ", b.weighed())
	case !ok || f.Status == finding.Unknown:
		t += " At the worst single fault: not known" + show.Lead(": ", b.text(f.Why)) + "."
	}
	return t
}

// weighed is what a foam that soaks water, and frost, ask for before each use; "" nothing.
func (b *builder) weighed() string {
	f := b.in.Faults
	if f == nil {
		return ""
	}
	free := ""
	if f.RestsOn(finding.ItemNotFrozen) {
		free = "In frost each projectile turned in its seat, off and empty, before it is shot: frozen in it is shot too hard. "
	}
	if !f.RestsOn(finding.ItemWeighed) {
		return free
	}
	most := b.in.Units.Words(quantity.Mass, b.in.Launcher.Projectile.Mass.High, quantity.Down)
	return "Each projectile weighed, none above " + most + ": soaked it is shot too hard. " + free
}

// judgedOn says what the judged energy is.
func judgedOn(e *worst.EnergyReport) string {
	switch e.Basis {
	case finding.OnCeiling:
		return "the most the air could do, whatever the valve"
	case finding.OnModel:
		return fmt.Sprintf("the worst computed shot times %s; a calculation, not a measurement", quantity.Number(e.Factor, 3))
	}
	if e.ModelDecides() && e.Beyond > 0 {
		return fmt.Sprintf("the worst computed shot times %s, from a pressure that no shot can be measured at", quantity.Number(e.Factor, 3))
	} else if e.ModelDecides() {
		return "the worst computed shot with the bands that measurements narrowed; it is larger than the bound from measured shots"
	}
	return "the bound from measured shots; it is larger than the worst computed shot"
}

// troubleLine names the failures and unknowns; the next part has them in full.
func (b *builder) troubleLine() string {
	const shown = 6
	var parts []string
	for _, v := range show.Troubled(b.in.Report.Verdicts) {
		t := show.PaperWord(v.Status) + " " + v.Title
		if a := b.in.against(v); a != "" {
			t += ": " + a
		}
		if v.ID == finding.MeasuredEmptying || v.ID == finding.MeasuredLeak { // a test of the real launcher has no figure: it says what was seen
			t += show.Lead(": ", b.text(v.Why))
		}
		parts = append(parts, t)
	}
	return clipped(parts, shown)
}

// conditionLine names what holds only because of what people do.
func (b *builder) conditionLine() string {
	var parts []string
	for _, v := range b.in.Report.Verdicts {
		if v.Status == finding.Conditional {
			parts = append(parts, v.Title+": "+dash(b.in.against(v))+show.ItemsOf(v))
		}
	}
	return clipped(parts, 10)
}

func (b *builder) openLine() string {
	const shown = 5
	var parts []string
	for _, it := range b.in.Report.Items {
		if it.Done == nil {
			parts = append(parts, strings.TrimRight(b.text(it.Title), "."))
		}
	}
	if len(parts) == 0 {
		return "nothing is open."
	}
	return show.Plural(len(parts), "item", "items") + ": " + clipped(parts, shown)
}

// clipped joins the first few of a list and says how many more there are.
func clipped(parts []string, shown int) string {
	switch {
	case len(parts) == 0:
		return ""
	case len(parts) > shown:
		return strings.Join(parts[:shown], "; ") + fmt.Sprintf("; and %d more.", len(parts)-shown)
	}
	return strings.Join(parts, "; ") + "."
}
