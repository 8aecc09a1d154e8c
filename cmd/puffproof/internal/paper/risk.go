package paper

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/finding"
)

// troubles shows failures and unknowns in full. Where there is none it says so
// in one line and counts what was judged.
func (b *builder) troubles() {
	b.chapter(2, "What could hurt whom")
	b.section("What fails and what is not known")
	r := b.in.Report
	if r.Holds {
		b.say("Nothing that was judged fails and nothing is unknown: " + show.Plural(show.Tally(r.Verdicts, finding.Pass),
			"question passes",
			"questions pass") + ", " + conditions(r) +
			show.Plural(show.Tally(r.Verdicts, finding.NotApplicable), "does not apply", "do not apply") +
			". Every verdict stands in part 11 with its source. " +
			"Failed tests of the real launcher belong in part 8: a file in which nothing ever failed was not tested.")
		return
	}
	t := document.Table{Caption: "Failures and unknowns, worst first",
		Head: []string{"Answer", "Question", "Value and limit", "Why", "What to do"}, Widths: []int{11, 21, 19, 25, 24}}
	for _, v := range show.Troubled(r.Verdicts) {
		t.AddToned(show.ToneOf(v.Status), document.AsStrong(show.PaperWord(v.Status)), document.Join(v.Title+" ", document.AsCode(v.ID)),
			dash(b.in.against(v))+" "+b.source(v.Source), dash(b.text(v.Why)), dash(b.text(v.Advice)))
	}
	b.add(t)
}

// conditions counts what holds on a condition; "" nothing does.
func conditions(r limits.Report) string {
	if r.Conditions == 0 {
		return ""
	}
	return show.Plural(r.Conditions, "holds on a condition that people keep", "hold on conditions that people keep") + ", "
}

// hazard is one row of the risk table; its verdicts are the evidence.
type hazard struct {
	what, who, before, control, remains string
	verdicts, items                     []string
}

// hazards lists what could hurt, the most important first. The list is the
// project's own; no source.
func hazards() []hazard {
	return []hazard{
		{"Runs after a projectile, into wheels or traffic", "children near", "killed or maimed",
			"landing zone away from wheels and road, a net, adults collect",
			"a child who breaks away", []string{"people.landing", "people.wheels"}, []string{"landing.clear", "clear.round"}},
		{"Eye, face or finger at the muzzle when it fires", "who loads, who leans over", "lost eye",
			"low pressure, guard, two actions to fire, key with the adult",
			eyeRemains, []string{"energy.total", "energy.area", "energy.fault", "shot.unasked"},
			[]string{"confirm.shots", "tip.press-test", "unasked.two-actions", "unasked.guard"}},
		{"Reloading while charged", "who loads", "lost eye", "state loading empties the dose before a hand comes near",
			"a valve that sticks: look at the gauge first",
			[]string{"loading.empty"}, []string{"loading.wait"}},
		{"Something else in the barrel: pebble, battery, wet or frozen ball", "anyone in front", "lost eye",
			"supervised loading, a muzzle that takes nothing else, look in before each load",
			"people who do not do this", []string{"misuse.objects"}, []string{"object-control.1", "object-control.2", "muzzle.look-in",
				"one-projectile", "muzzle-admits"}},
		{"Mouth or ear sealed on the muzzle", "children", "torn lung or eardrum", "a guard that cannot be sealed", "a guard that is taken off",
			[]string{"muzzle.sealed"}, []string{"seal-guard"}},
		{"Too much pressure: switch welded or turned up, wrong pump", "everyone near", "as above, or a burst",
			"relief valve that carries the whole supply, seals on switch and valve",
			"two faults at once", []string{"ladder.order", "relief.capacity", "relief.rating", "source.limited", "switch.band"},
			[]string{"relief.test", "relief.no-shut-off", "switch.test"}},
		{"Choking on a ball or a bitten piece", "under-threes", "death", "size of the projectile, none lie about, count in and out",
			"pieces", []string{"projectile.choking"}, []string{"projectile.tug-and-bite"}},
		{"Vessel or barrel bursts", "everyone near", "splinters", "parts rated for gas, proof test, relief valve, retire dates", "hidden damage",
			[]string{"vessel.rating", "vessel.material", "barrel.blocked", "stored.energy", "heat.soak"},
			[]string{"label.ratings", "end-caps", "age.retire"}},
		{"Cold, ice, wet: valves slow, foam hard", "everyone near", "harder hit",
			"limits of weather in part 3, drain the tank, dry projectiles", "frost unnoticed", nil, []string{"cold.drain"}},
		{"Pressure left in after switching off", "who strips or carries it", "hit unawares",
			"vents that open without power (what a hand opens is a condition), gauge at zero, open tag", "a gauge with a stop pin",
			[]string{"vent.shutdown", "vent.power-loss", "vent.trapped", "vent.points", "gauge.readable"},
			[]string{"vent.test", "vent.by-hand", "vent.stays-empty", "open.tag"}},
		{"Projectile stuck, freed by hand", "who frees it", "lost eye", "a hole that bleeds the barrel; jam drill of part 3",
			"haste", []string{"barrel.jammed", "barrel.stalled", "valve.differential"}, []string{"drill.jam"}},
		{"Hose lets go and whips", "who stands near", "bruise, eye", "clips, sleeve, restraint", "ageing hose", nil, []string{"leak-down"}},
		{"Noise at the ear", "rider, who loads, who stands near", "hearing", "distance, outlets turned away, a muffler on vents only " +
			"(counted in their flow), ear defenders", "an ear that is hurt by less", []string{"sound.peak"},
			[]string{"vent.outlets", "sound.hearing"}},
		{"Battery, wiring, hot pump", "who touches it", "burn, fire", "fuse in every circuit, guard on the pump head", "damage in transport",
			nil, []string{"electric.fuses"}},
	}
}

// risks is the risk assessment: one row a hazard.
func (b *builder) risks() {
	b.section("Risk assessment")
	b.say("One row for each hazard. The evidence names the verdicts of part 11 and the " +
		"items of part 8; a dash means that nothing was computed and only the control stands against it. The owner of a risk is the person who " +
		"keeps its control up: write the name in. The list is the project's own (common practice, no source): add what is special to your event.")
	t := document.Table{Caption: "Risk table", Head: []string{"Hazard",
		"Who", "Before controls", "Control", "Evidence", "What remains", "Owner"}, Widths: []int{16, 10, 9, 19, 27, 11, 8}}
	for _, h := range hazards() {
		evidence, tone := b.evidence(h)
		t.AddToned(tone, h.what, h.who, h.before, h.control, dash(evidence), b.remains(h), nil)
	}
	b.add(t)
	b.add(document.Table{Caption: "Further hazards of this event", Head: []string{"Hazard", "Who", "Control", "What remains", "Owner"},
		Rows: blanks(3, 5), Shape: document.Blanks})
}

// eyeRemains is what stays at the muzzle where every energy holds.
const eyeRemains = "an injured eye at close range all the same: published for toy foam, part 9"

// remains is what is left of a hazard once its controls are there: where a verdict of it fails or is not known they are
// not, and what it does is what it did before.
func (b *builder) remains(h hazard) string {
	var failed, open []string
	for _, id := range h.verdicts {
		switch v, ok := b.in.Report.Verdict(id); {
		case !ok:
		case v.Status == finding.Fail:
			failed = append(failed, id)
		case v.Status == finding.Unknown:
			open = append(open, id)
		}
	}
	switch {
	case len(failed) > 0:
		return "all of it, " + h.before + ": " + strings.Join(failed, ", ") + verb(len(failed))
	case len(open) > 0:
		return "not known, as bad as " + h.before + " until it is: " + strings.Join(open, ", ")
	}
	return h.remains
}

// verb is the word for one or several that fail.
func verb(n int) string {
	if n == 1 {
		return " fails"
	}
	return " fail"
}

// evidence names the verdicts and the items of the checklist that bear on a
// hazard, and the worst of the verdicts.
func (b *builder) evidence(h hazard) (string, show.Tone) {
	var parts []string
	worst := finding.Pass
	for _, id := range h.verdicts {
		v, ok := b.in.Report.Verdict(id)
		if !ok || v.Status == finding.NotApplicable {
			continue
		}
		parts = append(parts, show.PaperWord(v.Status)+" "+id)
		if show.Rank(v.Status) < show.Rank(worst) {
			worst = v.Status
		}
	}
	tone := show.Neutral
	if worst != finding.Pass {
		tone = show.ToneOf(worst)
	}
	var open []string
	for _, it := range b.in.Report.Items {
		switch {
		case !slices.Contains(h.items, it.ID):
		case it.Done == nil:
			open = append(open, it.ID)
		default:
			parts = append(parts, "done "+it.ID)
		}
	}
	if len(open) > 0 {
		parts = append(parts, "OPEN: "+strings.Join(open, ", "))
	}
	return strings.Join(parts, "; "), tone
}
