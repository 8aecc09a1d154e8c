package checklist

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"puffproof/limits/assessment"
	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// practiceItems are the hazards that only people can keep away, most important first.
func practiceItems(a *assessment.Assessment) (items []finding.Item) {
	for _, row := range []struct{ id, verdict, title, why, how string }{
		{finding.ItemLandingClear, finding.PeopleLanding, "Landing zone clear: adults collect, the vehicle stands",
			"Children run after a ball, to the wheels and into traffic.",
			"Shoot three with nobody there, in the day's wind, and mark where they come down."},
		{finding.ItemKeyAndStop, finding.ShotUnasked, "Key switch and remote stop in the hand of the adult in charge", "One person decides.",
			"Press the stop while it charges and while armed: it vents each time; two launchers never on one channel."},
		{finding.ItemElevation, finding.EnergyTotal, "Barrel fixed in elevation by stops", "It must not point at faces.",
			"Push the barrel to both stops."},
		{finding.ItemFuses, "", "Every circuit fused below its wire's rating", "A short must not make fire or a shot.",
			"Read each fuse against wire and load; battery strapped, pump allowed to cool. On the mains: a residual-current " +
				"device of 30 mA, its button pressed that day. An engine runs in the open only."},
		{finding.ItemVentOutlets, finding.VentPoints, "Vents and relief valve blow away from faces and ears; nothing on the relief valve's " +
			"outlet",
			"They hiss at full pressure and blow grit. A muffler that clogs or ices shuts what it sits on.",
			"Hold a ribbon at each outlet; listen where the rider sits. The relief valve's outlet is free: no muffler, no hose, no cap. A " +
				"muffler on a vent belongs to its flow: measure or state the vent with it, and time the emptying with it on."},
		{finding.ItemLookIn, finding.MisuseOfObjects, "Cover, drain hole and a look in before each load",
			"A stone, a pen, water or a second ball shoots harder.", "Torch along the side; water poured in runs out."},
		{finding.ItemTugAndBite, finding.ProjectileChoking, "Tug and bite test of the projectile; counted in and out",
			"A bitten-off piece chokes.", "Pull and squeeze hard for ten seconds: no piece comes off."},
		{finding.ItemColdDrain, finding.VentPowerLoss, "Drained, blown out and stored warm",
			"Ice holds relief valve and vents shut and makes foam hard.", "Open the drain until dry; lift the relief valve by hand in the cold."},
		{finding.ItemAgeRetire, finding.VesselRating, "Age and cracks of vessels, hoses and foam", "Sun, oil mist and knocks weaken them.",
			"Bright light, finger nail over every edge; dates in the parts list; anything past its date goes."},
		{finding.ItemClearAllRound, finding.EnergyTotal, "Clear zone all round, also behind, and from walls",
			"Ricochets and a breech that lets go.", "Tape on the ground; eye protection and ear defenders inside it."},
	} {
		if row.id == finding.ItemFuses && !a.Launcher.Electric() {
			continue
		}
		items = append(items, finding.Item{ID: row.id, Verdict: row.verdict, Title: finding.Words(row.title), Why: finding.Words(row.why),
			How: finding.Words(row.how), Source: practice})
	}
	for i := range items {
		items[i].Figure = practiceFigure(a.Launcher, items[i].ID)
		if undated := verdict.UndatedParts(a.Launcher); items[i].ID == finding.ItemAgeRetire && len(undated) > 0 {
			items[i].How = items[i].How.Say(" The design has no date of these, which a plate or a bill has to show: %s.",
				strings.Join(undated, ", "))
		}
		if old := verdict.OutlivedParts(a.Launcher, a.Day); items[i].ID == finding.ItemAgeRetire && len(old) > 0 {
			items[i].How = items[i].How.Say(" These are to be used longer than such parts are, which a paper of the maker or of an inspector "+
				"has to show: %s.", strings.Join(old, ", "))
		}
		if c := a.Launcher.Ambient.Coldest; items[i].ID == finding.ItemColdDrain && c.Set && c.Assumed {
			items[i].How = items[i].How.Say(" The design states no coldest: it is not filled in air below %s.",
				finding.Celsius.Of(a.Launcher.Ambient.Temperature.Low, 3))
		}
		switch items[i].ID {
		case finding.ItemClearAllRound:
			items[i].Expect = finding.Say("nobody within %s all round, behind it too, but whoever serves it", finding.Metre(items[i].Figure.Reach))
		case finding.ItemColdDrain:
			items[i].Asks = []finding.Asked{{Expected: *finding.FigureBetween(finding.InKelvin, aboveFrost, math.Inf(1)), May: true,
				Name: "where it is stored", Behind: []string{"stored", "kept", "stands"}}}
		case finding.ItemAgeRetire:
			items[i].Years, items[i].Dated = yearsOf(a), papersOf(a)
		}
		if items[i].ID == finding.ItemElevation {
			items[i].Expect = elevationExpect(a.Launcher)
		}
		if items[i].ID == finding.ItemFuses {
			items[i].Parts = fuseParts(a.Launcher)
			items[i].Expect = fusesExpect(items[i].Parts)
		}
		if items[i].ID == finding.ItemKeyAndStop && a.Launcher.Control != nil {
			items[i].How = items[i].How.Say(" Before the stop is released, or a plug goes back in, the key is turned off: a start button that " +
				"sticks would start it again.")
		}
	}
	items[0].May = finding.FigureBetween(finding.InMetre, 0, math.Inf(1)) // where they came down
	items[0].Asks = []finding.Asked{{Expected: *finding.FigureBetween(finding.InMetre, 0, math.Inf(1)),
		Name: "within what distance nobody stood", Behind: []string{"within", "nearer than", "closer than", "clear to", "clear up to"}}}
	items[0].Expect = finding.Words("nobody and no wheel that moves where a projectile can come down")
	if clear := keptClear(a); clear > 0 {
		far := &items[0].Asks[0]
		far.Reach = clear
		if all := a.Flights.ClearRadius; clear < all {
			far.Reach, far.Where, far.Nearer = all, finding.StandsIn(), clear
		}
		within := finding.Say(", within %s of the muzzle at least", finding.WorstMetre(clear))
		if all := a.Flights.ClearRadius; clear < all {
			within = finding.Say(", up to %s away; where a net, a hood or covered faces stand in for that, nobody within %s of the muzzle",
				finding.WorstMetre(all), finding.Metre(clear))
		}
		items[0].Expect = items[0].Expect.And(within)
	}
	if ev := a.Launcher.Event; ev != nil && ev.Wheels.Set {
		items[0].Expect = items[0].Expect.Say("; the vehicle's own wheels, the nearest %s from the muzzle, stand with the brake set",
			finding.Metre(ev.Wheels.Low))
	}
	return items
}

// roundIt is how far from a launcher nobody stands but whoever serves it [m] (common practice, no source).
const roundIt = 5

// clearAllRound is how far the zone all round a launcher reaches [m]: as far as that, or where the design has people nearer, who are
// judged by themselves, to these.
func clearAllRound(l *launcher.Launcher) float64 {
	clear := float64(roundIt)
	if ev := l.Event; ev != nil {
		for _, b := range [...]launcher.Band{ev.NearestPerson, ev.Kerb} {
			if b.Set && b.Low > 0 {
				clear = min(clear, b.Low)
			}
		}
	}
	return clear
}

// The fuses of a launcher's circuits [A]: own rule of this project, no source.
const (
	smallestFuse = 0.1
	largestFuse  = 100
)

// keptClear is the distance [m] within which nobody may stand as it is shot: what a projectile can reach, or where the design has
// people nearer, who are judged by themselves, that; 0: not known.
func keptClear(a *assessment.Assessment) float64 {
	if a.Flights == nil || !(a.Flights.ClearRadius > 0) {
		return 0
	}
	clear := a.Flights.ClearRadius
	if ev := a.Launcher.Event; ev != nil {
		for _, b := range [...]launcher.Band{ev.NearestPerson, ev.Kerb} {
			if b.Set {
				clear = min(clear, b.Low)
			}
		}
	}
	return clear
}

// elevationExpect is between which stops the barrel is held.
func elevationExpect(l *launcher.Launcher) finding.Text {
	low, high := l.Mount.ElevationMin, l.Mount.ElevationMax
	if !low.Set || !high.Set {
		return finding.Words("it holds at both stops")
	}
	degrees := func(v float64) string { return strconv.FormatFloat(v*180/math.Pi, 'g', 3, 64) }
	return finding.Words("both stops between " + degrees(low.Low) + " deg and " + degrees(high.High) + " deg")
}

// practiceFigure is the figure that doing an item yields; nil: it is done by looking, and told in words.
func practiceFigure(l *launcher.Launcher, id string) *finding.Expected {
	switch id {
	case finding.ItemClearAllRound: // how far all round
		return &finding.Expected{Unit: finding.InMetre, High: math.Inf(1), Reach: clearAllRound(l)}
	case finding.ItemFuses: // of each fuse
		if l.Electric() {
			e := finding.FigureBetween(finding.InAmpere, smallestFuse, largestFuse)
			if e.Least = len(fuseParts(l)); e.Least == 0 { // of a wiring that is stated they are held against its wires
				e.Wired = finding.UsualWire
			}
			return e
		}
	case finding.ItemElevation: // at its stops
		if low, high := l.Mount.ElevationMin, l.Mount.ElevationMax; low.Set && high.Set {
			return &finding.Expected{Unit: finding.InRadian, Low: low.Low, High: high.High, Least: 2}
		}
	}
	return nil
}

// fuseParts are the fuses that the wiring names, each with what may be read on it: what the design states, or where it states nothing
// what the wire behind it bears, or else any that a launcher may have; nil: it names none.
func fuseParts(l *launcher.Launcher) (out []finding.NamedPart) {
	if l.Control == nil {
		return nil
	}
	for i := range l.Control.Parts {
		p := &l.Control.Parts[i]
		if p.Kind != control.Fuse {
			continue
		}
		read := finding.FigureBetween(finding.InAmpere, smallestFuse, largestFuse)
		switch {
		case p.Rating > 0:
			read.Low, read.High = p.Least, p.Rating
		case p.Wire > 0:
			read.High = p.Wire
		}
		out = append(out, finding.NamedPart{Name: p.Name, Expected: *read})
	}
	return out
}

// fusesExpect is what is to be read on each fuse of the wiring; nil: it names none.
func fusesExpect(parts []finding.NamedPart) finding.Text {
	var each []finding.Text
	for i := range parts {
		switch p := &parts[i]; {
		case p.High == largestFuse:
			each = append(each, finding.Words(p.Name+" what its print says"))
		case p.Low == p.High:
			each = append(each, finding.Say("%s %s", p.Name, finding.Ampere(p.High)))
		case p.Low == smallestFuse:
			each = append(each, finding.Say("%s at most the %s of its wire", p.Name, finding.Ampere(p.High)))
		default:
			each = append(each, finding.Say("%s %s to %s", p.Name, finding.Ampere(p.Low), finding.Ampere(p.High)))
		}
	}
	return finding.Join(each, ", ")
}

// aboveFrost is warm enough for a launcher that was drained [K]: 5 degrees Celsius (own rule of this project, no source).
const aboveFrost = 273.15 + 5

// papersOf are the parts of which the design alone does not tell how long they may be used: those without a date, whose plate or bill has
// to show a year in which such parts are not too old, and those to be used longer than such parts are, of which a paper has to show until
// when. None without a day.
func papersOf(a *assessment.Assessment) (out []finding.Dated) {
	today, err := time.Parse(time.DateOnly, a.Day)
	if err != nil {
		return nil
	}
	undated, old := verdict.UndatedParts(a.Launcher), verdict.OutlivedParts(a.Launcher, a.Day)
	for _, p := range a.Launcher.DatedParts() {
		switch until, err := strconv.Atoi(p.Retire[:min(4, len(p.Retire))]); {
		case slices.Contains(undated, p.Table):
			out = append(out, finding.Dated{Name: p.Table, From: today.Year() - verdict.UsedFor(p), Such: today.Year()})
		case err == nil && slices.Contains(old, p.Table):
			out = append(out, finding.Dated{Name: p.Table, From: until, Such: until})
		}
	}
	return out
}

// yearsOf are the years that an answer on the age of parts may name: those of the dates of the design, and where it has no date of
// some part those of the last forty years too, as of verdict dates.past, with those in which it may be retired.
func yearsOf(a *assessment.Assessment) (years []int) {
	l := a.Launcher
	add := func(dates ...string) {
		for _, d := range dates {
			for _, part := range strings.FieldsFunc(d, func(r rune) bool { return r < '0' || r > '9' }) {
				if y, err := strconv.Atoi(part); err == nil && len(part) == 4 {
					years = append(years, y)
				}
			}
		}
	}
	for _, p := range l.DatedParts() {
		add(p.Made, p.Retire, p.Tested)
	}
	add(l.Projectile.TipProof, a.Day)
	if today, err := time.Parse(time.DateOnly, a.Day); err == nil && len(verdict.UndatedParts(l)) > 0 {
		const oldest, longest = 40, 50
		for y := today.Year() - oldest; y <= today.Year()+longest; y++ {
			years = append(years, y)
		}
	}
	return years
}
