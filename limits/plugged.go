package limits

// Plugged is the barrel with its muzzle closed: the larger of the feeding volumes'
// pressure and of the pressure on either side of a loaded projectile driven against
// it, at the highest pressure of normal operation and of every overcharging fault.
type Plugged struct {
	Value   float64 // highest pressure in the barrel [Pa gauge]
	Limit   float64 // its rating at the hottest temperature [Pa gauge]
	Unknown string  // why there are no figures; "" there are
	Why     string
}

// Exceeds tells whether the barrel takes more than it is rated for.
func (p Plugged) Exceeds() bool { return p.Unknown == "" && p.Value > p.Limit }
