package launcher

import "math"

// A shot's elevation: pointing down the projectile's weight helps it, pointing up it holds
// the projectile back until the pressure is higher. Neither is always the worse.

// ElevationKey names the elevation of a shot, which no key of the design states by itself.
const ElevationKey = "mount.elevation"

// ShotElevation is the elevation of a shot [rad]; the lowest where not Set.
func (l *Launcher) ShotElevation() *Band { return &l.elevation }

// LowestElevation is the lowest elevation the barrel can have [rad]; 0 where none is stated.
func (l *Launcher) LowestElevation() float64 {
	m := &l.Mount
	switch {
	case m.ElevationMin.Set:
		return m.ElevationMin.Low
	case l.Event != nil && l.Event.Elevation.Set:
		return l.Event.Elevation.Low
	case m.ElevationMax.Set: // no lower stop: level at least
		return min(0, m.ElevationMax.Low)
	}
	return 0
}

// HighestElevation is the highest that the barrel can have [rad]: straight up where the
// mount has a lower stop and no upper one; 0 where none is stated.
func (l *Launcher) HighestElevation() float64 {
	m := &l.Mount
	switch {
	case m.ElevationMax.Set:
		return m.ElevationMax.High
	case m.ElevationMin.Set:
		return max(m.ElevationMin.High, math.Pi/2)
	case l.Event != nil && l.Event.Elevation.Set:
		return l.Event.Elevation.High
	}
	return 0
}

// StatesElevation tells whether the design says anything of it.
func (l *Launcher) StatesElevation() bool {
	return l.Mount.ElevationMin.Set || l.Mount.ElevationMax.Set || l.Event != nil && l.Event.Elevation.Set
}
