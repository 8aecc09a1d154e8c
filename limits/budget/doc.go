// Package budget takes the judged energy of a launcher apart: the steps by which the nominal shot becomes the energy that is
// judged, what each tolerance costs at the worst launcher of the box and at the weakest, and why a shot does so little.
//
// It judges nothing: a figure of it never decides a verdict. It leaves out how tolerances act together; each share is
// that of one quantity alone, the others staying where they are worst (an uncertainty budget in the words of JCGM 100:2008,
// the GUM, clause 4.3 and annex H, though of worst cases instead of variances).
//
// Start reading at Compute.
package budget
