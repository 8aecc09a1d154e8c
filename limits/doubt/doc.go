// Package doubt holds stated figures of a launcher against each other and against what parts like it have: where one is contradicted, or
// beyond what such parts are, the end that shoots harder counts too, and what was stated is kept to be told. It refuses nothing, and it
// computes no shot; what its reader has to refuse it names (Unfed). Start reading at friction.go.
package doubt
