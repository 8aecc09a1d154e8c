// Package hazard is the hazard log of a launcher: what could hurt whom, how badly and how likely before anything is done about
// it, what is done in the three steps of ISO 12100:2010 (6.2 inherently safe design, 6.3 guards and other protective measures, 6.4
// information; the clauses from memory), the evidence for each measure, and what severity and likelihood are left.
//
// It computes nothing: a measure is in force where the verdicts that stand for it hold and the items of the checklist that show it
// are answered. So a launcher that was never tested has the risks of one on which nothing was done. The list and its
// scales are the project's own (common practice, no source); a builder adds what is special to an event.
//
// Start reading at Log.
package hazard
