package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// absurd are readings of launchers that are not in order, of tests that were not done, or of something else, each with a phrase that
// the item accepts, or that looks like it. Made up for this test.
var absurd = map[string][]string{
	ItemAgeRetire: {"sound of a crack as it was bent", "whole lot of dents", "intact apart from the dent",
		"no cracks visible because of the paint", "no cracks but the date on the tank is 1998",
		"hose is perished, no cracks in the tank", "not a whole tank", "nothing past the first glance",
		"no cracks on the outside, inside not seen", "soundly hammered", "no cracks that matter", "no cracks, foam crumbles",
		"no cracks, deep scratch", "no cracks but brittle", "no cracks larger than 5 mm"},
	ItemEndCaps: {"tight squeeze, cap tilted", "hold on with tape", "held by hand", "cap holds for now", "half seated", "not fully in",
		"cap turned when pulled but holds", "cap hold on by glue", "threads fully in on one side only, other cap half way",
		"seated on the sofa", "holds only without air", "tight budget, no caps"},
	ItemHoseRestraint: {"held by hand", "hold it while it runs", "clips ordered", "clips in the box",
		"one hose clipped, the other free", "clipped to nothing", "hose whips, held", "clips come off when pulled",
		"hose slipped out, clipped again", "sleeved, not clipped"},
	ItemReliefShutOff: {"straight behind the tap", "straight through the ball valve", "directly behind a cock",
		"no tap, but a check valve between", "no tap handle, valve between", "nothing between but a stopcock",
		"no valve between, a plug in the outlet", "a straight valve", "no shut off needed"},
	ItemOneBarrel: {"one barrel each", "one barrel of two", "this barrel and that", "the same barrel and another one",
		"one barrel, hose leads to both", "one barrel and a branch to nowhere"},
	ItemExhaust: {"not free", "free of air", "nothing comes out", "comes out only when blown hard", "freely invented", "half free",
		"comes out slowly", "free on one side, the other silencer is choked", "comes out nowhere"},
	ItemGuard: {"probe reaches the bore", "stays out of sight", "probe stays out only if held", "fingers get in, probe stays out",
		"short of time", "probe stays out, guard taken off", "stays out for now, guard not fitted", "face goes in, probe stays out"},
	ItemTugAndBite: {"held in the hand", "holds the record", "whole mouthful gone", "nothing came off except a crumb",
		"held together by tape", "swallowed whole", "whole but softened, bits in the mouth", "no piece left", "intact before the test",
		"not whole any more", "held in two parts"},
	ItemOpenTag: {"tag on the desk", "tag on, vent closed", "tagged for sale", "tag on, tank full", "tag on, vent can be shut",
		"locked open is not possible", "tied open with a thread that snapped", "tag on a vent that is screwed down"},
	ItemTwoActions: {"no shot at two actions", "no shot, because there is no air in any case, one switch does it",
		"no click since the battery is flat", "no click, not tried", "no click, one button is enough",
		"one action is enough, nothing fires", "no click since nothing was connected", "nothing fires because it is unplugged",
		"no click as the plug was out"},
	ItemDryControl: {"nothing fires because no battery", "dump_tank shut, nothing fires", "fire open, nothing fires",
		"nothing fires, pump keeps running", "nothing moves, not even the vent", "nothing fires, supply runs",
		"nothing fires, supply still on", "nothing fires, dump_tank stays closed", "open: fire; shut: dump_tank; nothing fires",
		"nothing fires, the stop does nothing", "nothing fires, dump_tank and dump_dose shut, fire open", "nothing fires, it hums on",
		"nothing fires, remote does not respond", "nothing fires, armed again by itself"},
	ItemKeyAndStop: {"vents shut each time", "vents stay closed, emptied by hand", "vented only while charging",
		"vents after the second press", "vents sometimes", "vents, remote out of reach", "never empties", "empties the battery",
		"emptied by hand", "vents slowly after an hour", "vented once", "vents but fires first", "vents when the key is turned on",
		"vents by the relief valve", "vents every other time", "mostly vents"},
	ItemVentOutlets: {"away from me, at the rider", "free to blow in the face", "into the rider's ear, not away",
		"far away outlets blow at the ear", "away, into the box", "throw away muffler on the relief valve", "free, cap on",
		"free of charge", "carried away", "away from faces, one at an ear", "points at the child", "free but plugged"},
	ItemBarrelEmpty: {"no bubbles because no soap", "film held for ten seconds", "no bubble, not charged", "no bubbles, film gone",
		"film held until it popped", "film held, projectile moved", "no bubbles with the air off", "no bubble, no pressure",
		"no bubbles, water dried", "film held without air", "no bubble after a second"},
	ItemColdDrain: {"dry ice inside", "drained battery", "dry run only", "not dry", "dry, water in the bowl",
		"dry, stored outside in the frost", "drained, ice inside", "dry, relief valve frozen", "drained half", "wet, not dry",
		"dry but valve not lifted", "damp, nearly dry"},
	ItemJamDrill: {"one of us did it", "nobody in line to practise", "practised with air in it", "practised in theory",
		"nobody did it", "did it once at full pressure", "practised reading it", "did it, face in line", "two of four did it",
		"did it the wrong way round", "practised, hand before the muzzle", "will be practised"},
	ItemLookIn: {"empty handed", "clear pen inside", "empty, water stays", "water stays in, clear", "clear water inside",
		"clear that it was full", "empty but no drain hole", "empty can in the barrel", "half empty", "not clear", "empty, cover lost",
		"drains not", "empty, could not see the bottom", "drains slowly, stone in it"},
	ItemOneProjectile: {"one at a time in theory", "two at once, looked in", "looked in, saw two", "one each in two barrels",
		"looked in the box", "squeezed two in", "squeezed, rock hard", "one at a time, wet", "nothing inside the box",
		"looked in, a pen inside", "squeezed, hard as ice", "squeezed in"},
	ControlItem + "1": {"named after the dog", "tried and gave up", "keeps coming off", "keeps falling out", "nobody named",
		"tried without success", "kids got a pen in, tried", "named, not tried", "nobody keeps it", "kept in the box",
		"tried, did not work", "kept in the shed"},
	ItemLoadingWait: {"waited in vain, gauge at 2 bar", "gauge at zero, no rammer", "rammer forgotten", "not waited",
		"waited, hand over the bore", "waited, gauge not read", "rammer without a stop", "waited a second",
		"gauge at zero after loading", "waited, loaded while armed", "waited for the bus"},
	ItemClearAllRound: {"clear sky", "tape in the bag", "tape not yet bought", "marked down", "clear in front, people behind",
		"tape on the ground, a child inside", "tape, wall right behind", "not clear", "roped in a helper", "taped over",
		"clear as mud", "marked on the map only", "clear except behind", "tape torn"},
	ItemHearing: {"loudest ever, ears ring", "ear defenders in the car", "ear defenders for the adults only", "without ear defenders",
		"ear defenders too large for the child", "recorded a song", "recorded, clipped", "loudest was not read", "recorded nothing",
		"ear defenders not worn", "no ear defenders", "ear defenders sold out", "ear defenders on me only"},
	ItemSecondLook: {"looked at the weather", "every day a surprise", "each to his own", "read the paper", "shown nothing",
		"looked from afar", "each reading not checked", "looked at some of it", "not all of it", "every label missing",
		"read half of it", "looked at a photo", "looked at nothing", "read the first page", "every word of it invented",
		"all of it except the launcher"},
}

// honest are readings of launchers that are in order, as somebody writes them down who knows none of the phrases. Made up for this
// test.
var honest = map[string][]string{
	ItemAgeRetire: {"no cracks anywhere, hose from 2024, nothing past its date", "went over every edge with a finger nail, no cracks",
		"all intact, foam still springy", "no dents, no cracks, hoses soft", "tank and hoses are sound, looked with a torch"},
	ItemEndCaps: {"all threads fully in, clamp seated", "pulled hard at each cap, they hold", "both caps screwed in to the end and tight",
		"pulled by hand, all hold", "thread tape, then screwed tight"},
	ItemHoseRestraint: {"clips every 20 cm, pulled at each fitting", "hose clipped to the frame in five places",
		"every hose is held by clips", "clips every half metre, sleeved", "pulled by hand, the clips hold"},
	ItemReliefShutOff: {"relief valve sits directly on the tank", "traced the pipe by finger, nothing between",
		"no tap anywhere on that pipe", "straight into the tank, nothing in the way"},
	ItemOneBarrel: {"both hoses end at the breech of this barrel", "traced each hose, all lead to the one barrel"},
	ItemExhaust:   {"air comes out freely", "blew in at the muzzle, comes out of the exhaust at once"},
	ItemGuard: {"probe stays out from every side", "my probe does not reach the bore from any side",
		"could not reach the bore with the probe", "probe stays out even if pushed", "nothing gets in, probe stays out"},
	ItemTugAndBite: {"pulled and bit for ten seconds, nothing came off", "squeezed and pulled, still whole", "no piece comes off",
		"bit into it hard, no piece came off"},
	ItemOpenTag: {"tag on the dump valve, it stays open", "vent tied open, tag on it", "dump locked open and tagged"},
	ItemTwoActions: {"button without the key no click, key without the button no click", "tried each alone, nothing fires",
		"no click with either alone, both together click", "wires crossed one by one, no click", "pulled each plug, no click"},
	ItemDryControl: {"stop, key, remote and plug tried: nothing fired, pump quiet every time",
		"pressed the stop, turned the key off, dump_tank open each time, fire shut, nothing fires",
		"the dump_tank valve opens each time, fire is closed, nothing moved", "pump stops running at once, nothing fires",
		"no fire, silent every time", "nothing fires, pump no longer running"},
	ItemKeyAndStop: {"stop pressed while charging and while armed: vents every time", "it empties each time I press stop",
		"key off and stop, both vent it: emptied each time"},
	ItemVentOutlets: {"all blow downwards, away from faces", "ribbon at each outlet, points away, relief outlet free",
		"outlets free, they hiss to the ground"},
	ItemBarrelEmpty: {"charged and armed, film held for two minutes, no bubbles", "soapy water over the muzzle, no bubble in two minutes",
		"film stayed flat the whole time"},
	ItemColdDrain: {"drain opened till dry, stored in the house", "blown out and dry, relief valve lifted by hand",
		"no water came, dry, kept indoors", "drained, no ice on the valve"},
	ItemJamDrill: {"everyone who loads did it once, nobody in line", "all three practised it", "each one of us did it, no air in it",
		"every one of the loaders did it twice"},
	ItemLookIn: {"torch from the side, barrel empty, water poured in ran out", "cover is on, drain hole clear",
		"nothing inside, water drains at once"},
	ItemOneProjectile: {"one at a time, looked in first, dry and soft", "looked in, nothing inside, squeezed each ball"},
	ControlItem + "1": {"Anna named, tried with her", "breech loading tried with the cover on", "the adult keeps the balls and loads"},
	ItemLoadingWait:   {"waited, gauge at zero, rammer with stop", "gauge at zero first, no hand over the bore, rammer used"},
	ItemClearAllRound: {"taped five metres all round, also behind", "fenced off on all sides", "marked with cones, nobody near, no wall near"},
	ItemHearing:       {"ear defenders on all of us, children too", "recorded five shots, loudest is in the design"},
	ItemSecondLook: {"went through every line with the launcher beside it", "read each line and looked at each seal",
		"all of it, the leak-down shown again", "every label and every seal, asked for the emptying, it was shown again"},
}

// closesInWords tells whether commissioning takes an answer in words.
func closesInWords(id, value string) bool {
	it := &Item{ID: id}
	if id == ItemDryControl {
		it.Stands = []Stand{{"dump_tank", true}, {"dump_dose", true}, {"fire", false}}
	}
	why := Refuses(it, &Confirmation{Item: id, Who: "AB", Date: "2026-05-01", Value: value}, "2026-06-01")
	return len(why) == 0 && Affirms(id, value) && Telling(value) >= 2
}

// No reading that tells of the opposite passes, nor one that tells nothing; what an amateur says honestly does.
func TestWhatPassesInWords(t *testing.T) {
	for id, values := range absurd {
		for _, value := range values {
			assert.False(t, closesInWords(id, value), "%s: %s", id, value)
		}
	}
	for id, values := range honest {
		assert.Contains(t, absurd, id)
		for _, value := range values {
			assert.True(t, closesInWords(id, value), "%s: %s", id, value)
		}
	}
}
