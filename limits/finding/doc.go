// Package finding holds what the other rooms of limits answer with: verdicts, items of
// the checklist, their identifiers, and the texts in which both speak. A text is words
// and figures; a figure keeps its quantity in SI and how it is rounded, so that whoever
// shows it chooses the unit.
//
// Nothing is computed or judged against a rule here but a value against its limit.
// Start at Verdict and Item; Say makes texts.
package finding
