// Package control is the electrical block of a launcher as data: fuses, stop, key, buttons, remote, timer and relays, what each
// consumer of current has in series, and what is on in each state, as built and with something wrong in it.
//
// It knows contacts that are open or closed and nothing between: no voltages, no times. A contact is named by its part and its
// number, "k1.2"; a relay that welds holds all its contacts that close, for one welded contact can hold the armature. What a load
// moves is a name: which path that is, what air does then, knows whoever asks (package fault).
//
// Start reading at Wiring, then Wiring.In (power.go).
package control
