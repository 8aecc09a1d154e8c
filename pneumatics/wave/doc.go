// Package wave is the reference for the lumped shot of package pneumatics:
// one-dimensional gas dynamics in the barrel and in hoses.
//
// It solves the quasi-one-dimensional Euler equations (area changes, wall
// friction) by a finite-volume scheme: linear reconstruction of density,
// velocity and pressure with van Leer's limiter, the HLLC flux, and Heun's
// two-stage method (second order, strong stability preserving). The mesh behind
// and ahead of the projectile moves with it; cells keep their totals of mass,
// momentum and energy, and the faces' motion enters the fluxes, so that mass and
// energy are conserved to rounding. Vessels stay lumped. Valves, orifices and
// open ends are pneumatics.Restriction laws joined to the tube by the wave that
// runs into it.
//
// A hose before the firing valve may be a tube of its own (bridge.go). RuleOf
// tells from a lumped shot whether the lumped model is inside its range.
//
// It leaves out the push after the muzzle, wall heat, waves inside vessels, the
// over-tube fit and everything that is not one-dimensional. SI units; pressures
// are absolute.
//
// Start reading at Shot (shot.go), then system.go, tube.go and ends.go. The
// exact solutions that it is held to are in riemann.go and closed.go.
package wave
