// Package rests says which keys of a design bear on which item of the checklist: what an answer rests on. It knows a design as the
// values that stand under its dotted keys (Flatten), and no quantity. Start at Bears.
package rests
