package paper

import (
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/show"
)

// inspection is the plan of inspections and the log.
func (b *builder) inspection() {
	b.chapter(10, "Inspection plan and log")
	if _, tone := b.finding(); tone == show.Bad {
		b.tell(show.Bad, "In force only once the design holds: it is not to be used as it is.")
	}
	t := document.Table{Caption: "What is looked at when (common practice, no source, except where a part says so)",
		Head: []string{"When", "What", "Who"}, Widths: []int{20, 65, 15}}
	row := func(when, what string) {
		t.Add(when, what, nil)
	}
	row("before each use", b.weighed()+"gauge at zero before filling; guard, stop, key and clips in place; relief valve lifted by hand; "+
		"projectiles dry, soft, whole, counted; bore empty; one vent test with the stopwatch")
	row("during use", "air leaks, odd flights, loose parts; gauge after each switching off")
	row("after use", "vented, drained, gauge at zero for a minute, open tag hung on, projectiles counted, stored dry and frost-free")
	row("each year", "all tests of part 8 again; vessels for rust, cracks and dents; hoses for age; this file made again")
	row("after a repair or a change", "design file corrected, puffproof verify run, the tests it names done again; a second person signs")
	row("retire", "what is past its date, dented, cracked, dropped, of unknown age, or has lost its label")
	b.add(t)
	if due := b.in.Launcher.DueDates(b.in.Date); len(due) > 0 {
		d := document.Table{Caption: "Due dates, earliest first", Head: []string{"Date", "What"}, Shape: document.Narrow}
		for _, one := range due {
			tone := show.Neutral
			if one.Date < b.in.Date {
				tone = show.Bad
			}
			d.AddToned(tone, one.Date, one.What)
		}
		b.add(d)
	}
	b.say("Parts without a date: find out how old they are, or replace them.")
	b.add(document.Table{Caption: "Log of use, incidents and near misses", Head: []string{"Date", "Event", "What happened", "What was done",
		"Initials"}, Rows: blanks(4, 5), Shape: document.Blanks, Widths: []int{12, 18, 33, 27, 10}})
	b.section("Other papers an organiser asks for")
	b.boxes(
		"insurance of the event and of the vehicle",
		"electrical check: battery, charger, fuses below the rating of their wires",
		"manual stop tested with the vehicle",
		"transport and storage: empty, vented, valve locked open",
		"who may repair it")
}
