// Package shots reads a shots file: what a builder wrote down of measured shots
// and bench tests, as comma-separated values.
//
// The first line names the columns, each with its unit in brackets, such as
// "pressure [bar]". Every later line is one shot or one bench reading; which one
// its filled columns say: a line with a speed is a chronograph shot, one with
// frames a video. Lines that begin with # are comments. Faults are listed all at
// once, with their place. The package converts units and knows nothing of
// launchers. Start reading at Read.
package shots
