// Package keys is the one table of the keys that a design file may have: what each is
// called, what it holds, what is taken without it, how to find it at home. The strict reader,
// the commented template, the reference and the JSON schema are made from it (packages design and
// manual).
//
// It knows no file. It also says what a word that is no key probably means. Start reading at
// Key, then at Table.
package keys
