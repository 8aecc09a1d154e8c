package screen

import (
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/budget"
)

// mostShares is how many tolerances are listed on a screen.
const mostShares = 8

// writeBudget prints what the judged energy is made of and what each tolerance costs.
func (f *Frame) writeBudget(r *budget.Report) {
	if r == nil {
		return
	}
	if len(r.Steps) > 0 {
		t := f.grid("What the energy is made of, each line with those above it", "")
		t.right(2)
		for i, s := range r.Steps {
			energy := "does not leave"
			switch {
			case s.Leaves && i == 0:
				energy = f.Units.Near(quantity.Energy, s.Energy)
			case s.Leaves:
				energy = f.Units.Worst(quantity.Energy, s.Energy)
			}
			t.add("  "+show.Shorten(f.text(s.What), 60), energy)
		}
		f.printTable(t)
	}
	f.writeShares("What one figure known exactly would take off the worst energy, at most", r.Shares, func(s budget.Share) string {
		return f.Units.Near(quantity.Energy, s.Energy)
	})
	f.writeShares("What it would give the weakest launcher, at most", r.Slow, func(s budget.Share) string {
		return f.Units.Near(quantity.Speed, s.Speed)
	})
}

// writeShares prints a list of tolerances with what each is worth.
func (f *Frame) writeShares(title string, shares []budget.Share, worth func(budget.Share) string) {
	if len(shares) == 0 {
		return
	}
	f.heading(title)
	t := f.grid("", "worth", "counts at", "stated")
	t.right(2)
	for _, s := range shares[:min(len(shares), mostShares)] {
		at, nominal := f.sideBySide(s)
		if s.Assumed {
			nominal += ", band assumed"
		}
		t.add("  "+show.Clean(s.Key), worth(s), at, nominal)
	}
	f.printTable(t)
}

// sideBySide are the figure at which a quantity counts and the one that is stated.
func (f *Frame) sideBySide(s budget.Share) (at, nominal string) {
	if s.Key == "seating" {
		return f.Units.Near(quantity.Length, s.At) + " forward", "at the rear"
	}
	return f.figure(s.Key, s.At), f.figure(s.Key, s.Nominal)
}

// figure is a key's value; none has no unit.
func (f *Frame) figure(key string, si float64) string {
	if si == 0 {
		return "0"
	}
	return f.value(key, si)
}
