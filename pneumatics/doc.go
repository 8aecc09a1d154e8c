// Package pneumatics is the gas-expansion model of a low-pressure air launcher:
// one circuit of rigid volumes, a barrel with its projectile and the flow paths
// between them, and one simulation that answers every question as a scenario on
// that circuit.
//
// It models a calorically perfect gas, lumped volumes, ISO 6358 and ideal-nozzle
// restrictions, hoses in series, valves that take time, springs of check, relief
// and regulator, wall heat by natural convection, and a projectile with
// breakaway and sliding friction, a gap, the inertia of the gas behind and of
// the air ahead, and the push after the muzzle. Hoses may be lines, whose gas has
// inertia and friction. It leaves out waves in the barrel, moisture, and real-gas
// effects; flow.CheckRange states its range. It knows nothing of limits, files or
// terminals. SI units throughout; pressures are absolute unless a comment says gauge.
//
// Start reading at Circuit and Scenario (circuit.go), then Sim.Run (run.go) and
// Derivatives (derivatives.go).
package pneumatics
