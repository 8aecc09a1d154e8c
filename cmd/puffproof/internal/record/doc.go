// Package record keeps the readings of a commissioning: one file beside the design that only grows.
//
// Each line is one entry, a JSON object whose last key is its chain: SHA-256 over the chain of the line before it and its own
// other bytes, so that a line that was altered, taken out or put in later is noticed. Entries are appended in one write and
// forced to the disk. A line that a crash cut off is never taken away: the next entry begins on a new line and says what
// stands before it. Whether a reading was good is decided elsewhere.
//
// The file is also the journal of the design's [checklist]: a reading stands here before its answer is written there, and a
// further entry says that it was. What lacks that entry is pending, and the next run writes it.
//
// Start reading at Read, then Append, then Log.Restore.
package record
