// Package commission is the way from a built launcher to one that may be used: one step at a time, in the only safe order.
//
// A step is an item of the checklist with more to it: who stands where, what to write down, the band to expect on this
// launcher, what to do when it is outside. The order is that of package checklist. Whether a step is done is what the
// checklist says; a reading is judged by the rules of its item and by what the assessment expects: the bands of emptying,
// leak-down, switch, relief valve and shots. Nothing is computed here.
//
// Start reading at Of, then Run.Judge.
package commission
