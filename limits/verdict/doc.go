// Package verdict judges an assessment. Each question is a row of Table: its identifier,
// title and unit, the stage that its figures come from, and a pure function in the file
// of its family, which compares a figure with a limit and says why.
//
// Nothing is searched or simulated here: a figure that a verdict needs is in the
// assessment. Start at Table.
package verdict
