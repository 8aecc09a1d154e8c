package render

import (
	"fmt"
	"io"
	"math"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
)

// VentScreen shows how a launcher empties.
type VentScreen struct {
	Style  Style
	Design DesignID
	Report *vent.Report
	Sizes  []vent.VentSize  // nil: not asked
	Log    *vent.LogAnswer  // nil: not asked
	Leak   *vent.LeakAnswer // nil: not asked
	Detail Detail
}

// Write prints the screen.
func (v *VentScreen) Write(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintln(&b, Wrap(v.finding(), v.Style.Width, "", ""))
	if v.Detail == Everything {
		fmt.Fprintln(&b, Shorten(Clean(titleOf(v.Design)), v.Style.Width-22)+v.Style.paint(faint, fingerprint(v.Design)))
		v.writeLog(&b)
		v.writeLeak(&b)
		v.writeCases(&b)
		v.writeSheets(&b)
		v.writeLeakSheets(&b)
		v.writeSizes(&b)
		v.writeNotes(&b)
		writeVerdicts(&b, v.Style, v.Report.Verdicts)
		writeItems(&b, v.Style, v.Report.Items)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// finding is the first line.
func (v *VentScreen) finding() string {
	s, r := v.Style, v.Report
	if logs := v.logFinding(); logs != "" {
		return logs
	}
	if r.Trouble != "" {
		return s.paint(yellow, "NOT KNOWN: "+Clean(r.Trouble)+".")
	}
	fails, unknown := 0, 0
	for _, d := range r.Verdicts {
		switch d.Status {
		case finding.Fail:
			fails++
		case finding.Unknown:
			unknown++
		}
	}
	pushed := ""
	if p := hardest(r.Pushes); p != nil {
		pushed = fmt.Sprintf(" Venting pushes a loaded projectile out with %s (shot.unasked).", s.worst(unit.Energy, p.Judged))
	}
	if fails+unknown > 0 {
		return s.paint(red, fmt.Sprintf("DOES NOT HOLD: %s, %d unknown.", plural(fails, "verdict fails", "verdicts fail"), unknown)+pushed)
	}
	if pushed != "" {
		return s.paint(yellow, "Empties by itself, but through the barrel."+pushed)
	}
	return s.paint(green, "Empties by itself, on the model: test it by the stopwatch.")
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

func (v *VentScreen) writeLog(b *strings.Builder) {
	a := v.Log
	if a == nil {
		return
	}
	s := v.Style
	t := plainTable()
	row := func(name, value string) { t.AppendRow(table.Row{"  " + name, value}) }
	row("readings used", fmt.Sprintf("%d in %s", a.Count, plural(a.Runs, "run", "runs")))
	if a.Hidden > 0 {
		row("left out", fmt.Sprintf("%d, hidden by the stop pin", a.Hidden))
	}
	if !math.IsNaN(a.Opening) {
		row("effective opening", number(100*a.Opening, 2)+" % of the designed one")
		row("agrees between", number(100*a.Low, 2)+" and "+number(100*a.High, 2)+" %")
		if !math.IsNaN(a.Bore) {
			row("as a bore of", s.near(unit.Length, a.Bore)+" ("+Clean(a.Path)+")")
		}
		row("gauge at zero reads", s.near(unit.Pressure, a.Zero))
		row("readings told apart to", s.near(unit.Pressure, a.Resolves))
		row("off the fitted course by", s.near(unit.Pressure, a.RMS)+" (root mean square)")
	}
	fmt.Fprintln(b, trimLines("\n"+t.Render()))
}

// writeCases prints one line for each volume and reason: the state that takes
// longest.
func (v *VentScreen) writeCases(b *strings.Builder) {
	s := v.Style
	t := plainTable()
	t.AppendRow(table.Row{s.paint(bold, "Slowest of all states"), s.paint(bold, "gauge"), s.paint(bold, "at most"), s.paint(bold, "expected"), s.paint(bold, "at least"), ""})
	var kind vent.Kind
	for _, c := range slowestCases(v.Report.Cases) {
		if c.Kind != kind {
			kind = c.Kind
			t.AppendRow(table.Row{"  " + string(kind)})
		}
		most, expected, least := timeOr(s, c.Slowest), timeOr(s, c.Expected), timeOr(s, c.Fastest)
		if held(c, v.Report.Target) {
			most, expected, least = "-", "-", "-"
		}
		from := strings.TrimSuffix(s.near(unit.Pressure, c.Start), " gauge")
		t.AppendRow(table.Row{"    from " + c.From.String() + ": " + Shorten(Clean(c.Volume), 10), from, most, expected, least,
			s.paint(ventColour(c.Status), strings.ToUpper(string(c.Status)))})
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, trimLines(t.Render()))
	for _, c := range slowestCases(v.Report.Cases) {
		if held(c, v.Report.Target) {
			what := "a volume that holds no more than the target at the start"
			if c.Volume == "barrel" {
				what = "a projectile that sticks holds no more behind it"
			}
			fmt.Fprintln(b, Wrap(fmt.Sprintf("%s, %s: up to %s, %s; the target is %s.", Clean(c.Scenario), Clean(c.Volume), s.worst(unit.Pressure, c.Start), what, s.near(unit.Pressure, v.Report.Target)), s.Width, "  ", "  "))
		}
		if c.Missing != "" {
			fmt.Fprintln(b, Wrap(Clean(c.Scenario)+", "+Clean(c.Volume)+": missing is "+Clean(c.Missing)+".", s.Width, "  ", "  "))
		}
	}
}

// held tells that a volume is at the target from the start: it has no time.
func held(c vent.Case, target float64) bool { return !c.Trapped && c.Start <= target }

func timeOr(s Style, t float64) string {
	if math.IsInf(t, 1) {
		return "never"
	}
	return s.worst(unit.Time, t)
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

func (v *VentScreen) writeSheets(b *strings.Builder) {
	s := v.Style
	for _, c := range v.Report.Tests {
		if len(c.Sheet) == 0 {
			continue
		}
		t := plainTable()
		t.AppendRow(table.Row{s.paint(bold, "Stopwatch test of "+Shorten(Clean(c.Volume), 14)), s.paint(bold, "lowest"), s.paint(bold, "expected"), s.paint(bold, "highest"), s.paint(bold, "read")})
		for _, r := range c.Sheet {
			t.AppendRow(table.Row{"  " + s.near(unit.Time, r.Time), reads(s, r.Low), reads(s, r.Gauge), reads(s, r.High), "______"})
		}
		fmt.Fprintln(b)
		fmt.Fprintln(b, trimLines(t.Render()))
		ends := "It never gets to the target."
		if !math.IsInf(c.Slowest, 1) {
			ends = "At most " + s.worst(unit.Time, c.Slowest) + " to the target from the highest cut-out."
		}
		fmt.Fprintln(b, Wrap("Gauge readings. Charge until the supply stops by itself, arm, cut the power. "+ends, s.Width, "  ", "  "))
		if !c.Trapped {
			fmt.Fprintln(b, Wrap("Shut too early, at the target, it can come back to "+s.worst(unit.Pressure, c.Rebound)+" as its air warms up: keep the vent open.", s.Width, "  ", "  "))
		}
	}
}

// reads shows a gauge reading; what no gauge shows is zero.
func reads(s Style, p float64) string {
	const nothing = 100 // [Pa]
	if math.Abs(p) < nothing {
		return "0"
	}
	return strings.TrimSuffix(s.near(unit.Pressure, p), " gauge")
}

func (v *VentScreen) writeSizes(b *strings.Builder) {
	if v.Sizes == nil {
		return
	}
	s := v.Style
	fmt.Fprintln(b)
	fmt.Fprintln(b, s.paint(bold, "Vent that empties each volume in the time"))
	for _, z := range v.Sizes {
		fmt.Fprintln(b, Wrap(sizeWords(s, z), s.Width, "  ", "    "))
	}
}

func sizeWords(s Style, z vent.VentSize) string {
	name := Clean(z.Volume)
	if math.IsNaN(z.Drill) {
		return name + ": no vent up to " + s.near(unit.Length, vent.WidestVent) + " does; a smaller volume, less pressure or more time"
	}
	t := fmt.Sprintf("%s: drill %s, empty after %s at most", name, s.near(unit.Length, z.Drill), s.worst(unit.Time, z.Time))
	if !math.IsNaN(z.Now) {
		t += fmt.Sprintf(" (%s has %s now)", Clean(z.Path), s.near(unit.Length, z.Now))
	}
	t += fmt.Sprintf("; open while charging it would let out %s", s.worst(unit.VolumeFlow, z.Loss))
	switch {
	case math.IsNaN(z.Delivery):
	case z.Loss >= z.Delivery:
		t += fmt.Sprintf(", more than the %s that the supply gives at the cut-out: it would stop at %s", s.near(unit.VolumeFlow, z.Delivery), s.near(unit.Pressure, z.Balance))
	default:
		t += fmt.Sprintf(" of the %s that the supply gives at the cut-out", s.near(unit.VolumeFlow, z.Delivery))
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
	t := fmt.Sprintf("%s points at the barrel", Clean(p.Path))
	if p.Points != "barrel" {
		t = fmt.Sprintf("Where %s blows is not stated", Clean(p.Path))
	}
	t += fmt.Sprintf("; taken to lead into the barrel (%s) it ", Clean(p.Scenario))
	if p.Bound {
		return t + fmt.Sprintf("moves a loaded projectile in a way that could not be settled; the air could give it up to %s.", s.worst(unit.Energy, p.Energy))
	}
	if p.Energy > 0 {
		return t + fmt.Sprintf("pushes a loaded projectile out at %s with %s.", s.worst(unit.Speed, p.Speed), s.worst(unit.Energy, p.Judged))
	}
	return t + "does not push a loaded projectile out: " + Clean(p.Outcome) + "."
}

func (v *VentScreen) writeNotes(b *strings.Builder) {
	s, r := v.Style, v.Report
	note := func(t string) { fmt.Fprintln(b, Wrap(t, s.Width, "", "  ")) }
	fmt.Fprintln(b)
	if r.Trouble == "" {
		note(fmt.Sprintf("From %s (%s) to the target of %s (%s).", s.near(unit.Pressure, r.Start), Clean(r.StartWhy), s.near(unit.Pressure, r.Target), Clean(r.TargetWhy)))
		note(fmt.Sprintf("At the target all the air could still do %s at most; the worst shot from there has %s.", s.worst(unit.Energy, r.Left), s.worst(unit.Energy, r.LeftShot)))
	}
	for _, p := range alikePushes(r.Pushes) {
		if p.Bound {
			note(fmt.Sprintf("%s: %s vents through the barrel; what a loaded projectile does could not be settled, the air could give it up to %s.", Clean(p.Scenario), Clean(p.Path), s.worst(unit.Energy, p.Energy)))
		} else if p.Speed > 0 {
			note(fmt.Sprintf("%s: %s vents through the barrel and pushes a loaded projectile out at %s with %s.", Clean(p.Scenario), Clean(p.Path), s.worst(unit.Speed, p.Speed), s.worst(unit.Energy, p.Judged)))
		} else {
			note(fmt.Sprintf("%s: %s vents through the barrel; a loaded projectile: %s.", Clean(p.Scenario), Clean(p.Path), Clean(p.Outcome)))
		}
	}
	for _, p := range r.Aimed {
		note(aimedWords(s, p))
	}
	for _, h := range r.Hoses {
		with := "is open to the atmosphere"
		if h.With != "" {
			with = "empties with " + Clean(h.With)
		}
		note(fmt.Sprintf("The hose of %s holds %s, which %s.", Clean(h.Path), s.near(unit.Volume, h.Volume), with))
	}
}
