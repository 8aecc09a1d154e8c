// Package quantity writes figures for people: an SI value, what it is of and to which side
// it may be rounded give a number with its unit in metric or US units (System.Words), in
// the texts of results too (System.Text). It is the counterpart of package unit, which
// reads them.
//
// It computes nothing but the digits shown, and knows no result, no file and no page.
// Start reading at System.Words.
package quantity
