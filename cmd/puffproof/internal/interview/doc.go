// Package interview makes a design file of what a builder answers: some fifteen questions, of which each has what it
// accepts and the way to find it out. It reads no terminal and writes no file: whoever holds the conversation does.
//
// What is not answered is the template's figure where the file must have one, else "?". Start reading at Session.
package interview
