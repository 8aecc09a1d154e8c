package paper

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/hazard"
)

// bowties are the top events, one on a page: fault, barriers, event, barriers, harm.
func (b *builder) bowties() {
	ties := hazard.Ties(b.in.Launcher, b.in.Report.Verdicts, b.in.Report.Items, b.in.Faults)
	for i := range ties {
		t := &ties[i]
		b.add(document.Heading{Level: 3, Text: fmt.Sprintf("Top event %d of %d: %s", i+1, len(ties), t.Event), ID: "event-" + t.ID, Break: true})
		if i == 0 {
			b.say("A bow-tie has, from the left: the single faults that can bring a top event about, worst first, each with what holds or shows " +
				"it; the barriers of the hazard log before the event; the event; the barriers behind it; the harm, with its risk before " +
				"any measure and as it is now. A thick outline is a barrier in force, a dashed one is not proved yet, a crossed one fails; a thin " +
				"one tells how a fault would be seen and what is advised against it, which nothing in this file shows.")
		}
		const pageHigh = 215 // [mm]
		f := b.bowtie(t).Fit(pageHigh, func(n int) string { return fmt.Sprintf("and %d more, in the table of single faults", n) })
		b.draw("Top event: "+t.Event+".", b.bowtieWords(t), f.Draw)
	}
}

// bowtie is a bow-tie to draw.
func (b *builder) bowtie(t *hazard.Tie) figure.Bowtie {
	f := figure.Bowtie{Event: t.Event}
	for i := range t.Threats {
		th := &t.Threats[i]
		r := &th.Fault
		says := document.AsGiven(r.Name()).String() + faultState(r.State)
		if !math.IsNaN(r.Judged) && r.Judged > 0 {
			says += ": " + b.in.Units.Worst(quantity.Energy, r.Judged) + " judged, " + show.PaperWord(r.Status)
		} else {
			says += ": " + show.PaperWord(r.Status)
		}
		own := figure.BowtieBox{Text: show.Joined("; ", b.text(r.PreventedBy), show.Lead("seen: ", b.text(r.DetectedBy)))}
		switch {
		case th.Item != "" && th.Done:
			own.State, own.Text = figure.BarrierStands, own.Text+"; done: "+th.Item
		case th.Item != "":
			own.State, own.Text = figure.BarrierOpen, own.Text+"; OPEN: "+th.Item
		}
		f.Threats = append(f.Threats, figure.BowtieThreat{Text: says, Own: own})
	}
	f.Before, f.Behind = barrierBoxes(t.Before), barrierBoxes(t.Behind)
	for _, h := range t.Harms {
		f.Harms = append(f.Harms, h.Harm+" ("+h.Who+"); before "+risk(h.Before)+", now "+risk(h.After))
	}
	return f
}

func barrierBoxes(all []hazard.Barrier) []figure.BowtieBox {
	var out []figure.BowtieBox
	for _, m := range all {
		box := figure.BowtieBox{Text: stepWord[m.Step] + ": " + m.What}
		switch m.State {
		case hazard.InForce:
			box.State = figure.BarrierStands
		case hazard.Unproved:
			box.State = figure.BarrierOpen
			open := "nothing shows it"
			if len(m.Open) > 0 {
				open = strings.Join(m.Open, ", ")
			}
			box.Text += ". OPEN: " + open
		case hazard.Failing:
			box.State = figure.BarrierFails
			box.Text += ". FAILS: " + strings.Join(m.Fails, ", ")
		}
		if len(m.Conditions) > 0 && m.State != hazard.Failing {
			box.Text += ". " + show.PaperWord(finding.Conditional) + ": " + strings.Join(m.Conditions, ", ")
		}
		out = append(out, box)
	}
	return out
}

// bowtieWords say what a bow-tie shows, all of its faults.
func (b *builder) bowtieWords(t *hazard.Tie) string {
	f := b.bowtie(t)
	var faults, before, behind []string
	for _, th := range f.Threats {
		faults = append(faults, th.Text+show.Lead(" (", th.Own.Text)+")")
	}
	for _, m := range f.Before {
		before = append(before, m.Text)
	}
	for _, m := range f.Behind {
		behind = append(behind, m.Text)
	}
	return "Bow-tie. Faults: " + strings.Join(faults, "; ") + ". Barriers before: " + strings.Join(before, "; ") + ". Event: " + t.Event +
		". Barriers behind: " + strings.Join(behind, "; ") + ". Harm: " + strings.Join(f.Harms, "; ") + "."
}
