// Package show holds what screens and papers share when results are shown, so that
// nobody finds two words for one thing: a verdict's figures side by side (Figures), what
// a status looks like (Word, ToneOf, Rank), the answer in one line (Finding), and the
// JSON encoder (Fields, Document).
//
// It computes nothing, and knows no terminal and no page. Text that came from a file
// goes through Clean before it is shown. Start reading at Finding.
package show
