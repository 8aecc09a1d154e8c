// Package argument puts claims, their argument and what shows them into a tree, in the terms of the GSN Community
// Standard, version 3 (2021; from memory): goals are claims, a strategy says over what a goal is argued, solutions are
// what shows it, and a goal that nothing shows yet is undeveloped.
//
// The tree is made of the hazard log, the verdicts and the checklist; it computes nothing and judges nothing of its own.
// It says what was shown, never that something is harmless. Start reading at Of.
package argument
