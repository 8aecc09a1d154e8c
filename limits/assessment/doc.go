// Package assessment computes all that verdicts, checklist, reports and papers on a
// launcher are functions of, each stage once, and hands it on as plain data.
//
// Nothing is judged here. The day of the question is always part of it. Start at Make
// and Assessment.
package assessment
