// Package fault makes every single fault that the parts of a launcher can have, and pairs
// of them, and finds what each does to the shot and to the pressures.
//
// Nothing is tabled per design: which faults there are follows from the kinds of the
// parts and from the circuit. A fault that by the circuit cannot change the shot is told
// with the reason and without a search. Verdicts on the whole, and the items of the
// checklist that reveal what nobody notices, are made from the Report elsewhere; what is
// left in volumes and how long they take to empty comes from package vent.
//
// SI throughout: pressures [Pa gauge], energies [J]. NaN is a figure that is not known or
// not a question of that fault.
//
// Start reading at Compute and singleFaults (compute.go), which makes the list, then run
// (shot.go), which searches.
package fault
