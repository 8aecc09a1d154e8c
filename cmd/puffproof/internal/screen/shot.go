package screen

import (
	"fmt"
	"io"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
)

// ShotScreen shows one shot on a terminal or in a pipe.
type ShotScreen struct {
	Frame
	Shot show.ShotView
}

// Write prints the screen.
func (sc *ShotScreen) Write(w io.Writer) error {
	v := sc.Shot
	return sc.write(w, sc.finding(), sc.design, sc.writeWhy, sc.writeTable, sc.wave(v.Wave), sc.writePlots, sc.notes(v.Notes),
		sc.closing("One shot with nominal values. It judges nothing: puffproof check does."))
}

// finding is the first line: what came of the shot.
func (sc *ShotScreen) finding() string {
	v := sc.Shot
	switch v.Outcome {
	case show.OutcomeLeft:
		return sc.paint(bold, fmt.Sprintf("Leaves the muzzle at %s with %s.", sc.Units.Near(quantity.Speed, v.MuzzleSpeed),
			sc.Units.Near(quantity.Energy, v.MuzzleEnergy)))
	case show.OutcomeStalled:
		return sc.paint(yellow, fmt.Sprintf("STALLED: rests after %s of travel with %s behind it.", sc.Units.Near(quantity.Length, v.RestTravel),
			sc.Units.Near(quantity.Gauge, v.RestGauge)))
	}
	return sc.lines(yellow,
		"", "", fmt.Sprintf("%s: not out of the muzzle and not at its final rest.", strings.ToUpper(show.Clean(v.Outcome))))
}

// writeWhy says why the shot does so little, where it does.
func (sc *ShotScreen) writeWhy() {
	if len(sc.Shot.Why) == 0 {
		return
	}
	sc.heading("Why it does no more")
	for _, t := range sc.Shot.Why {
		sc.say("  ", "  ", sc.text(t))
	}
}

// shotTable is the table of a shot while it is made.
type shotTable struct {
	Style
	grid
}

func (st shotTable) section(name string) { st.add(st.paint(bold, name), "", "") }

func (st shotTable) row(name, value, note string) {
	st.add("  "+show.Shorten(show.Clean(name), 28), value, note)
}

func (sc *ShotScreen) writeTable() {
	st := shotTable{sc.Style, sc.grid()}
	st.section("Projectile")
	if sc.Shot.Outcome == show.OutcomeLeft {
		sc.flownRows(st)
	} else {
		sc.restRows(st)
	}
	sc.pressureRows(st)
	sc.accountRows(st)
	sc.printTable(st.grid)
}

// flownRows are the figures of a projectile that left.
func (sc *ShotScreen) flownRows(st shotTable) {
	v := sc.Shot
	st.row("muzzle speed", st.Units.Near(quantity.Speed, v.MuzzleSpeed), "at the instant it leaves")
	st.row("muzzle energy", st.Units.Near(quantity.Energy, v.MuzzleEnergy), "")
	st.row("final speed", st.Units.Near(quantity.Speed, v.FinalSpeed), "with the push after the muzzle")
	st.row("final energy", st.Units.Near(quantity.Energy, v.FinalEnergy), "")
	if v.ContactArea > 0 {
		st.row("per contact area", st.Units.Near(quantity.EnergyPerArea, v.AreaEnergy), "on "+st.Units.Near(quantity.Area, v.ContactArea))
	}
	st.row("exit time", st.Units.Near(quantity.Time, v.ExitTime), "after the command to fire")
	sc.highestRow(st)
}

// restRows are the figures of a projectile that did not leave.
func (sc *ShotScreen) restRows(st shotTable) {
	v := sc.Shot
	st.row("rests after", st.Units.Near(quantity.Length, v.RestTravel), "of "+st.Units.Near(quantity.Length, v.Travel)+" travel")
	if v.Outcome == show.OutcomeStalled {
		st.row("if freed by hand", st.Units.Worst(quantity.Energy, v.Freed), "at most: never look in")
	}
	sc.highestRow(st)
}

// leastSeat is how far forward a projectile must sit to be told from one that sits as
// stated [m]: nobody seats it more exactly, and the search does not tell less.
const leastSeat = 1e-4

// highestRow tells the seat that shoots hardest.
func (sc *ShotScreen) highestRow(st shotTable) {
	if h := sc.Shot.Highest; h != nil && h.Outcome == show.OutcomeLeft {
		seated := "seated as stated"
		if h.Seat >= leastSeat {
			seated = "seated " + st.Units.Near(quantity.Length, h.Seat) + " forward"
		}
		st.row("highest over seats", st.Units.Near(quantity.Energy, h.FinalEnergy), st.Units.Near(quantity.Speed, h.FinalSpeed)+", "+seated)
	}
}

func (sc *ShotScreen) pressureRows(st shotTable) {
	v := sc.Shot
	st.section("Barrel pressure")
	st.row("peak", st.Units.Near(quantity.Gauge, v.PeakGauge), "")
	if v.Outcome == show.OutcomeLeft {
		st.row("as it leaves", st.Units.Near(quantity.Gauge, v.ExitGauge), "")
	} else {
		st.row("behind it", st.Units.Near(quantity.Gauge, v.RestGauge), "")
	}
	st.section("Vessels")
	after := show.GaugeMap(v.After)
	for _, g := range v.Start {
		note := ""
		if a, ok := after[g.Name]; ok {
			note = st.Units.Near(quantity.Gauge, a) + " after"
		}
		st.row(g.Name, st.Units.Near(quantity.Gauge, g.Gauge), note)
	}
}

func (sc *ShotScreen) accountRows(st shotTable) {
	v := sc.Shot
	st.section("Energy account")
	for _, a := range v.Account {
		st.row(a.Name, st.Units.Near(quantity.Energy, a.Energy), a.Note)
	}
	st.row("ceiling", st.Units.Worst(quantity.Energy, v.Ceiling), "the most the air can do beyond it")
	st.row("closes within", residual(v.EnergyResidual)+" energy", residual(v.MassResidual)+" mass")
}

// residual shows an error of a balance, relative, as a power of ten.
func residual(r float64) string {
	r = math.Abs(r)
	if r < 1e-15 {
		return "1e-15" // the spacing of the numbers themselves
	}
	return quantity.Power(r)
}

// writePlots draws pressure and speed.
func (sc *ShotScreen) writePlots() {
	blocks := curve.Plots(sc.Shot, sc.Width, sc.Units)
	for _, b := range blocks {
		sc.gap()
		sc.println(b)
	}
	if len(blocks) > 0 {
		sc.gap()
	}
}
