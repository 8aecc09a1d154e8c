package budget

import (
	"math"

	"puffproof/pneumatics"
)

// Entry is one entry of the account of a shot.
type Entry struct {
	Name   string
	Energy float64 // [J]
	Note   string
}

// Account says where the energy of a shot came from and where it went. The work on the atmosphere, which the air does whatever
// flies, stands apart at the end: what comes before it can be held against the ceiling,
//
//	(W - pa A x) + W_jet = E + W_friction + W_gravity + E_air + E_impact,
//
// W the work of the barrel's air on the projectile's base, pa A x that against the atmosphere, W_jet that of the jet after the
// muzzle, E the projectile's final energy, E_air the kinetic energy of the air behind and ahead of it. Entries below a
// microjoule are left out. JSON and screens show them in this order.
func Account(r *pneumatics.Result) []Entry {
	a := r.Account
	final := r.FinalEnergy
	all := []Entry{
		{"work of the barrel's air", a.GasWork - a.Atmosphere, "beyond pushing the atmosphere away"},
		{"work of the jet behind it", a.JetWork, ""},
		{"to the projectile", final, ""},
		{"to friction", a.Friction, ""},
		{"to motion of barrel air", a.GasMotion, ""},
		{"to motion of air ahead", a.ColumnMotion, ""},
		{"to gravity", a.Gravity, ""},
		{"to the rear stop", a.Impact, ""},
		{"to the atmosphere", a.Atmosphere, "besides, whatever flies"},
	}
	var out []Entry
	for _, e := range all {
		if math.Abs(e.Energy) >= 1e-6 { // less is nothing to a reader, nor is what a projectile at rest has not
			out = append(out, e)
		}
	}
	return out
}
