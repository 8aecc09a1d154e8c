package measure

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// The keys that measurements can replace, beside the flow of a path.
const (
	KeyBreakaway = "projectile.breakaway_force"
	KeySliding   = "projectile.sliding_force"
	keyClearance = "projectile.clearance"
)

// bandOf gives the band of a key that measurements can replace; nil: none.
func bandOf(l *launcher.Launcher, key string) *launcher.Band {
	switch key {
	case KeyBreakaway:
		return &l.Projectile.Breakaway
	case KeySliding:
		return &l.Projectile.Sliding
	case keyClearance:
		return &l.Projectile.Clearance
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.OpeningTime.Key == key {
			return &p.OpeningTime
		}
		if knob, _ := flowKnob(&p.Flow); knob != nil && knob.Key == key {
			return knob
		}
	}
	return nil
}

// flowKnob is the band that stands for how much a path really lets through, and the
// band that shares the product with it: where the flow was measured the second
// keeps its nominal value, for it is inside the measured one.
func flowKnob(f *launcher.FlowSpec) (knob, companion *launcher.Band) {
	switch f.Form {
	case launcher.OrificeBore, launcher.SeatBore:
		return &f.DischargeCoefficient, &f.Value
	case launcher.FlowCv, launcher.FlowKv:
		return &f.Value, &f.PressureDropRatio
	case launcher.SonicConductance, launcher.NominalFlow:
		return &f.Value, nil
	}
	return nil, nil
}

// replaceBand puts a measured band into the launcher.
func replaceBand(l *launcher.Launcher, n Narrowing) {
	now := n.Now
	b := bandOf(l, now.Key)
	if b == nil {
		panic("limits: no band " + now.Key)
	}
	*b = now
	for i := range l.Paths {
		// Only a measured flow holds its companion inside; a union with the design does not.
		if knob, companion := flowKnob(&l.Paths[i].Flow); knob == b && companion != nil && !n.Widened {
			companion.Low, companion.High = companion.Nominal, companion.Nominal
		}
	}
	if now.Key == KeyBreakaway {
		// Without a restart force of its own the projectile restarts at the breakaway.
		if r := &l.Projectile.Restart; r.Set && r.Assumed {
			r.Low, r.Nominal, r.High = now.Low, now.Nominal, now.High
		}
	}
}

// MeasuredBand makes a band of a measurement, cut to what a quantity can be.
func MeasuredBand(key string, low, nominal, high float64, how finding.Text) launcher.Band {
	low, nominal, high = math.Max(0, low), math.Max(0, nominal), math.Max(0, high)
	return launcher.Band{Set: true, Key: key, Low: low, Nominal: nominal, High: high, Origin: launcher.Measured, Reason: how}
}

// gap is the clearance on the diameter that the two diameters leave.
func gap(l *launcher.Launcher) launcher.Band {
	b, p := &l.Barrel, &l.Projectile
	outer, inner := b.Bore, p.Diameter
	if l.BarrelAt().Fit != 0 {
		outer, inner = p.InsideDiameter, b.TubeOuterDiameter
	}
	return MeasuredBand(keyClearance, outer.Low-inner.High, outer.Nominal-inner.Nominal, outer.High-inner.Low,
		finding.Words("from the two diameters"))
}

// standing is the band of a key as it stands before a measurement.
func standing(l *launcher.Launcher, key string) launcher.Band {
	b := *bandOf(l, key)
	if key == keyClearance && !b.Set {
		b = gap(l)
	}
	return b
}
