// Package export writes what a command answers for other programs: one JSON document a
// command, and the sheet of an emptying as CSV. SI units, gauge pressures above the
// design's ambient pressure; what is not known is null.
//
// The keys are a contract: they stay, in name and order. It computes nothing, and knows
// no screen. Start reading at Check.
package export
