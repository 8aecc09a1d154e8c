// Package remedy tries what may mend a verdict that fails: single changes, each on a copy of the design, judged again lightly.
//
// Start reading at Prove.
package remedy
