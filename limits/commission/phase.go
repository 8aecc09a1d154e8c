package commission

import (
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
)

// Phase is a stretch of the way: what it is for, and who stands where in it.
type Phase struct {
	Title, Why string
	Stand      finding.Text
}

// PhaseOf gives a phase in words. Who stands where is common practice, no source.
func PhaseOf(p checklist.Phase) Phase {
	nobody := finding.Words("No air in it, the supply unplugged: anybody may stand anywhere.")
	behind := finding.Say("Two adults behind the muzzle, one at the plug, one at the gauge, both with eye protection; nobody else within %s.",
		finding.Metre(5))
	shooter := finding.Words("Nobody in front; the shots end in a hanging blanket or a box. One adult fires from behind the muzzle, one " +
		"reads and writes, both with eye protection; children are not there.")
	return [checklist.Phases]Phase{
		checklist.Papers: {"Papers and labels read", "What may burst, cut or shoot by itself is found with the eyes, before any air.", nobody},
		checklist.Water: {"Proved with water", "Water that is let go does nothing.",
			finding.Words("Behind a board; the vessel on the floor outdoors, full of water.")},
		checklist.Bench: {"The relief valve on a bench", "It is what stands between a fault and a burst: before any air enters the launcher.",
			finding.Words("Away from the launcher; eyes and face not in line with the outlet, ear defenders on.")},
		checklist.DryControl: {"Stop, key and remote without air", "A stop that does not stop is found with nothing to stop.", nobody},
		checklist.LowVent:    {"Venting at a low pressure", "Before more air goes in it is known how it comes out.", behind},
		checklist.LeakDown:   {"Leak-down", "A valve that leaks towards the barrel shoots by and by; a gauge that lies hides it.", behind},
		checklist.SwitchSteps: {"What ends the filling", "Every figure of the design starts from the pressure at which it stops.",
			behind},
		checklist.ReliefInPlace: {"The relief valve in place", "It opened on the bench; here it carries the whole supply.",
			finding.Words("Everyone away and behind something solid, one adult at the plug who sees the gauge.")},
		checklist.FaultsTried: {"Faults tried", "What fails on the day has been seen to fail before.", behind},
		checklist.Drills: {"Misfire, jam and loading practised", "Hands learn it without air.",
			finding.Words("No air in it, the supply unplugged; hands where they will be, nobody in line with the barrel all the same.")},
		checklist.TestShots: {"Measured shots, the weakest first",
			"A launcher that shoots harder than computed is to show it at a lower pressure first.",
			shooter},
		checklist.ClearZone: {"Clear zone walked", "The figures of the flight are held against where the projectiles really came down.",
			finding.Words("At the place of the event, without public; air out while anybody walks in the zone.")},
		checklist.SecondLook: {"A second person looks", "Who built it sees what it should be.",
			finding.Words("Air out, supply unplugged, vent locked open; the record in hand.")},
	}[p]
}
