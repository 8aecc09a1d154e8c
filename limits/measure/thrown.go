package measure

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/pneumatics/flight"
)

// Thrown is the flight of a projectile with nominal values in still air: from a speed [m/s], at the elevation of the
// event where that is stated, else at another [rad].
func Thrown(l *launcher.Launcher, speed, otherwise float64) flight.Flight {
	t := flight.Throw{Speed: speed, Elevation: otherwise}
	if e := l.Event; e != nil {
		if e.Elevation.Set {
			t.Elevation = e.Elevation.Nominal
		}
		if e.MuzzleHeight.Set {
			t.Height = e.MuzzleHeight.Nominal
		}
	}
	return flight.Fly(flying(l, 1), air(l, 0), t, 0)
}

// Straight and Halfway are elevations of a throw [rad]: straight up, and where it goes far.
const (
	Straight = math.Pi / 2
	Halfway  = math.Pi / 4
)
