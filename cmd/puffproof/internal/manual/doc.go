// Package manual explains the design file out of its one table of keys (package keys): the
// commented template to start from, the sketch to begin from nothing with, the
// reference of every key, the JSON schema for editors.
//
// It reads no file. Start reading at Template, Reference and Schema.
package manual
