package doubt

import (
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// How wide the print of a tip is, of the projectile's own width [-] (common practice, no source). A ball whose print is four fifths as wide
// as it is was pressed flat by a fifth of its width (geometry of a sphere: the print of depth s is 2 sqrt(s (D - s)) across); foam that is
// shot as hard as a limit allows leaves a third and more.
const (
	leastPrint = 1.0 / 3
	mostPrint  = 4.0 / 5
)

// OtherPrint gives the print that the design states and the one that tips of its projectile leave [m], and tells whether the stated one is
// wider than any such: a face that is flat all over may be, and a print shows it.
func OtherPrint(l *launcher.Launcher) (stated, round launcher.Band, other bool) {
	p := &l.Projectile
	stated = p.ContactSaid.Of(p.ContactDiameter)
	if !stated.Set || !p.Diameter.Set {
		return stated, round, false
	}
	round = launcher.Band{Set: true, Low: leastPrint * p.Diameter.Low, High: mostPrint * p.Diameter.High}
	return stated, round, stated.Low > mostPrint*p.Diameter.Low
}

// Print lets a print that is stated wider than a round tip's begin where those do: the narrower it is, the more energy there is on its
// area.
func Print(l *launcher.Launcher) {
	if stated, round, other := OtherPrint(l); other {
		l.Projectile.ContactSaid.Keep(stated)
		l.Projectile.ContactDiameter.Low = round.Low
	}
}

// narrowestPrint is how far apart the ends of a stated print are at least [m]: no five prints on paper come nearer to each other (own
// rule of this project).
const narrowestPrint = 0.2e-3

// PrintItem asks for the print that the tip leaves, as it was stated. One that is stated without a width was not measured, and is met by
// nothing but its own figure written once more: no answer closes it.
func PrintItem(l *launcher.Launcher) finding.Item {
	print, _, other := OtherPrint(l)
	it := finding.Item{ID: finding.ItemPrint, Title: finding.Words("Contact print of the tip"), Verdict: finding.EnergyArea,
		Why: finding.Words("Energy per area rests on the measured print, not on the diameter."),
		How: finding.Words("Stamp-pad ink on the tip, a shot at the lowest working pressure on paper over a board, mean of 5, two " +
			"directions."),
		Expect: finding.Say("a print between %s and %s across", finding.Millimetre(print.Low), finding.Millimetre(print.High)),
		Figure: finding.FigureBetween(finding.InMetre, print.Low, print.High), Source: "own rule of this project"}
	if other {
		it.Why = it.Why.Say(" The stated one is nearly as wide as the projectile; until it was measured, a far smaller one counts too.")
	}
	if print.High-print.Low < narrowestPrint {
		it.Never = finding.Say("projectile.contact_diameter is stated without a width, and no two prints are alike: state what five come to, "+
			"such as %s ± %s, and measure again", finding.Millimetre(print.Nominal), finding.Millimetre(2e-3))
		it.Expect = it.Never
	}
	return it
}

// inked takes the print of a tip that is told to touch with nearly all of its width.
func inked(l *launcher.Launcher) (question, bool) {
	_, _, other := OtherPrint(l)
	if !other {
		return question{}, false
	}
	return question{PrintItem(l), l.Projectile.ContactSaid.Doubted(), func(w *launcher.Launcher) {
		said(&w.Projectile.ContactSaid, &w.Projectile.ContactDiameter)
	}}, true
}
