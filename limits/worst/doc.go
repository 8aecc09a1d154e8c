// Package worst looks for the worst case over all tolerances, start pressures and seats:
// of the energy in normal operation, of other objects in the barrel, of a stuck
// projectile, of a plugged muzzle. It declares the model factor, the one figure that
// every energy of the model is multiplied by before it is judged.
//
// A Question says what is asked of a shot; a Box lays out the coordinates that can bear
// on it; an Evaluator computes the figure at a point; Maximise searches. How the search
// goes is in package search. No limit is known here but where a search may be brief.
// Units are SI. Start at Question and ComputeEnergies.
package worst
