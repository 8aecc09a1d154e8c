// Package proving holds a design and the record of its commissioning together: it is the one writer of answers to the checklist.
//
// A reading is judged by package commission, appended to the record and forced to the disk, and only then written as an answer into
// the design; a further entry says that it was. So every answer that this program writes names the reading it came from, and every
// reader of the design can hold it against the record beside it. What a run left between the two files the next one takes over.
// Nothing is rendered here, and nothing is read of the command line: a Host says who asks.
//
// Start reading at Open, then Book.Take. Beside is what every command asks that only reads a design.
package proving
