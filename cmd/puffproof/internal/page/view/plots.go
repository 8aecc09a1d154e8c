package view

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/page/answer"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/worst"
)

// Plot is a figure with what it says in words.
type Plot struct {
	ID      string
	Caption string
	Drawing template.HTML
	Play    string // the id of the play whose moments the plot can show; "" none
	From    string // where that begins and ends, shares of the width from the left
	To      string
}

// plotsOf are the plots. The file's own curves stay behind those of the draft.
func plotsOf(st *State) []Plot {
	var out []Plot
	// play and end: of what is played the plot shows each moment, and the value of x at its end.
	add := func(id, caption string, chart figure.Chart, play string, end float64) {
		d, err := chart.Draw()
		if err != nil {
			return
		}
		svg, err := d.Inline()
		if err != nil {
			return
		}
		p := Plot{ID: id, Caption: caption, Drawing: template.HTML(svg)} //nolint:gosec // drawn by package figure, every text escaped
		if play != "" {
			p.Play, p.From, p.To = play, share(d.Across(0)), share(d.Across(end))
		}
		out = append(out, p)
	}
	if st.Quick == nil {
		return nil
	}
	energy, words := energyPlot(st)
	add("energy", words, energy, "", 0)
	if s := st.Quick.Shot; s != nil && s.Series.Length() > 1 {
		p, v := shotPlots(st)
		travel := st.Units.Axis(quantity.Length, longest(st)).Of(s.Travel)
		add("pressure", "Pressure behind the projectile along its way, nominal shot: at most "+
			st.Units.Near(quantity.Gauge, s.PeakGauge)+".", p, shotID, travel)
		words := "it does not leave the barrel"
		if s.Outcome == show.OutcomeLeft {
			words = "it leaves with " + st.Units.Near(quantity.Speed, s.MuzzleSpeed) + " after " + st.Units.Near(quantity.Time, s.ExitTime)
		}
		add("speed", "Speed along the way, nominal shot: "+words+".", v, shotID, travel)
	}
	if chart, words, is := ventPlot(st); is {
		add("emptying", words, chart, emptyingID, ventEnd(st.Full.Assessment.Emptying.Drawn()))
	}
	return out
}

// share writes a share of a width.
func share(v float64) string { return strconv.FormatFloat(v, 'f', 4, 64) }

// energyPlot is energy against start pressure.
func energyPlot(st *State) (figure.Chart, string) {
	q := st.Quick
	top := q.Start
	for _, s := range q.Over {
		top = math.Max(top, s.Gauge)
	}
	x, y := st.Units.Axis(quantity.Gauge, top), st.Units.Axis(quantity.Energy, 1)
	c := figure.Chart{X: "Start pressure, " + x.Name, Y: "Final energy, " + y.Name}
	line := func(name string, all []worst.StartEnergy, before bool) {
		l := figure.ChartLine{Name: name, Before: before}
		for _, s := range all {
			if !math.IsNaN(s.Energy) && !math.IsInf(s.Energy, 0) {
				l.X, l.Y = append(l.X, x.Of(s.Gauge)), append(l.Y, y.Of(s.Energy))
			}
		}
		if len(l.X) > 1 {
			c.Lines = append(c.Lines, l)
		}
	}
	if b := st.QuickBefore; b != nil {
		line("", b.Over, true)
	}
	if b := st.FullBefore; b != nil {
		line("", b.Worst, true)
	}
	line("nominal", q.Over, false)
	words := []string{"Final energy against the pressure at which it is fired"}
	if s := q.Shot; s != nil && s.Outcome == show.OutcomeLeft {
		words = append(words, "nominal "+st.Units.Near(quantity.Energy, s.FinalEnergy)+" from "+st.Units.Near(quantity.Gauge, q.Start))
	}
	var e *worst.EnergyReport
	switch {
	case st.Full != nil:
		line("worst found", st.Full.Worst, false)
		e = st.Full.Report.Energy
	case st.First != nil:
		line("worst found so far", st.First.Worst, false)
		e = st.First.Energy
	}
	if e != nil && e.Limit > 0 {
		c.Limits = append(c.Limits, figure.ChartLimit{Name: "limit " + st.Units.Near(quantity.Energy, e.Limit), At: y.Of(e.Limit)})
		words = append(words, "limit "+st.Units.Near(quantity.Energy, e.Limit))
		if e.Worst.Outcome == show.OutcomeLeft {
			words = append(words, "the worst found "+st.Units.Worst(quantity.Energy, e.Worst.FinalEnergy))
		}
	}
	if s := st.Launcher.Switch; s != nil && s.CutOut.Set {
		c.Limits = append(c.Limits, figure.ChartLimit{Name: "cut-out", At: x.Of(s.CutOut.Nominal), Vertical: true})
	}
	text := strings.Join(words, "; ") + "."
	if len(c.Lines) > 1 && st.Altered {
		text += " Pale: the file."
	}
	return c, text
}

// longest is the travel of the draft's nominal shot, or of the file's where that is longer: one unit serves both.
func longest(st *State) float64 {
	if b := st.QuickBefore; b != nil && b.Shot != nil {
		return math.Max(st.Quick.Shot.Travel, b.Shot.Travel)
	}
	return st.Quick.Shot.Travel
}

// shotPlots are pressure and speed along the travel.
func shotPlots(st *State) (pressure, speed figure.Chart) {
	s := st.Quick.Shot
	long, before := longest(st), st.QuickBefore
	top, fast := s.PeakGauge, s.MuzzleSpeed
	if before != nil && before.Shot != nil {
		top, fast = math.Max(top, before.Shot.PeakGauge), math.Max(fast, before.Shot.MuzzleSpeed)
	}
	x, p, v := st.Units.Axis(quantity.Length, long), st.Units.Axis(quantity.Gauge, top), st.Units.Axis(quantity.Speed, fast)
	pressure = figure.Chart{X: "Travel, " + x.Name, Y: "Pressure behind it, " + p.Name}
	speed = figure.Chart{X: "Travel, " + x.Name, Y: "Speed, " + v.Name}
	add := func(q *answer.Quick, before bool) {
		if q == nil || q.Shot == nil || q.Shot.Series.Length() < 2 {
			return
		}
		series := q.Shot.Series
		n := series.Length()
		pressure.Lines = append(pressure.Lines, figure.ChartLine{X: x.All(series.Travel[:n]), Y: p.All(series.Gauge[:n]), Before: before})
		speed.Lines = append(speed.Lines, figure.ChartLine{X: x.All(series.Travel[:n]), Y: v.All(series.Speed[:n]), Before: before})
	}
	add(before, true)
	add(st.Quick, false)
	if s.Outcome == show.OutcomeLeft { // the push behind the muzzle comes after
		muzzle := figure.ChartLimit{Name: "muzzle", At: x.Of(s.Travel), Vertical: true}
		pressure.Limits, speed.Limits = append(pressure.Limits, muzzle), append(speed.Limits, muzzle)
	}
	return pressure, speed
}

// ventPlot is the emptying without power, or else when switched off, with the band of its readings.
func ventPlot(st *State) (figure.Chart, string, bool) {
	if st.Full == nil || st.Full.Assessment.Emptying == nil {
		return figure.Chart{}, "", false
	}
	r := st.Full.Assessment.Emptying
	cases := r.Drawn()
	if len(cases) == 0 {
		return figure.Chart{}, "", false
	}
	top := 0.0
	for _, c := range cases {
		top = math.Max(top, c.Start)
	}
	y := st.Units.Axis(quantity.Gauge, top)
	chart := figure.Chart{X: "Time after the command, s", Y: "Gauge, " + y.Name,
		Limits: []figure.ChartLimit{{Name: "counts as empty", At: y.Of(r.Target)}}}
	var words []string
	for _, c := range cases {
		l := figure.ChartLine{Name: show.Clean(c.Volume)}
		for _, s := range c.Curve() {
			l.X, l.Y = append(l.X, s.Time), append(l.Y, y.Of(s.Gauge))
			l.Low, l.High = append(l.Low, y.Of(s.Low)), append(l.High, y.Of(s.High))
		}
		chart.Lines = append(chart.Lines, l)
		long := "never"
		if !math.IsInf(c.Slowest, 1) && !math.IsNaN(c.Slowest) {
			long = "in at most " + st.Units.Worst(quantity.Time, c.Slowest)
		}
		words = append(words, show.Clean(c.Volume)+" "+long)
	}
	return chart, fmt.Sprintf("Emptying, %s: %s from the highest pressure. Shaded: the band of what a gauge may show.",
		cases[0].Scenario, strings.Join(words, "; ")), true
}
