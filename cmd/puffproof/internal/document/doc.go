// Package document makes the papers that leave the house: the safety file and
// the card. Build puts results into one plain-data Document; HTML, PDF and
// Markdown write the same Document and compute nothing. Every paper of the
// safety file carries its own inputs (archive.go), so that Compare can say later
// whether it still describes the design.
//
// It leaves out the computing (package limits) and the drawing (package figure).
// Start reading at Document, then Build.
package document
