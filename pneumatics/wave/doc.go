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
// open ends are flow.Restriction laws joined to the tube by the wave that
// runs into it.
//
// Hoses before and after the firing valve may be tubes of their own, of several
// pieces (line.go): the valve joins two ends (bridge.go), a step in the bore two
// others (step.go). Over a launch tube the chamber at the projectile's nose is a
// tube that grows from nothing (barrel.go). Bleed holes, and the gap along the
// tube, take gas out of the first cells of a tube (hole.go). RuleOf tells from a lumped
// shot whether the lumped model is inside its range.
//
// It leaves out the push after the muzzle, wall heat, waves inside vessels, friction
// that depends on how the flow changes, and everything that is not one-dimensional.
// SI units; pressures are absolute.
//
// Start reading at Shot (shot.go), then system.go, tube.go and ends.go. The
// exact solutions that it is held to are in riemann.go and closed.go.
package wave
