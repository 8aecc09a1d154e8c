package screen

import (
	"fmt"
	"io"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// CalibrateScreen shows what measurements say, on a terminal or in a pipe.
type CalibrateScreen struct {
	Frame
	Found *measure.Findings
}

// Write prints the screen.
func (c *CalibrateScreen) Write(w io.Writer) error {
	return c.write(w, c.finding(), c.design, c.writeRemarks, c.writeSpeeds, c.writeGroups, c.writeBench,
		c.writeFit, c.writeNarrowed)
}

// finding is the first line.
func (c *CalibrateScreen) finding() string {
	f := c.Found
	g := f.Best()
	if f.Wrong != nil {
		return c.lines(red, "", "", "The model does NOT agree with the shots: "+c.text(f.Wrong.Text)+".")
	}
	if len(f.Clashes) > 0 {
		return c.lines(red, "", "", "A bench test CONTRADICTS the design: "+c.clash(f.Clashes[0])+".")
	}
	if g == nil {
		text := "No shots count yet: the file has bench tests only."
		if n := f.Main(); n != nil {
			text = "No shots count yet: " + c.text(n.Faults[0]) + "."
		}
		return c.lines(yellow, "", "", text)
	}
	text := fmt.Sprintf("Measured bound %s at %s: %s, %s confidence that %s stay below.",
		c.Units.Worst(quantity.Energy, g.UpperEnergy), c.Units.Near(quantity.Gauge, g.Gauge), show.Plural(g.Shots, "shot", "shots"),
		wholePercent(benchmark.BoundConfidence), wholePercent(benchmark.BoundCoverage))
	colour := bold
	if f.Fit != nil && !f.Fit.Credible {
		text += " The model does NOT agree with the shots."
		colour = red
	}
	return c.lines(colour, "", "", text)
}

// clash says how a bench test contradicts the design.
func (c *CalibrateScreen) clash(x launcher.Clash) string {
	return fmt.Sprintf("%s, the %s test reads %s to %s where the design states %s to %s; one of the two is wrong", show.Clean(x.Key), x.Test,
		c.value(x.Key, x.Read.Low), c.value(x.Key, x.Read.High), c.value(x.Key, x.Stated.Low), c.value(x.Key, x.Stated.High))
}

func (c *CalibrateScreen) writeRemarks() {
	for _, r := range c.Found.Remarks {
		lead := "Look: "
		if r.Line > 0 {
			lead = fmt.Sprintf("Look at line %d: ", r.Line)
		}
		c.say("", "  ", lead+c.text(r.Text)+".")
	}
}

// writeSpeeds prints every shot with the speed that follows from it.
func (c *CalibrateScreen) writeSpeeds() {
	if len(c.Found.Shots) == 0 {
		return
	}
	t := c.grid("line", "from", "speed", "reading", "systematic", "method, ball, note")
	conversions := map[string]bool{}
	var order []string
	for i := range c.Found.Shots {
		sh := &c.Found.Shots[i]
		about := sh.Shot.Method.String()
		if sh.Shot.Misfire {
			about = "misfire"
		}
		about = show.Joined(", ", about, show.Clean(sh.Shot.Projectile), show.Clean(sh.Shot.Note))
		row := []any{sh.Shot.Line, c.Units.Near(quantity.Pressure, sh.Shot.Gauge), "-", "", "", show.Shorten(about, max(10, c.Width-50))}
		if !math.IsNaN(sh.Speed) {
			row[2], row[4] = c.fine(sh.Speed), "± "+c.fine(sh.Systematic)
			if sh.Random > 0 {
				row[3] = "± " + c.fine(sh.Random)
			}
			if m := sh.Shot.Method.String(); !conversions[m] {
				conversions[m] = true
				order = append(order, fmt.Sprintf("Line %d, %s: muzzle speed = %s.", sh.Shot.Line, m, c.text(sh.Conversion)))
			}
		}
		t.add(row...)
	}
	c.printTable(t)
	for _, o := range order {
		c.say("", "  ", o)
	}
}

// fine shows a speed: differences between shots matter here.
func (c *CalibrateScreen) fine(v float64) string { return c.Units.Near(quantity.ShotSpeed, v) }

// writeGroups prints the bound at each pressure.
func (c *CalibrateScreen) writeGroups() {
	for i := range c.Found.Groups {
		g := &c.Found.Groups[i]
		c.gap()
		if g.Shots < 2 {
			c.sayf("", "  ", "At %s: %s, %s.", c.Units.Near(quantity.Gauge, g.Gauge), show.Plural(g.Shots, "shot", "shots"),
				show.Plural(g.Misfires, "misfire", "misfires"))
		} else {
			c.sayf("", "  ", "At %s: %d shots, mean %s, scatter %s (%s). Bound %s = mean + %s x scatter + %s systematic, so %s with the "+
				"heaviest projectile.", c.Units.Near(quantity.Gauge, g.Gauge), g.Shots, c.fine(g.Mean), c.fine(g.SD), quantity.Percent(g.SD/g.Mean,
				1, quantity.Nearest), c.fine(g.UpperSpeed), three(g.K), c.fine(g.Systematic), c.Units.Worst(quantity.Energy, g.UpperEnergy))
			c.say("  ", "  ", normalText(g))
		}
		for _, f := range g.Faults {
			c.say("  ", "    ", "Does not count: "+c.text(f)+".")
		}
	}
}

func normalText(g *measure.SpeedGroup) string {
	n := g.Normal
	order := fmt.Sprintf("the fastest shot alone bounds 99 %% of all shots with only %s confidence.", wholePercent(n.OrderConfidence))
	test := fmt.Sprintf("Shapiro-Wilk W %s, probability %s", three(n.W), quantity.Short(n.P, 2))
	switch {
	case g.NotNormal():
		return "The scatter is NOT normal (" + test +
			"): find out what changed between the shots. The bound counts, and the model keeps its factor beside it. Whatever the shape, " + order
	case !n.Tested:
		return "Assumes normal scatter: too few shots to test it. Whatever the shape of the scatter, " + order
	}
	return "Normal scatter: " + test + ". Whatever the shape of the scatter, " + order
}

func wholePercent(share float64) string { return quantity.Percent(share, 0, quantity.Nearest) }

func three(v float64) string { return quantity.Fixed(v, 3, quantity.Nearest) }

func (c *CalibrateScreen) writeBench() {
	for _, v := range c.Found.Bench {
		c.gap()
		c.sayf("", "  ", "Bench, %s: %s %s.", c.text(v.How), show.Clean(v.Band.Key), c.band(v.Band))
	}
}

// band shows a band of a key with its unit where that is known.
func (c *CalibrateScreen) band(b launcher.Band) string {
	return fmt.Sprintf("%s (%s to %s)", c.value(b.Key, b.Nominal), c.value(b.Key, b.Low), c.value(b.Key, b.High))
}

// writeFit prints the fit, its residuals with a bar each, and the test.
func (c *CalibrateScreen) writeFit() {
	f := c.Found.Fit
	if f == nil {
		c.println("\nNo fit: it needs two shots at one pressure.")
		return
	}
	t := c.grid("fit", "measured", "model", "before", "slower | model | faster")
	for _, r := range f.Residuals {
		model, bar := "stalls", ""
		if r.Model > 0 {
			model, bar = c.fine(r.Model), residualBar(r)
		}
		before := "stalls"
		if r.Before > 0 {
			before = c.fine(r.Before)
		}
		t.add(c.Units.Near(quantity.Pressure, r.Gauge), c.fine(r.Measured), model, before, bar)
	}
	c.printTable(t)
	c.say("", "  ", "Bars: measured minus model, one step for half of a standard error of the mean.")
	for _, p := range f.Parameters {
		lead := "Fitted "
		if !p.Learned {
			lead = "Still open: "
		}
		c.say("  ", "    ", lead+show.Clean(p.Key)+" "+c.band(p.Band())+"; "+show.Clean(p.How)+".")
	}
	c.writeCredible()
}

// residualBar draws measured minus model in half standard errors.
func residualBar(r measure.Residual) string {
	const half = 8
	n := 0
	if r.Error > 0 {
		n = int(math.Round(2 * (r.Measured - r.Model) / r.Error))
	}
	cut := min(max(n, -half), half)
	left, right := strings.Repeat(" ", half), ""
	if cut < 0 {
		left = strings.Repeat(" ", half+cut) + strings.Repeat("=", -cut)
	} else {
		right = strings.Repeat("=", cut)
	}
	if cut != n && n > 0 {
		right += ">"
	} else if cut != n {
		left = "<" + left[1:]
	}
	return left + "|" + right
}

func (c *CalibrateScreen) writeCredible() {
	f := c.Found.Fit
	test := fmt.Sprintf("(test of the residuals at the %s level: probability %s)", wholePercent(measure.FitLevel), quantity.Short(f.P, 2))
	if f.Credible && c.Found.Wrong != nil {
		c.println(c.lines(red, "", "  ", "The means fit "+test+", but the model does NOT agree: "+c.text(c.Found.Wrong.Text)+"."))
		return
	}
	if f.Credible {
		c.say("", "  ", "The model agrees with these shots "+test+".")
		return
	}
	c.println(c.lines(red, "", "  ", "The model does NOT agree with these shots "+test+"."))
	if len(f.Suspects) == 0 {
		c.say("  ", "  ", "No single one of friction, flow, opening time and leak explains it: look at masses, gauge, distances and volumes.")
	}
	for _, x := range f.Suspects {
		c.sayf("  ", "    ", "It would agree with %s at %s. Is that so?", show.Clean(x.Key), c.value(x.Key, x.Value))
	}
}

func (c *CalibrateScreen) writeNarrowed() {
	if len(c.Found.Narrowed) == 0 {
		return
	}
	c.gap()
	c.println("Bands that check --shots replaces:")
	c.writeNarrowings(c.Found.Narrowed)
}

// writeNarrowings prints one line for each replaced band.
func (f *Frame) writeNarrowings(list []measure.Narrowing) {
	for _, n := range list {
		key := n.Now.Key
		f.sayf("  ", "    ", "%s: %s to %s becomes %s to %s (%s)", show.Clean(key), f.value(key, n.Was.Low), f.value(key, n.Was.High),
			f.value(key, n.Now.Low), f.value(key, n.Now.High), f.text(n.How))
	}
}

// Fragment writes the narrowed bands as keys for the design file.
func Fragment(id show.DesignID, f *measure.Findings, dimensionOf func(string) (unit.Dimension, bool)) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Measured and fitted values for %s, from %s.\n# Copy what you agree with into the design file; puffproof never "+
		"changes that file.\n", show.Clean(id.Title()), show.Clean(f.Log))
	if len(f.Narrowed) == 0 {
		fmt.Fprintln(&b, "# The measurements narrow no band yet.")
	}
	last := ""
	for _, n := range f.Narrowed {
		i := strings.LastIndexByte(n.Now.Key, '.')
		if t := n.Now.Key[:i]; t != last {
			fmt.Fprintf(&b, "\n[%s]\n", t)
			last = t
		}
		fmt.Fprintf(&b, "# %s\n%s = %q\n", show.Clean(n.How.String()), n.Now.Key[i+1:], fragmentValue(n.Now, dimensionOf))
	}
	return b.String()
}

// fragmentValue writes a band as the design file reads it.
func fragmentValue(b launcher.Band, dimensionOf func(string) (unit.Dimension, bool)) string {
	axis := quantity.Metric.Axis(quantity.Plain, b.High)
	if d, ok := dimensionOf(b.Key); ok {
		axis = quantity.Metric.Axis(quantity.Of(d), b.High)
	}
	less, more := axis.Difference(b.Nominal-b.Low), axis.Difference(b.High-b.Nominal)
	t := strings.TrimSpace(quantity.Number(axis.Of(b.Nominal), 3)+" "+axis.Name) + fmt.Sprintf(" -%s/+%s ", quantity.Number(less, 3),
		quantity.Number(more, 3)) + axis.Name
	return strings.TrimSpace(t) + ", measured"
}
