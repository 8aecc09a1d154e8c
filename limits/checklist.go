package limits

import (
	"fmt"
	"strings"
)

// checklist collects what only a person can confirm for this design, and enters
// the answers of the design's [checklist].
func (j *judge) checklist() {
	j.shotsItem(Item{ID: "confirm.shots", Title: "Measure at least 5 shots at a known pressure", Verdict: "energy.total",
		Why:    "A verdict on the model alone is not a measurement of this launcher.",
		How:    "Chronograph or phone video, one pressure, at least two projectiles, every shot written down; nobody in front.",
		Expect: j.expectShots(), Source: "own rule of this project"})
	if it, ok := TipItem(j.Launcher.Projectile); ok {
		j.item(it)
	}
	j.item(Item{ID: "label.ratings", Title: "Photograph the rating label of every vessel and of the barrel", Verdict: "vessel.rating",
		Why: "rated_pressure and rated_for_gas are declarations until a label or a document shows them.",
		How: "Pressure, medium and temperature must be readable.", Expect: j.expectRatings(), Source: "common practice, no source"})
	if j.Launcher.Projectile.ContactDiameter.Set {
		j.item(Item{ID: "contact.print", Title: "Contact print of the tip", Verdict: "energy.area",
			Why: "Energy per area rests on the measured print, not on the diameter.",
			How: "Stamp-pad ink on the tip, a shot at the lowest working pressure on paper over a board, mean of 5, two directions.",
			Expect: fmt.Sprintf("a print between %s and %s across", millimetre(j.Launcher.Projectile.ContactDiameter.Low),
				millimetre(j.Launcher.Projectile.ContactDiameter.High)), Figure: figureBetween(InMetre, j.Launcher.Projectile.ContactDiameter.Low, j.Launcher.Projectile.ContactDiameter.High), Source: "own rule of this project"})
	}
	j.controlItems()
	j.ventItems()
	j.faultItems()
	j.practiceItems()
}

func (j *judge) controlItems() {
	b := &j.Launcher.Barrel
	if !j.anythingEnters() {
		j.item(Item{ID: "one-projectile", Title: "One projectile at a time, dry and not frozen", Verdict: "misuse.objects",
			Why: "Nothing else gets in, but two projectiles, a soaked or a frozen one may hit harder than a rigid one may.",
			How: "Look in before each load; squeeze each projectile; none that is wet, icy or hard.", Source: "own rule of this project"})
	}
	for i, c := range b.ObjectControl {
		j.item(Item{ID: fmt.Sprintf("object-control.%d", i+1), Title: "Keep up: " + c, Verdict: "misuse.objects",
			Why: "Without it anything in the barrel flies with more than the rigid limit.",
			How: "Name the adult; try it on the day with the people who will do it.", Source: "own rule of this project"})
	}
	if Declared(b.SealGuard) != "" {
		j.item(Item{ID: "seal-guard", Title: "Inspect the guard: " + b.SealGuard, Verdict: "muzzle.sealed",
			Why: "Sealed lips or an ear on the muzzle would take the whole charge.",
			How: "Press a wet hand on it: air must still get past.", Source: "own rule of this project"})
	}
	if b.MuzzleAdmits.Set {
		j.item(Item{ID: "muzzle-admits", Title: "Inspect what the muzzle lets in", Verdict: "misuse.objects",
			Why: "The list of objects was cut to those that pass the declared opening.", How: "Try a drill shank of the next size.",
			Expect: fmt.Sprintf("nothing above %s goes in", millimetre(b.MuzzleAdmits.High)), Source: "own rule of this project"})
	}
	if b.FixedSeat {
		j.item(Item{ID: "seat-stop", Title: "Inspect the stop that fixes the seating", Verdict: "energy.total",
			Why: "Only the stated travel was judged.", How: "Load ten times by two people and measure the depth.", Source: "own rule of this project"})
	}
}

func (j *judge) expectShots() string {
	e := j.Energy
	if e == nil || j.NoStart != "" {
		return ""
	}
	return fmt.Sprintf("about %s m/s at the cut-out; every shot below %s", significant(e.NominalMax.FinalSpeed, 2), joule(e.Model))
}

func (j *judge) expectRatings() string {
	var parts []string
	for _, p := range j.parts() {
		if p.rated.Set {
			parts = append(parts, fmt.Sprintf("%s at least %s for air", p.name, bar(p.top)))
		}
	}
	return strings.Join(parts, ", ")
}

// item adds an item with its answer, if the design has one.
func (j *judge) item(it Item) {
	j.answer(&it)
	j.report.Items = append(j.report.Items, it)
}

// energyLimits are the limits of the design; a press test on the checklist
// proves the tip.
func (j *judge) energyLimits() (EnergyLimits, error) {
	p := j.Launcher.Projectile
	if j.confirmed(tipItemID) && strings.TrimSpace(p.TipProof) == "" {
		p.TipProof = "checklist"
	}
	return LimitsOf(j.Launcher.Limits, p)
}

// tipItemID is the item of TipItem.
const tipItemID = "tip.press-test"
