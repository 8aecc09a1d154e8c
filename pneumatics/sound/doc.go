// Package sound estimates the pulse of sound of a shot of air: the strength of a compact
// source, what a microphone at a distance gets of it, and its C-weighted peak.
//
// A source that is small against the wavelength sounds by the rate at which its mass
// flow changes (Source, in kg/s2), whatever its shape. Three are modelled: the air that a
// projectile pushes out ahead of it (Column), the burst of what is left behind it as it
// leaves (Burst), and a valve that opens (Opening). The open end of a barrel is that of
// Levine and Schwinger (Mouth).
//
// Left out: the broadband noise of jets, echoes other than that of one wall at the muzzle
// (HalfSpace), the shadow and the gain of a head, the steepening of loud waves on their way
// to the ear, and everything inside vessels. SI units; pressures of sound are
// differences to the ambient pressure.
//
// Start reading at Burst.
package sound
