// Package interview makes a design file of what a builder answers: some twenty questions, of which each has what it
// accepts and the way to find it out. It writes no file.
//
// What is not answered is the template's figure where the file must have one, else "?". Start reading at Session;
// Converse holds the conversation.
package interview
