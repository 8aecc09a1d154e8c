// Package sound answers how loud a shot is at an ear: an interval for the peak sound
// pressure level, from what the model expects to an upper end that is not passed.
//
// The sources are the air pushed out ahead of the projectile, the burst of what is left behind it, the
// air that the firing valve lets out with nothing loaded, vents and relief valves as they open, and the
// pump by its stated level. Their peaks do not meet, so the loudest counts. Expected is the nominal shot into free
// space, C-weighted; the upper end is the loudest shot over the tolerances, its bore opened at once, before a
// hard wall, C-weighted or not, whichever is more. The interval is wide, and a recording narrows it
// (Recording).
//
// Left out: the broadband noise of jets, single faults, echoes of rooms. Levels are in dB re 20 uPa, peak; no
// source in the verdict's own benchmarks says how sensitive a child's ear is.
//
// Start reading at Compute.
package sound
