// Package show holds what screens and papers share when results are shown, so that
// nobody finds two figures or two words for one thing: how a figure is written
// (System.Words: value, quantity, rounding), what a status looks like (Word, ToneOf,
// Rank), the answer in one line (Finding), and the JSON encoder (Fields, Document).
//
// It computes nothing but the digits shown, and knows no terminal and no page. Text
// that came from a file goes through Clean before it is shown. Start reading at
// System.Words, then Finding.
package show
