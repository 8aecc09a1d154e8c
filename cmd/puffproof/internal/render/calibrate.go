package render

import (
	"fmt"
	"io"
	"math"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
)

// CalibrateScreen shows what measurements say, on a terminal or in a pipe.
type CalibrateScreen struct {
	Style  Style
	Design DesignID
	Found  *measure.Findings
	Detail Detail
	// DimensionOf tells what a key of the design file measures.
	DimensionOf func(key string) (unit.Dimension, bool)
}

// Write prints the screen.
func (c *CalibrateScreen) Write(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintln(&b, c.finding())
	if c.Detail == Everything {
		fmt.Fprintln(&b, Shorten(Clean(titleOf(c.Design)), c.Style.Width-22)+c.Style.paint(faint, fingerprint(c.Design)))
		c.writeRemarks(&b)
		c.writeSpeeds(&b)
		c.writeGroups(&b)
		c.writeBench(&b)
		c.writeFit(&b)
		c.writeNarrowed(&b)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// finding is the first line.
func (c *CalibrateScreen) finding() string {
	s, f := c.Style, c.Found
	g := f.Best()
	if f.Wrong != nil {
		return s.paint(red, Wrap("The model does NOT agree with the shots: "+Clean(f.Wrong.Text)+".", s.Width, "", ""))
	}
	if len(f.Clashes) > 0 {
		return s.paint(red, Wrap("A bench test CONTRADICTS the design: "+c.clash(f.Clashes[0])+".", s.Width, "", ""))
	}
	if g == nil {
		text := "No shots count yet: the file has bench tests only."
		if n := shownGroup(f); n != nil {
			text = "No shots count yet: " + Clean(n.Faults[0]) + "."
		}
		return s.paint(yellow, Wrap(text, s.Width, "", ""))
	}
	text := fmt.Sprintf("Measured bound %s at %s: %s, %.0f %% confidence that %.0f %% stay below.",
		s.worst(unit.Energy, g.UpperEnergy), s.near(unit.Pressure, g.Gauge), plural(g.Shots, "shot", "shots"), 100*benchmark.BoundConfidence, 100*benchmark.BoundCoverage)
	colour := bold
	if f.Fit != nil && !f.Fit.Credible {
		text += " The model does NOT agree with the shots."
		colour = red
	}
	return s.paint(colour, Wrap(text, s.Width, "", ""))
}

// clash says how a bench test contradicts the design.
func (c *CalibrateScreen) clash(x launcher.Clash) string {
	return fmt.Sprintf("%s, the %s test reads %s to %s where the design states %s to %s; one of the two is wrong", Clean(x.Key), x.Test,
		c.value(x.Key, x.Read.Low), c.value(x.Key, x.Read.High), c.value(x.Key, x.Stated.Low), c.value(x.Key, x.Stated.High))
}

func (c *CalibrateScreen) writeRemarks(b *strings.Builder) {
	for _, r := range c.Found.Remarks {
		lead := "Look: "
		if r.Line > 0 {
			lead = fmt.Sprintf("Look at line %d: ", r.Line)
		}
		fmt.Fprintln(b, Wrap(lead+Clean(r.Text)+".", c.Style.Width, "", "  "))
	}
}

// writeSpeeds prints every shot with the speed that follows from it.
func (c *CalibrateScreen) writeSpeeds(b *strings.Builder) {
	if len(c.Found.Shots) == 0 {
		return
	}
	s := c.Style
	t := plainTable()
	t.AppendRow(table.Row{s.paint(bold, "line"), s.paint(bold, "from"), s.paint(bold, "speed"), s.paint(bold, "reading"), s.paint(bold, "systematic"), s.paint(bold, "method, ball, note")})
	conversions := map[string]bool{}
	var order []string
	for i := range c.Found.Shots {
		sh := &c.Found.Shots[i]
		about := sh.Shot.Method.String()
		if sh.Shot.Misfire {
			about = "misfire"
		}
		for _, x := range []string{sh.Shot.Projectile, sh.Shot.Note} {
			if x != "" {
				about += ", " + Clean(x)
			}
		}
		row := table.Row{sh.Shot.Line, unit.Format(sh.Shot.Gauge, unit.Pressure, s.Units), "-", "", "", Shorten(about, max(10, s.Width-50))}
		if !math.IsNaN(sh.Speed) {
			row[2], row[4] = c.fine(sh.Speed), "± "+c.fine(sh.Systematic)
			if sh.Random > 0 {
				row[3] = "± " + c.fine(sh.Random)
			}
			if m := sh.Shot.Method.String(); !conversions[m] {
				conversions[m] = true
				order = append(order, fmt.Sprintf("Line %d, %s: muzzle speed = %s.", sh.Shot.Line, m, sh.Conversion))
			}
		}
		t.AppendRow(row)
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, trimLines(t.Render()))
	for _, o := range order {
		fmt.Fprintln(b, Wrap(o, s.Width, "", "  "))
	}
}

// fine shows a speed with two decimals: differences between shots matter here.
func (c *CalibrateScreen) fine(v float64) string {
	u, name := c.Style.axisUnit(unit.Speed, v)
	return fmt.Sprintf("%.2f %s", u.FromSI(v), name)
}

// writeGroups prints the bound at each pressure.
func (c *CalibrateScreen) writeGroups(b *strings.Builder) {
	s := c.Style
	for i := range c.Found.Groups {
		g := &c.Found.Groups[i]
		fmt.Fprintln(b)
		if g.Shots < 2 {
			fmt.Fprintln(b, Wrap(fmt.Sprintf("At %s: %s, %s.", s.near(unit.Pressure, g.Gauge), plural(g.Shots, "shot", "shots"), plural(g.Misfires, "misfire", "misfires")), s.Width, "", "  "))
		} else {
			fmt.Fprintln(b, Wrap(fmt.Sprintf("At %s: %d shots, mean %s, scatter %s (%.1f %%). Bound %s = mean + %.3f x scatter + %s systematic, so %s with the heaviest projectile.",
				s.near(unit.Pressure, g.Gauge), g.Shots, c.fine(g.Mean), c.fine(g.SD), 100*g.SD/g.Mean, c.fine(g.UpperSpeed), g.K, c.fine(g.Systematic),
				s.worst(unit.Energy, g.UpperEnergy)), s.Width, "", "  "))
			fmt.Fprintln(b, Wrap(normalText(g), s.Width, "  ", "  "))
		}
		for _, f := range g.Faults {
			fmt.Fprintln(b, Wrap("Does not count: "+Clean(f)+".", s.Width, "  ", "    "))
		}
	}
}

func normalText(g *measure.SpeedGroup) string {
	if g.NotNormal() {
		return fmt.Sprintf("The scatter is NOT normal (Shapiro-Wilk W %.3f, probability %.2g): find out what changed between the shots. The bound counts, and the model keeps its factor beside it. "+
			"Whatever the shape, the fastest shot alone bounds 99 %% of all shots with only %.0f %% confidence.", g.Normal.W, g.Normal.P, 100*g.Normal.OrderConfidence)
	}
	order := fmt.Sprintf("Whatever the shape of the scatter, the fastest shot alone bounds 99 %% of all shots with only %.0f %% confidence.", 100*g.Normal.OrderConfidence)
	if !g.Normal.Tested {
		return "Assumes normal scatter: too few shots to test it. " + order
	}
	return fmt.Sprintf("Normal scatter: Shapiro-Wilk W %.3f, probability %.2g. %s", g.Normal.W, g.Normal.P, order)
}

func (c *CalibrateScreen) writeBench(b *strings.Builder) {
	for _, v := range c.Found.Bench {
		fmt.Fprintln(b)
		fmt.Fprintln(b, Wrap(fmt.Sprintf("Bench, %s: %s %s.", Clean(v.How), Clean(v.Band.Key), c.band(v.Band)), c.Style.Width, "", "  "))
	}
}

// band shows a band of a key with its unit where that is known.
func (c *CalibrateScreen) band(b launcher.Band) string {
	return fmt.Sprintf("%s (%s to %s)", c.value(b.Key, b.Nominal), c.value(b.Key, b.Low), c.value(b.Key, b.High))
}

func (c *CalibrateScreen) value(key string, v float64) string {
	if c.DimensionOf != nil {
		if d, ok := c.DimensionOf(key); ok {
			return unit.Format(v, d, c.Style.Units)
		}
	}
	return number(v, 3)
}

// writeFit prints the fit, its residuals with a bar each, and the test.
func (c *CalibrateScreen) writeFit(b *strings.Builder) {
	f, s := c.Found.Fit, c.Style
	if f == nil {
		fmt.Fprintln(b, "\nNo fit: it needs two shots at one pressure.")
		return
	}
	t := plainTable()
	t.AppendRow(table.Row{s.paint(bold, "fit"), s.paint(bold, "measured"), s.paint(bold, "model"), s.paint(bold, "before"), s.paint(bold, "slower | model | faster")})
	for _, r := range f.Residuals {
		model, bar := "stalls", ""
		if r.Model > 0 {
			model, bar = c.fine(r.Model), residualBar(r)
		}
		before := "stalls"
		if r.Before > 0 {
			before = c.fine(r.Before)
		}
		t.AppendRow(table.Row{unit.Format(r.Gauge, unit.Pressure, s.Units), c.fine(r.Measured), model, before, bar})
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, trimLines(t.Render()))
	fmt.Fprintln(b, Wrap("Bars: measured minus model, one step for half of a standard error of the mean.", s.Width, "", "  "))
	for _, p := range f.Parameters {
		lead := "Fitted "
		if !p.Learned {
			lead = "Still open: "
		}
		fmt.Fprintln(b, Wrap(lead+Clean(p.Key)+" "+c.band(p.Band())+"; "+Clean(p.How)+".", s.Width, "  ", "    "))
	}
	c.writeCredible(b)
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

func (c *CalibrateScreen) writeCredible(b *strings.Builder) {
	f, s := c.Found.Fit, c.Style
	test := fmt.Sprintf("(test of the residuals at the %.0f %% level: probability %.2g)", 100*measure.FitLevel, f.P)
	if f.Credible && c.Found.Wrong != nil {
		fmt.Fprintln(b, s.paint(red, Wrap("The means fit "+test+", but the model does NOT agree: "+Clean(c.Found.Wrong.Text)+".", s.Width, "", "  ")))
		return
	}
	if f.Credible {
		fmt.Fprintln(b, Wrap("The model agrees with these shots "+test+".", s.Width, "", "  "))
		return
	}
	fmt.Fprintln(b, s.paint(red, Wrap("The model does NOT agree with these shots "+test+".", s.Width, "", "  ")))
	if len(f.Suspects) == 0 {
		fmt.Fprintln(b, Wrap("No single one of friction, flow, opening time and leak explains it: look at masses, gauge, distances and volumes.", s.Width, "  ", "  "))
	}
	for _, x := range f.Suspects {
		fmt.Fprintln(b, Wrap(fmt.Sprintf("It would agree with %s at %s. Is that so?", Clean(x.Key), c.value(x.Key, x.Value)), s.Width, "  ", "    "))
	}
}

func (c *CalibrateScreen) writeNarrowed(b *strings.Builder) {
	if len(c.Found.Narrowed) == 0 {
		return
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, "Bands that check --shots replaces:")
	writeNarrowings(b, c.Style, c.Found.Narrowed, c.value)
}

// writeNarrowings prints one line for each replaced band.
func writeNarrowings(b *strings.Builder, s Style, list []measure.Narrowing, value func(key string, v float64) string) {
	for _, n := range list {
		fmt.Fprintln(b, Wrap(fmt.Sprintf("%s: %s to %s becomes %s to %s (%s)", Clean(n.Now.Key), value(n.Now.Key, n.Was.Low), value(n.Now.Key, n.Was.High),
			value(n.Now.Key, n.Now.Low), value(n.Now.Key, n.Now.High), Clean(n.How)), s.Width, "  ", "    "))
	}
}

// CalibrateLines turns the findings into the data of their figure.
func CalibrateLines(id DesignID, f *measure.Findings, u Units) figure.Lines {
	s := Style{Units: u}
	top, fast := 0.0, 0.0
	for i := range f.Shots {
		top = math.Max(top, f.Shots[i].Shot.Gauge)
		if !math.IsNaN(f.Shots[i].Speed) {
			fast = math.Max(fast, f.Shots[i].Speed)
		}
	}
	pu, pn := s.axisUnit(unit.Pressure, top)
	vu, vn := s.axisUnit(unit.Speed, fast)
	out := figure.Lines{Title: Shorten(Clean(titleOf(id)), 60) + ": measured against model", X: "Start pressure, " + pn, Y: "Speed at the muzzle, " + vn}
	dots := figure.Line{Name: "shots", Dots: true}
	for i := range f.Shots {
		if sh := &f.Shots[i]; !math.IsNaN(sh.Speed) {
			dots.X, dots.Y = append(dots.X, pu.FromSI(sh.Shot.Gauge)), append(dots.Y, vu.FromSI(sh.Speed))
		}
	}
	out.Lines = append(out.Lines, dots)
	if f.Fit == nil {
		return out
	}
	after, before := figure.Line{Name: "model, fitted"}, figure.Line{Name: "model, as designed"}
	for _, r := range f.Fit.Residuals {
		after.X, after.Y = append(after.X, pu.FromSI(r.Gauge)), append(after.Y, vu.FromSI(r.Model))
		before.X, before.Y = append(before.X, pu.FromSI(r.Gauge)), append(before.Y, vu.FromSI(r.Before))
	}
	out.Lines = append(out.Lines, after, before)
	return out
}

// Fragment writes the narrowed bands as keys for the design file.
func Fragment(id DesignID, f *measure.Findings, dimensionOf func(string) (unit.Dimension, bool)) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Measured and fitted values for %s, from %s.\n# Copy what you agree with into the design file; puffproof never changes that file.\n", Clean(titleOf(id)), Clean(f.Log))
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
		fmt.Fprintf(&b, "# %s\n%s = %q\n", Clean(n.How), n.Now.Key[i+1:], fragmentValue(n.Now, dimensionOf))
	}
	return b.String()
}

// fragmentValue writes a band as the design file reads it.
func fragmentValue(b launcher.Band, dimensionOf func(string) (unit.Dimension, bool)) string {
	name, factor := "", 1.0
	if d, ok := dimensionOf(b.Key); ok && d != unit.Dimensionless {
		text := unit.Format(b.High, d, unit.Metric)
		_, name, _ = strings.Cut(text, " ")
		if u, ok := unit.Lookup(name); ok {
			factor = u.Factor
		}
	}
	x := func(v float64) string { return number(v/factor, 3) }
	t := x(b.Nominal)
	if name != "" {
		t += " " + name
	}
	return strings.TrimSpace(t+fmt.Sprintf(" -%s/+%s %s", x(b.Nominal-b.Low), x(b.High-b.Nominal), name)) + ", measured"
}
