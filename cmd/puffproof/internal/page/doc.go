// Package page serves one page of a launcher, or of two, to a browser on this machine: its figures to be turned, and what comes
// of them.
//
// The design file stays the only truth. A draft is the bytes of the file with the values of some keys put in the place of others
// (package edit); what is judged is what the reader of design files makes of it, by the functions of check; saving writes those
// bytes. Only the files named at the start are read and written.
//
// Whoever asks must know the key of the link, name the address that the page is served at, and not come from another page
// (guard.go). Every part of the page is made on the server (package view) and sent again when it has changed, as server-sent
// events, to every page that is open (sheet.go, events.go). Answers come by generations of the draft: a newer draft ends the work
// on an older one, and no answer of an older one is shown over a newer one (work.go).
//
// Start reading at Serve.
package page
