// Package limits answers whether a launcher may be used: Check gives every verdict and
// the checklist, Faults every single fault, Empty how it empties. Each is a view of one
// assessment, so whoever wants several makes that once and asks ReportOf,
// FaultReportOf and VentReportOf.
//
// The rooms below it, in the order in which they may use each other: benchmark (published
// figures), finding (answers and texts), launcher (the design), search, worst (the worst
// case), measure and vent, fault, assessment (all figures), verdict, checklist, setpoint.
// Units are SI, pressures gauge unless said otherwise.
package limits
