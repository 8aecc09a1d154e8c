// Package measure turns what a builder measured on the real launcher into figures that
// verdicts may rest on.
//
// A reading (chronograph, video, flight, sound) becomes a speed at the muzzle with its
// error; the shots at one pressure become a tolerance bound on the energy; the shots at
// several pressures are held against the model, which they may narrow; bench tests give
// single quantities. What cannot be what it says is a remark, what the model cannot make
// a contradiction; no line is ever left out. A bound is carried to a higher pressure and
// to the worst seat by the ratio that the model gives. Plan says what to measure, Flights
// where the projectile lands.
//
// Everything is SI, pressures are gauge values [Pa]. Not here: files (the caller reads
// them) and the verdicts on the bound (package verdict). Start reading at Evaluate, then
// UseFindings.
package measure
