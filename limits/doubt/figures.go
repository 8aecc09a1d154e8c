package doubt

import "puffproof/limits/launcher"

// Figures holds the figures of a launcher against each other that are read whatever its circuit is.
func Figures(l *launcher.Launcher) {
	Clearance(l)
	DeadVolume(l)
	Friction(l)
	Mass(l)
	Curve(l)
	Print(l)
}
