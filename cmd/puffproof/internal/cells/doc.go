// Package cells reads a CSV file as cells that know their place, strictly: nothing that
// stands in the file is left out in silence.
//
// The first line that is no comment names the columns, each with its unit in brackets.
// Columns are parted by commas, semicolons or tabs, whichever the first line has most
// of. Lines that start with # are comments. Beside a semicolon or a tab a number may have
// a decimal comma, if all of the file have one. It knows no column: shots and readings
// do. Start reading at Read.
package cells
