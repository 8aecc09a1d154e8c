package verdict

import (
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// DesignNotes say what of a design is taken in a way that its builder may not have
// meant.
func DesignNotes(a *assessment.Assessment) (out []finding.Text) {
	l := a.Launcher
	if n := len(l.ToFind); n > 0 {
		have := "%d keys have"
		if n == 1 {
			have = "%d key has"
		}
		out = append(out, finding.Say("To find out: "+have+" \"?\": %s (puffproof keys TABLE says how).", n, strings.Join(l.ToFind, ", ")))
	}
	if len(l.Narrow) > 0 {
		var each []finding.Text
		for _, n := range l.Narrow {
			each = append(each, finding.Say("%s (%s: %s as a rule)", n.Key, n.Origin, n.Usual))
		}
		out = append(out, finding.Say("The tolerance of %s is stated narrower than anything so known is: it counts as stated, and what is "+
			"computed with it holds only if that is true. State what the instrument can tell.", finding.Join(each, ", ")))
	}
	for _, g := range l.TooGood {
		out = append(out, finding.Say("%s says %s, which no such part has (common practice, no source): it counts as not stated, "+
			"%s. %s", g.Key, g.Stated, g.Counts, g.Do))
	}
	if b := l.Bench; b != nil {
		for _, c := range b.Clashes {
			out = append(out, c.Says().Say("."))
		}
		out = append(out, b.Silent...)
	}
	if into := l.IntoBarrel(); len(into) > 1 {
		var names []string
		for _, i := range into {
			names = append(names, "paths."+l.Paths[i].Name)
		}
		out = append(out, finding.Say("%s all lead into this one barrel and are judged so, on one projectile: to be confirmed (item %s). "+
			"Another barrel needs a file of its own, in which the valves of the others stay shut.", strings.Join(names, ", "),
			finding.ItemOneBarrel))
	}
	for i := range l.Paths {
		if p := &l.Paths[i]; p.OpensFirst && p.Kind == pneumatics.Valve {
			out = append(out, finding.Say("paths.%s lies in series with another valve that opens for a shot, and nothing says that one press opens "+
				"both at once: each order is judged, the first of them wide open before the last. Where one load of [control] moves both, or one "+
				"button does, state it there.", p.Name))
		} else if p.OpensFirst {
			out = append(out, finding.Say("paths.%s is turned by hand and lies in series with a valve that opens for a shot: each order is "+
				"judged, the first of them wide open before the last. Where it always stands open before, write \"armed\" into its open_in, or "+
				"leave one of the two out.", p.Name))
		}
	}
	if e := a.Energy; e != nil && e.Rest.Set {
		where := "Against what is open while it fills the supply comes to rest at %s, over the tolerances %s"
		switch l.Stops() {
		case launcher.StopTimer:
			where = "Against what is open while it fills the supply gets to %s until the timer stops it, over the tolerances %s"
		case launcher.StopSwitch:
			where += ", and the switch does not stop it"
		}
		out = append(out, finding.Say(where+": from there are the nominal shot and the weakest. What is judged is from up to %s: a hole gets "+
			"blocked, and nobody notices.", finding.Bar(e.Rest.Nominal),
			finding.Bar(e.Rest.Low).To(finding.Bar(e.Rest.High)), finding.WorstBar(e.StartHigh)))
	}
	if s := l.Supply; s != nil && s.Regulated() {
		out = append(out, finding.Words("Where a step speaks of the plug of the supply: of a main or a cylinder that is its shut-off, shut, and "+
			"its hose off; where a step listens to the pump, the gauge alone tells."))
	}
	if l.Squeezed() {
		out = append(out, finding.Words("The projectile is wider than its bore: taken as soft foam that is squeezed in, without a gap. What "+
			"holds it, breakaway_force and sliding_force, is then worth measuring in this bore."))
	}
	if _, at, other := doubt.OtherCurve(l); other {
		out = append(out, finding.Say("supply.curve falls at %s to less than a third of what the straight line from free_air to dead_head has "+
			"there, as no such source does (common practice, no source): the more of both counts. One of the three is a slip: state "+
			"as dead_head what the gauge comes to with everything shut.", finding.Bar(at)))
	}
	if stated, left, other := doubt.OtherClearance(l); other {
		out = append(out, finding.Say("projectile.clearance says %s, and the two diameters leave %s: the smallest of both counts too. One "+
			"of the three is a slip; clearance is the difference of the diameters, twice the gap on one side.",
			finding.Millimetre(stated.Low).To(finding.Millimetre(stated.High)), finding.Millimetre(left.Low).To(finding.Millimetre(left.High))))
	}
	if stated, left, other := doubt.OtherDeadVolume(l); other && l.Barrel.DeadVolumeSaid.Doubted() {
		volume := func(v float64) finding.Shown { return finding.Shown{Value: v, Unit: finding.Millilitres, Digits: 3} }
		out = append(out, finding.Say("barrel.dead_volume says %s, and this barrel leaves %s behind the projectile: all of both counts. One "+
			"of the figures is a slip. A hose or a pipe between valve and breech belongs to its path (hose, side \"after\"), a chamber there is a "+
			"volume of its own; if both are right, item %s shows it.",
			volume(stated.Low).To(volume(stated.High)), volume(left.Low).To(volume(left.High)), finding.ItemDeadVolume))
	}
	out = append(out, frictionNotes(&l.Projectile)...)
	if stated, foam, other := doubt.OtherMass(l); other {
		out = append(out, finding.Say("projectile.mass says %s, and foam of its size has %s: all of both counts. One of mass and diameter is a "+
			"slip, or it is no foam (densities: common practice, no source).",
			finding.Grams.Of(stated.Low, 3).To(finding.Grams.Of(stated.High, 3)), finding.Grams.Of(foam.Low, 3).To(finding.Grams.Of(foam.High, 3))))
	}
	if stated, round, other := doubt.OtherPrint(l); other && l.Projectile.ContactSaid.Doubted() {
		out = append(out, finding.Say("projectile.contact_diameter says %s or more, nearly as wide as the projectile, and a ball never touches "+
			"with all of it: a print from %s on counts too. If its face is flat all over, item %s shows it (common practice, no source).",
			finding.Millimetre(stated.Low), finding.Millimetre(round.Low), finding.ItemPrint))
	}
	for i := range l.Paths {
		if p := &l.Paths[i]; p.OpeningSaid.Doubted() {
			out = append(out, finding.Say("paths.%s.opening_time says %s or more, and a valve of this drive takes up to %s as a rule: opening at "+
				"once counts too. What a motor turns may be that slow: item %s shows it.", p.Name,
				finding.Millisecond(p.OpeningSaid.Low), finding.Millisecond(p.Usual), finding.ItemOpeningTime))
		}
		if p := &l.Paths[i]; p.PulseSaid.Doubted() {
			out = append(out, finding.Say("paths.%s.pulse may end after %s, before the valve is open, %s: how far it opens in a part of that time "+
				"is not known, so opening fully counts too.", p.Name, finding.Millisecond(p.PulseSaid.Low), finding.Millisecond(p.OpeningTime.High)))
		}
		if stated, fed, other := doubt.OtherFlow(l, i); other && l.Paths[i].FlowSaid.Doubted() {
			out = append(out, finding.Say("%s lets through as much as an ideal hole of %s does, and what it feeds is %s wide: far less than a "+
				"firing valve for that passes, and as much as a hole as wide as it counts too. A decimal point, or Cv, Kv and bore mixed up? If it "+
				"is right, item %s shows it.", l.Paths[i].Flow.Value.Key, finding.Millimetre(launcher.Across(stated.High)),
				finding.Millimetre(launcher.Across(fed.High)), finding.ItemPassage))
		}
	}
	switch pull, hold, rolls := l.RollsOut(); {
	case rolls && pull <= hold:
		out = append(out, finding.Say("At its lowest elevation the barrel points down, and the projectile has a gap all round: it rolls out by "+
			"itself. Its weight pulls with up to %s; the stated breakaway force of %s or more needs something that touches it, such as a "+
			"detent or a seat that grips. Keep the barrel at level or above while it is loaded.", finding.Newton(pull), finding.Newton(hold)))
	case rolls:
		out = append(out, finding.Say("At its lowest elevation the barrel points down, and a loose projectile rolls out by itself: its weight "+
			"pulls with up to %s, its breakaway force may be as little as %s. Keep the barrel at level or above while it is loaded.",
			finding.Newton(pull), finding.Newton(hold)))
	}
	return out
}

// frictionNotes say what of the friction of a projectile is doubted.
func frictionNotes(p *launcher.ProjectileSpec) (out []finding.Text) {
	ends := func(s launcher.Said) finding.Text {
		if s.Low == s.High {
			return finding.Say("%s", finding.Newton(s.Low))
		}
		return finding.Say("%s", finding.Newton(s.Low).To(finding.Newton(s.High)))
	}
	was := func(s launcher.Said, b launcher.Band) launcher.Said {
		s.Keep(b)
		return s
	}
	slides := was(p.SlidingSaid, p.Sliding)
	if p.SlidingSaid.Doubted() {
		out = append(out, finding.Say("projectile.sliding_force says %s, more than what starts it (breakaway_force %s): at rest dry friction is "+
			"at least that in motion. The smaller counts too; one of the figures is a slip.", ends(slides),
			ends(was(p.BreakawaySaid, p.Breakaway))))
		if p.Restart.Set && !p.RestartSaid.Doubted() && slides.Low > p.Restart.High {
			out[0] = finding.Say("projectile.sliding_force says %s, more than what starts it again (restart_force %s): at rest dry friction is "+
				"at least that in motion. The smaller counts too; one of the figures is a slip.", ends(slides),
				ends(launcher.Said{Low: p.Restart.Low, High: p.Restart.High}))
		}
	}
	for _, hold := range []struct {
		key  string
		said launcher.Said
	}{{"breakaway_force", p.BreakawaySaid}, {"restart_force", p.RestartSaid}} {
		if hold.said.Doubted() {
			out = append(out, finding.Say("projectile.%s says %s, many times what it slides with (sliding_force %s): one that is loaded anew "+
				"may let go far sooner, and what it slides with counts too. A detent that grips is judged so as well, for it wears.", hold.key,
				ends(hold.said), ends(slides)))
		}
	}
	if p.HeldFast {
		out = append(out, finding.Words("As stated, what holds the projectile lets none of its shots out, or none faster than it creeps: it is "+
			"judged as one that may also be held by nothing. Nothing passes by being slow."))
	}
	return out
}
