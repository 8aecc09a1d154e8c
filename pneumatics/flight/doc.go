// Package flight is the path of a projectile after the push behind it has ended:
// a point mass with quadratic drag in still or moving air, thrown by a launcher
// at rest or in motion.
//
// It models drag that grows with the square of the speed through the air, with a
// coefficient that is constant or that of a sphere at its Reynolds number,
// gravity, a steady wind along the shot and a moving launcher. It leaves out
// lift, spin, tumbling, gusts and side winds. SI units; heights above the ground.
//
// Start reading at Throw and Fly (fly.go); the closed forms are in closed.go.
package flight
