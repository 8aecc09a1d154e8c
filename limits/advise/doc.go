// Package advise finds what to change in a design so that its projectile leaves the barrel,
// in the weakest launcher of the box too, and every verdict holds.
//
// It changes designs by typed values of keys (change.go). Who knows design files applies them
// (Design), so that what is judged is what a file with the changes says. A layout first puts
// right what no figure can (layout.go): an open way out of every volume, a dose between tank
// and barrel, a relief valve, parts made for gas. Then dials are turned (dial.go, tune.go):
// over the continuous part by the simplex method on a few shots at the hardest and weakest
// corners of the box, rounded to what can be bought or drilled, and judged by the very
// functions of check (judge.go). What only people can say, it does not say: declare.go lists it.
//
// Start reading at Find.
package advise
