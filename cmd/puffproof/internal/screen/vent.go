package screen

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// VentScreen shows how a launcher empties.
type VentScreen struct {
	Frame
	Report *vent.Report
	Sizes  []vent.Size       // nil: not asked
	Log    *stopwatch.Answer // nil: not asked
	Leak   *vent.LeakAnswer  // nil: not asked
}

// Write prints the screen.
func (v *VentScreen) Write(w io.Writer) error {
	r := v.Report
	return v.write(w, show.Wrap(v.finding(), v.Width, "", ""), v.design, v.writeLog, v.writeLeak, v.writeCases, v.writeSheets,
		v.writeLeakSheets,
		v.writeSizes, v.writeNotes, v.verdicts(r.Verdicts), v.items(r.Items), v.cautions)
}

// finding is the first line.
func (v *VentScreen) finding() string {
	r := v.Report
	if logs := v.logFinding(); logs != "" {
		return logs
	}
	if len(r.Trouble) != 0 {
		return v.paint(yellow, "NOT KNOWN: "+v.text(r.Trouble)+".")
	}
	pushed := ""
	if p := hardest(r.Pushes); p != nil {
		pushed = fmt.Sprintf(" Venting pushes a loaded projectile out with %s (shot.unasked).", v.Units.Worst(quantity.Energy, p.Judged))
	}
	if len(show.Troubled(r.Verdicts)) > 0 {
		return v.paint(red, "DOES NOT HOLD: "+show.Troubles(r.Verdicts)+"."+pushed)
	}
	if pushed != "" {
		return v.paint(yellow, "Empties by itself, but through the barrel."+pushed)
	}
	if len(r.ByHand) > 0 {
		return v.paint(yellow, "Empties once a hand has opened "+show.Clean(strings.Join(r.ByHand, ", "))+", on the model: not by itself.")
	}
	return v.paint(green, "Empties by itself, on the model: test it by the stopwatch.")
}

// hardest is the push with the most energy; nil: none moves a projectile out.
func hardest(all []vent.BarrelPush) *vent.BarrelPush {
	var worst *vent.BarrelPush
	for i := range all {
		if p := &all[i]; p.Speed > 0 && !p.Bound && (worst == nil || p.Energy > worst.Energy) {
			worst = p
		}
	}
	return worst
}

func (v *VentScreen) writeLog() {
	a := v.Log
	if a == nil {
		return
	}
	t := v.grid()
	row := func(name, value string) { t.add("  "+name, value) }
	row("readings used", fmt.Sprintf("%d in %s", a.Count, show.Plural(a.Runs, "run", "runs")))
	if a.Hidden > 0 {
		row("left out", fmt.Sprintf("%d, hidden by the stop pin", a.Hidden))
	}
	if !math.IsNaN(a.Opening) {
		row("effective opening", quantity.Number(100*a.Opening, 2)+" % of the designed one")
		row("agrees between", quantity.Number(100*a.Low, 2)+" and "+quantity.Number(100*a.High, 2)+" %")
		if !math.IsNaN(a.Bore) {
			row("as a bore of", v.Units.Near(quantity.Length, a.Bore)+" ("+show.Clean(a.Path)+")")
		}
		row("gauge at zero reads", v.Units.Near(quantity.Gauge, a.Zero))
		row("readings told apart to", v.Units.Near(quantity.Gauge, a.Resolves))
		row("off the fitted course by", v.Units.Near(quantity.Gauge, a.RMS)+" (root mean square)")
	}
	v.printTable(t)
}

// writeCases prints one line for each volume and reason: the state that takes
// longest.
func (v *VentScreen) writeCases() {
	t := v.grid("Slowest of all states", "gauge", "at most", "expected", "at least", "")
	var kind vent.Kind
	for _, c := range slowestCases(v.Report.Cases) {
		if c.Kind != kind {
			kind = c.Kind
			t.add("  " + string(kind))
		}
		most, expected, least := timeOr(v.Style, c.Slowest), timeOr(v.Style, c.Expected), timeOr(v.Style, c.Fastest)
		if held(c, v.Report.Target) {
			most, expected, least = "-", "-", "-"
		}
		from := v.Units.Near(quantity.Pressure, c.Start)
		t.add("    from "+c.From.String()+": "+show.Shorten(show.Clean(c.Volume), 10), from, most, expected, least,
			v.paint(ventColour(c.Status), strings.ToUpper(string(c.Status))))
	}
	v.printTable(t)
	for _, c := range slowestCases(v.Report.Cases) {
		if held(c, v.Report.Target) {
			what := "a volume that holds no more than the target at the start"
			if c.Volume == "barrel" {
				what = "a projectile that sticks holds no more behind it"
			}
			v.sayf("  ", "  ", "%s, %s: up to %s, %s; the target is %s.", show.Clean(c.Scenario), show.Clean(c.Volume),
				v.Units.Worst(quantity.Gauge, c.Start), what, v.Units.Near(quantity.Gauge, v.Report.Target))
		}
		if len(c.Missing) != 0 {
			v.say("  ", "  ", show.Clean(c.Scenario)+", "+show.Clean(c.Volume)+": missing is "+v.text(c.Missing)+".")
		}
	}
}

// held tells that a volume is at the target from the start: it has no time.
func held(c vent.Case, target float64) bool { return !c.Trapped && c.Start <= target }

func timeOr(s Style, t float64) string {
	if math.IsInf(t, 1) {
		return "never"
	}
	return s.Units.Worst(quantity.Time, t)
}

func ventColour(st vent.Status) string {
	if st == vent.Vented {
		return green
	}
	return red
}

// slowestCases keeps, for each reason and volume, the worst state.
func slowestCases(all []vent.Case) []vent.Case {
	var out []vent.Case
	for _, c := range all {
		found := false
		for i := range out {
			if out[i].Kind == c.Kind && out[i].Volume == c.Volume {
				found = true
				if c.Slowest > out[i].Slowest {
					out[i] = c
				}
			}
		}
		if !found {
			out = append(out, c)
		}
	}
	return out
}

func (v *VentScreen) writeSheets() {
	for _, c := range v.Report.Tests {
		if len(c.Sheet) == 0 {
			continue
		}
		v.gaugeSheet("Stopwatch test of ", c.Volume, c.Sheet)
		ends := "It never gets to the target."
		if !math.IsInf(c.Slowest, 1) {
			ends = show.AtMostToTarget(v.Units, c.Slowest)
		}
		v.say("  ", "  ", show.ReadBy(&c)+v.Report.Filled+", arm, cut the power. "+ends+show.Levelled(v.Units, v.Report, c.Volume))
		if !c.Trapped {
			v.say("  ", "  ", show.ComesBack(v.Units, c.Rebound))
		}
	}
}

// gaugeSheet prints the readings to expect, with a blank for what is read.
func (s *Frame) gaugeSheet(test, volume string, sheet []vent.Reading) {
	t := s.grid(test+show.Shorten(show.Clean(volume), 14), "lowest", "expected", "highest", "read")
	for _, r := range sheet {
		t.add("  "+s.Units.Near(quantity.Time, r.Time), s.reads(r.Low), s.reads(r.Gauge), s.reads(r.High), "______")
	}
	s.printTable(t)
	if vent.Filmed(sheet) {
		s.say("  ", "  ", show.FilmIt())
	}
}

// reads shows a gauge reading; what no gauge shows is zero.
func (s Style) reads(p float64) string {
	const nothing = 100 // [Pa]
	if math.Abs(p) < nothing {
		return "0"
	}
	return s.Units.Near(quantity.Pressure, p)
}

func (v *VentScreen) writeSizes() {
	if v.Sizes == nil {
		return
	}
	v.heading("Vent that empties each volume in the time")
	for _, z := range v.Sizes {
		v.say("  ", "    ", sizeWords(v.Style, z))
	}
}

func sizeWords(s Style, z vent.Size) string {
	name := show.Clean(z.Volume)
	if math.IsNaN(z.Drill) {
		return name + ": no vent up to " + s.Units.Near(quantity.Length, vent.WidestVent) + " does; a smaller volume, less pressure or more time"
	}
	t := fmt.Sprintf("%s: drill %s, empty after %s at most", name, s.Units.Near(quantity.Length, z.Drill),
		s.Units.Worst(quantity.Time, z.Time))
	if !math.IsNaN(z.Now) {
		t += fmt.Sprintf(" (%s has %s now)", show.Clean(z.Path), s.Units.Near(quantity.Length, z.Now))
	}
	t += fmt.Sprintf("; open while charging it would let out %s", s.Units.Worst(quantity.VolumeFlow, z.Loss))
	switch {
	case math.IsNaN(z.Delivery):
	case z.Loss >= z.Delivery:
		t += fmt.Sprintf(", more than the %s that the supply gives at the cut-out: it would stop at %s",
			s.Units.Near(quantity.VolumeFlow, z.Delivery), s.Units.Near(quantity.Gauge, z.Balance))
	default:
		t += fmt.Sprintf(" of the %s that the supply gives at the cut-out", s.Units.Near(quantity.VolumeFlow, z.Delivery))
	}
	return t
}

// alikePushes puts pushes by one path that say the same into one.
func alikePushes(all []vent.BarrelPush) []vent.BarrelPush {
	var out []vent.BarrelPush
	for _, p := range all {
		i := slices.IndexFunc(out, func(o vent.BarrelPush) bool {
			return o.Path == p.Path && o.Outcome == p.Outcome && o.Speed == p.Speed && o.Energy == p.Energy
		})
		if i < 0 {
			out = append(out, p)
			continue
		}
		out[i].Scenario += ", " + p.Scenario
	}
	return out
}

// aimedWords says what an outlet does that may blow into the barrel.
func aimedWords(s Style, p vent.BarrelPush) string {
	t := fmt.Sprintf("%s points at the barrel", show.Clean(p.Path))
	if p.Points != "barrel" {
		t = fmt.Sprintf("Where %s blows is not stated", show.Clean(p.Path))
	}
	t += fmt.Sprintf("; taken to lead into the barrel (%s) it ", show.Clean(p.Scenario))
	if p.Bound {
		return t + fmt.Sprintf("moves a loaded projectile in a way that could not be settled; the air could give it up to %s.",
			s.Units.Worst(quantity.Energy, p.Energy))
	}
	if p.Energy > 0 {
		return t + fmt.Sprintf("pushes a loaded projectile out at %s with %s.", s.Units.Worst(quantity.Speed, p.Speed),
			s.Units.Worst(quantity.Energy, p.Judged))
	}
	return t + "does not push a loaded projectile out: " + show.Clean(p.Outcome) + "."
}

// runsOnWords say where a supply that runs on keeps the launcher.
func runsOnWords(s Style, on *vent.RunsOn) string {
	level := "nobody knows how far"
	if on.Known {
		level = "at up to " + s.Units.Worst(quantity.Gauge, on.Most)
	}
	return fmt.Sprintf("A supply that runs on when it is switched off (a welded relay, a stop that cuts the valves only) keeps %s filled, "+
		"%s: its plug has to be pulled too.", show.Clean(on.Volume), level)
}

func (v *VentScreen) writeNotes() {
	r := v.Report
	note := func(t string) { v.say("", "  ", t) }
	v.gap()
	if len(r.Trouble) == 0 {
		note(fmt.Sprintf("From %s (%s) to the target of %s (%s).", v.Units.Near(quantity.Gauge, r.Start), v.text(r.StartWhy),
			v.Units.Near(quantity.Gauge, r.Target), v.text(r.TargetWhy)))
		note(fmt.Sprintf("At the target all the air could still do %s at most; the worst shot from there has %s.",
			v.Units.Worst(quantity.Energy, r.Left), v.Units.Worst(quantity.Energy, r.LeftShot)))
	}
	if on := r.RunsOn; on != nil && !on.Empty {
		note(runsOnWords(v.Style, on))
	}
	for _, p := range alikePushes(r.Pushes) {
		if p.Bound {
			note(fmt.Sprintf("%s: %s vents through the barrel; what a loaded projectile does could not be settled, the air could give it up to "+
				"%s.", show.Clean(p.Scenario), show.Clean(p.Path), v.Units.Worst(quantity.Energy, p.Energy)))
		} else if p.Speed > 0 {
			note(fmt.Sprintf("%s: %s vents through the barrel and pushes a loaded projectile out at %s with %s.", show.Clean(p.Scenario),
				show.Clean(p.Path), v.Units.Worst(quantity.Speed, p.Speed), v.Units.Worst(quantity.Energy, p.Judged)))
		} else {
			note(fmt.Sprintf("%s: %s vents through the barrel; a loaded projectile: %s.", show.Clean(p.Scenario), show.Clean(p.Path),
				show.Clean(p.Outcome)))
		}
	}
	for _, p := range r.Aimed {
		note(aimedWords(v.Style, p))
	}
	for _, h := range r.Hoses {
		with := "is open to the atmosphere"
		if h.With != "" {
			with = "empties with " + show.Clean(h.With)
		}
		note(fmt.Sprintf("The hose of %s holds %s, which %s.", show.Clean(h.Path), v.Units.Near(quantity.Volume, h.Volume), with))
	}
}
