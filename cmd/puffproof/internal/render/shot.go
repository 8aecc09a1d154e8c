package render

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"

	"puffproof/cmd/puffproof/internal/unit"
)

// ShotScreen shows one shot on a terminal or in a pipe.
type ShotScreen struct {
	Style  Style
	Shot   ShotView
	Detail Detail
}

// Write prints the screen.
func (sc *ShotScreen) Write(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintln(&b, sc.finding())
	if sc.Detail == Everything {
		fmt.Fprintln(&b, Shorten(Clean(titleOf(sc.Shot.Design)), sc.Style.Width-22)+sc.Style.paint(faint, fingerprint(sc.Shot.Design)))
		sc.writeTable(&b)
		sc.Style.writeWave(&b, sc.Shot.Wave)
		sc.writePlots(&b)
		for _, n := range sc.Shot.Notes {
			fmt.Fprintln(&b, Wrap("Note: "+Clean(n), sc.Style.Width, "", "  "))
		}
		fmt.Fprintln(&b, Wrap("One shot with nominal values. It judges nothing: puffproof check does.", sc.Style.Width, "", "  "))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// finding is the first line: what came of the shot.
func (sc *ShotScreen) finding() string {
	v, s := sc.Shot, sc.Style
	switch v.Outcome {
	case outcomeLeft:
		return s.paint(bold, fmt.Sprintf("Leaves the muzzle at %s with %s.", s.near(unit.Speed, v.MuzzleSpeed), s.near(unit.Energy, v.MuzzleEnergy)))
	case outcomeStalled:
		return s.paint(yellow, fmt.Sprintf("STALLED: rests after %s of travel with %s behind it.", s.near(unit.Length, v.RestTravel), s.near(unit.Pressure, v.RestGauge)))
	}
	return s.paint(yellow, Wrap(fmt.Sprintf("%s: not out of the muzzle and not at its final rest.", strings.ToUpper(Clean(v.Outcome))), s.Width, "", ""))
}

// shotTable is the table of a shot while it is made.
type shotTable struct {
	Style
	t table.Writer
}

func (st shotTable) section(name string) { st.t.AppendRow(table.Row{st.paint(bold, name), "", ""}) }

func (st shotTable) row(name, value, note string) {
	st.t.AppendRow(table.Row{"  " + Shorten(Clean(name), 28), value, note})
}

func (sc *ShotScreen) writeTable(b *strings.Builder) {
	st := shotTable{sc.Style, plainTable()}
	st.section("Projectile")
	if sc.Shot.Outcome == outcomeLeft {
		sc.flownRows(st)
	} else {
		sc.restRows(st)
	}
	sc.pressureRows(st)
	sc.accountRows(st)
	fmt.Fprintln(b)
	fmt.Fprintln(b, trimLines(st.t.Render()))
}

// flownRows are the figures of a projectile that left.
func (sc *ShotScreen) flownRows(st shotTable) {
	v := sc.Shot
	st.row("muzzle speed", st.near(unit.Speed, v.MuzzleSpeed), "at the instant it leaves")
	st.row("muzzle energy", st.near(unit.Energy, v.MuzzleEnergy), "")
	st.row("final speed", st.near(unit.Speed, v.FinalSpeed), "with the push after the muzzle")
	st.row("final energy", st.near(unit.Energy, v.FinalEnergy), "")
	if v.ContactArea > 0 {
		st.row("per contact area", st.near(unit.EnergyPerArea, v.AreaEnergy), "on "+st.near(unit.Area, v.ContactArea))
	}
	st.row("exit time", st.near(unit.Time, v.ExitTime), "after the command to fire")
	sc.highestRow(st)
}

// restRows are the figures of a projectile that did not leave.
func (sc *ShotScreen) restRows(st shotTable) {
	v := sc.Shot
	st.row("rests after", st.near(unit.Length, v.RestTravel), "of "+st.near(unit.Length, v.Travel)+" travel")
	if v.Outcome == outcomeStalled {
		st.row("if freed by hand", st.worst(unit.Energy, v.Freed), "at most: never look in")
	}
	sc.highestRow(st)
}

// highestRow tells the seat that shoots hardest.
func (sc *ShotScreen) highestRow(st shotTable) {
	if h := sc.Shot.Highest; h != nil && h.Outcome == outcomeLeft {
		st.row("highest over seats", st.near(unit.Energy, h.FinalEnergy),
			st.near(unit.Speed, h.FinalSpeed)+", seated "+st.near(unit.Length, h.Seat)+" forward")
	}
}

func (sc *ShotScreen) pressureRows(st shotTable) {
	v := sc.Shot
	st.section("Barrel pressure")
	st.row("peak", st.near(unit.Pressure, v.PeakGauge), "")
	if v.Outcome == outcomeLeft {
		st.row("as it leaves", st.near(unit.Pressure, v.ExitGauge), "")
	} else {
		st.row("behind it", st.near(unit.Pressure, v.RestGauge), "")
	}
	st.section("Vessels")
	after := gaugeMap(v.After)
	for _, g := range v.Start {
		note := ""
		if a, ok := after[g.Name]; ok {
			note = st.near(unit.Pressure, a) + " after"
		}
		st.row(g.Name, st.near(unit.Pressure, g.Gauge), note)
	}
}

func (sc *ShotScreen) accountRows(st shotTable) {
	v := sc.Shot
	st.section("Energy account")
	for _, a := range v.Account {
		st.row(a.Name, st.near(unit.Energy, a.Energy), "")
	}
	st.row("ceiling", st.worst(unit.Energy, v.Ceiling), "the most the air could do")
	st.row("closes within", residual(v.EnergyResidual)+" energy", residual(v.MassResidual)+" mass")
}

// residual shows an error of a balance, relative, as a power of ten.
func residual(r float64) string {
	r = math.Abs(r)
	if r < 1e-15 {
		return "1e-15" // the spacing of the numbers themselves
	}
	return fmt.Sprintf("%.0e", r)
}
