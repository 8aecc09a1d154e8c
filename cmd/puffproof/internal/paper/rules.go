package paper

import (
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/drill"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// rules are the rules of use. Those with a figure take it from the design.
func (b *builder) rules() {
	b.chapter(3, "Rules of use")
	in, l := b.in, b.in.Launcher
	if _, tone := b.finding(); tone == show.Bad {
		b.noRules()
		return
	}
	b.say("Read them aloud before the first shot. Rules without a source are common practice.")
	e := l.Event
	if e == nil {
		e = &launcher.EventSpec{}
	}
	items := []any{
		"One adult is in charge, keeps the key and the stop, and has no other task. Only that adult fires.",
		"Only that adult, or a person named here, loads: ________. Loading is done with the launcher switched to loading, the gauge read " +
			"first, and the wait of the checks (loading.wait) kept: a gauge shows only the vessel that it sits on.",
		"Load one dry projectile of the stated kind. Before each load, from the side and with a light: " + b.emptyBarrel() +
			". Never load anything else.",
		b.distanceRule(),
		"Everyone near the launcher wears eye protection.",
	}
	if l.Mount.ElevationMin.Set && l.Mount.ElevationMax.Set {
		items = append(items, "The barrel stays between "+in.asStated(quantity.Angle, l.Mount.ElevationMin.Nominal)+" and "+
			in.asStated(quantity.Angle, l.Mount.ElevationMax.Nominal)+" above the horizon; the stops are fixed.")
	} else {
		items = append(items, "The barrel's elevation is fixed before people come near: ________.")
	}
	items = append(items, b.weatherLine())
	if e.Youngest.Set {
		items = append(items, "Nobody younger than "+in.asStated(quantity.Age, e.Youngest.Nominal)+" near it.")
	}
	items = append(items, "Projectiles are collected by adults only, after the stop word, and counted.",
		"Stop word: "+drill.Stop(b.in.Launcher), "A projectile is stuck: "+b.jamLine(),
		"First aid: a hit eye is covered, not rubbed, and goes to a doctor the same day. Name the first-aider: ________.",
		"It ends the day: a failed check before use, a projectile that flies oddly, an air leak, a part that came loose, a rule "+
			"that was broken twice.")
	b.list(items...)
	b.conditionRules()
}

// emptyBarrel is what is looked for before a load.
func (b *builder) emptyBarrel() string {
	if b.in.Launcher.Barrel.Fit == pneumatics.OverTube {
		return "the tube and its mouth are free, nothing sticks in it"
	}
	return "the bore is empty"
}

// conditionRules are the conditions that answers of this file rest on: without them it does not hold.
func (b *builder) conditionRules() {
	var items []any
	for _, v := range show.WithStatus(b.in.Report.Verdicts, finding.Conditional) {
		t := strings.TrimRight(b.text(v.Condition), ". ")
		items = append(items, document.Join(document.AsStrong(v.Title), ": "+t+show.ItemsOf(v)+"."))
	}
	if len(items) > 0 {
		b.say("These are rules as well: answers of this file hold only while they are kept.")
		b.list(items...)
	}
}

// noRules stands where nobody may use it: rules of use would read as leave to.
func (b *builder) noRules() {
	b.tell(show.Bad,
		document.AsStrong("There are none: it is not to be used. "), "Rules of use are written into the file of a design that holds. Until then:")
	b.list(
		"Nobody fills it, nobody loads it. A tag on it says so.",
		"Still filled: "+b.emptyingLine(),
		"Stop word: "+drill.Stop(b.in.Launcher),
		"A projectile is stuck: "+b.jamLine(),
		"First aid: a hit eye is covered, not rubbed, and goes to a doctor the same day.")
}

// place is the plan of the place, to be drawn.
func (b *builder) place() {
	b.chapter(4, "Plan of the place")
	unitName := "metres"
	if b.in.Units == quantity.US {
		unitName = "feet"
	}
	b.say("Draw: launcher and muzzle direction, rider, clear zone, landing zone, wheels and road, adults, exits, wind. Give distances " +
		"in " + unitName + ".")
	in, e := b.in, b.in.Launcher.Event
	if e != nil {
		t := document.Table{Caption: "Distances stated in the design", Head: []string{"What", "Distance"}, Shape: document.Narrow}
		for _, d := range []struct {
			name string
			band launcher.Band
		}{{"nearest person to the muzzle", e.NearestPerson}, {"spectators (kerb) to the muzzle", e.Kerb},
			{"nearest wheel to the muzzle", e.Wheels},
			{"nearest ear to the muzzle", e.EarToMuzzle}, {"nearest eye to the muzzle", e.EyeToMuzzle},
			{"muzzle above the ground", e.MuzzleHeight}} {
			t.Add(d.name, in.band(d.band, quantity.Length))
		}
		b.add(t)
	}
	b.clearZone()
	b.add(document.Space{Caption: "Plan", Height: 85, Least: 60})
}

// clearZone is where the projectile can come down.
func (b *builder) clearZone() {
	f, in := b.in.Flights, b.in
	if f == nil {
		b.say("Landing zone and clear zone are not computed" + show.Lead(": ", b.in.NoFlight) + ".")
		return
	}
	far := func(m float64) string { return in.Units.Worst(quantity.Length, m) }
	t := document.Table{Caption: "Clear zone, from the fastest shot over every elevation and wind of the design", Head: []string{"What",
		"Distance"},
		Shape: document.Narrow}
	t.Add("clear of people, all round the muzzle", document.AsStrong(far(f.ClearRadius)))
	t.Add("farthest landing ahead", far(f.Ahead))
	t.Add("farthest landing behind", far(f.Behind))
	t.Add("of that, allowance for bounce and roll", far(f.Bounce))
	for _, s := range f.Standing {
		where := "outside the landing zone"
		tone := show.Neutral
		if s.Inside {
			where, tone = "INSIDE the landing zone", show.Open
		}
		t.AddToned(tone, s.Name+", at "+far(s.Distance), where)
	}
	b.add(t)
	for _, n := range f.Notes {
		b.tell(show.Faint, b.text(n))
	}
}

// photographs says where they are.
func (b *builder) photographs() {
	b.chapter(5, "Photographs")
	b.say("The list of those that belong to this file, and room for them, stand in the appendix. The drawing of part 6 must agree with them.")
}

// photographList lists the pictures that an organiser looks for, with room for them.
func (b *builder) photographList() {
	b.section("Photographs of part 5")
	b.say("One for each, with an arrow on what it shows and the date on it, here or attached.")
	gauge := "gauge at zero, and at the working pressure"
	if b.notBefore() != "" {
		gauge = "gauge at zero; none with air in it: it is not to be filled"
	}
	b.boxes(
		"nameplates and rating labels of every vessel, hose and valve",
		"relief valve, its setting and its seal; nothing between it and the vessel",
		"pressure switch, its screw sealed",
		gauge,
		"muzzle with its guard, and the probe of item unasked.guard that cannot reach the bore",
		"key switch, remote stop, fuses",
		"the projectile and its contact print beside a rule")
	b.add(document.Space{Caption: "Photographs", Height: 130, Least: 40})
}

// signatures close the file.
func (b *builder) signatures() {
	b.chapter(11, "Signatures")
	b.say("Who signs has seen the launcher, read parts 1 to 3, and knows what is open. The builder alone is not enough. " +
		"A change of the build voids the signatures: puffproof verify says which.")
	b.add(document.Table{Caption: "Signatures",
		Head: []string{"As", "Name", "Signature", "Date"}, Shape: document.Blanks, Widths: []int{34, 24, 27, 15}, Rows: [][]document.Text{
			{document.Own("builder"), nil, nil, nil},
			{document.Own("adult in charge"), nil, nil, nil},
			{document.Own("second person, who did the tests of part 8"), nil, nil, nil},
			{document.Own("for the organiser"), nil, nil, nil},
		}})
}
