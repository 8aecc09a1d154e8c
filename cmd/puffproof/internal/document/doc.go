// Package document is a paper as plain data. HTML, PDF and Markdown write the same
// Document and compute nothing. A paper carries its own inputs and answers
// (archive.go), so that it can be told later whether it still describes the design.
//
// It leaves out what stands on a paper (package paper) and the drawing (package
// figure). Start reading at Document (model.go), then Write.
package document
