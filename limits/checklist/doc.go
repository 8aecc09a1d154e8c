// Package checklist lists what only a person can confirm about a launcher, with the
// figure to expect, and enters the answers: of the design itself, of measured shots, of
// logs. What is dated after the day of the question counts as not done.
//
// Whether a launcher holds is not decided here; see package verdict. Start at Of.
package checklist
