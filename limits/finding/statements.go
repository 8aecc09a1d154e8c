package finding

import "strings"

// statement is what an answer to an item has to say beside what affirmations ask of it, and the words in which it may. Own rule of this
// project, no source.
type statement struct {
	// say is a sentence that says all that is asked, as the step prints it; "" figures tell it.
	say string
	// needs are further statements: of each list an answer has one. The first of a list is what the step prints.
	needs [][]string
	// with are further words, and phrases of several, that an answer may have beside those of plain speech. Any other word makes it none:
	// what it changes nobody can judge.
	with []string
	// open lets an answer have whatever words.
	open bool
}

// statementOf is what an answer to an item has to say; nil: nothing is known of that.
func statementOf(id string) *statement {
	if strings.HasPrefix(id, ControlItem) {
		id = ControlItem
	}
	s, known := statements[id]
	if !known {
		return nil
	}
	return &s
}

// phrases are those of a list between commas.
func phrases(list string) []string {
	out := strings.Split(list, ",")
	for i := range out {
		out[i] = strings.Join(strings.Fields(out[i]), " ")
	}
	return out
}

// ofValves are words of parts that stand, move and fall silent.
const ofValves = `valve, valves, vent, vents, dump, dumps, bleed, feed, fire, firing, open, opens, opened, shut, closed,
		closes, stays open, stays shut, stay open, stay shut, stayed open, stayed shut, tap, taps, listed, way, ways`

// ofStops are words of what stops a launcher.
const ofStops = `stop, stops, stopping, e stop, key, remote, plug, plugs, button, pedal, switch, supply, pump, compressor,
		pressed, press, press stop, presses, turned, turn, pulled, pull, silent, quiet, dead silent, falls silent, fell silent, key
		off, key out, stop in, alone, either, battery plug, mid charge, lights out, when switched back on, start, out of range, at
		once, armed, charging, charged, arm, armed again, while charging, while armed, while it charges, while it is armed, one by
		one, one after the other, full pressure, switched off`

// ofEmptying are words beside the time of an emptying.
const ofEmptying = `the longest, longest, slowest, runs, run, first run, second run, tank, dose, barrel, vessel, volumes,
		volume, empty, emptied, zero, at zero, to zero, nothing fires, nothing fired, agrees, with the vents still open, cut out,
		the cut out, of it, on it, twice, switch, by the stop, by the plug, by the switch, stop, plug, plug pulled, dump, remote,
		remote off, battery, battery out, pressed, pulled`

// ofHissing are words of a vent that is heard.
const ofHissing = `hiss, hisses, hissed, vent, its vent, vent of, heard, silent, fell silent, at once`

// pulledPlug says that a plug is out.
var pulledPlug = []string{"plug pulled", "plugs pulled", "plug is pulled", "plug was pulled", "plug out", "plug is out", "unplugged",
	"pulled the plug", "pulled its plug"}

// statements are those of the items. What an answer says in figures beside them is the item's own (Figure, Asks).
var statements = map[string]statement{
	ItemLabels: {open: true},
	ItemAgeRetire: {say: "no cracks, nothing past its date", with: phrases(`crack, cracks, date, dates, no date past, tank,
		tanks, dose, vessel, vessels, barrel, hose, hoses, foam, ball, balls, cap, caps, made, bought, good until, spring, this
		spring, springy, soft, dents, no dents, seam, seams, edge, edges, weld, welds, lamp, torch, bright, light, finger nail, went
		over, gone over, bent, anywhere, found, seen, rebounds, along, plate, plates, bill, bills,
		paper, papers, label, labels, maker, year, years, nowhere, dated, at
		all, to be found`)},
	ItemEndCaps: {say: "threads fully in, all hold", with: phrases(`cap, caps, plug, plugs, barrel, tank, dose, vessel, end,
		ends, threads, thread, threaded, fully, screwed, home, quarter turn, past hand tight, turn, turns, at least, clamp, clamps,
		pin, pins, place, shield, fitted, pulled, hard, hand, shoulder, through, water, they, either, move, moved, could not move,
		force, forces, fittings, fitting, bolts, bolt, wrench, spanner, nothing moved`)},
	ItemHoseRestraint: {say: "clipped, pulled at each fitting, held", with: phrases(`hose, hoses, clip, clips, clipped, tie,
		ties, cable ties, sleeve, sleeves, sleeved, spiral, fitting, fittings, end, ends, pulled, tugged, hard, frame, places, them,
		nothing moved, nothing slid, restrained, feed, fire, tank, dose, barrel`)},
	ItemReliefShutOff: {say: "traced, nothing between vessel and relief valve", with: phrases(`relief, relief valve, valve,
		vessel, tank, dose, pipe, hose, pipes, branch, finger, traced, followed, screwed, screwed into, screwed right into, into the
		tank, into the vessel, sits, them, the two, way, shut off, tap, taps, anywhere, t piece, ball valve, straight`)},
	ItemOneBarrel: {say: "traced, all lead into this one barrel", with: phrases(`hose, hoses, end, ends, lead, leads, traced,
		finger, valve, valves, breech, into, barrel, goes, go`)},
	ItemExhaust: {say: "comes out of the exhaust freely", with: phrases(`blown, blew, air, muzzle, into the barrel, into the
		muzzle, exhaust, exhausts, port, ports, at once, valve`)},
	ItemFuses: {with: phrases(`fuse, fuses, pump, pumps, valve, valves, compressor, battery, main, mains, coil, coils, relay,
		supply, button, wire, wires, below what its wire carries, carries, below, circuit, its wire, print, printed, residual
		current device, rcd, pressed`)},
	ItemGuard: {say: "the probe does not reach the bore", with: phrases(`probe, bore, reach, rod, stick, pencil, grille, keeps it
		away, slot, slots, opening, openings, at most, through, even if pushed, stops, anywhere, nothing gets in, any, muzzle, every
		way, long, wide, thick, guard, could not reach`)},
	ItemSealGuard: {needs: [][]string{{"air gets past", "gets past", "got past", "gets by", "gets out", "got out", "passes", "escapes"}},
		with: phrases(`air, slot, slots, hole, holes, opening, openings, ring, area, wet hand, hand, hands, pressed on it, pressed,
		blown, blew, still, breech, open, free, in all, sum, together, muzzle, blowhole, gap, gaps`)},
	ItemMuzzleAdmits: {with: phrases(`drill, shank, goes in, went in, largest, size, next size, muzzle, nothing above`)},
	ItemSeatStop: {with: phrases(`loads, load, loaded, times, pushed, hard, shallowest, deepest, smallest, largest, lowest,
		highest, travel, depth, muzzle, tube, right on, stop, people`)},
	ItemElevation: {say: "both stops hold", with: phrases(`stop, stops, pushed, steel, bolted, welded, screwed, angle, lower,
		upper, lowest, highest, barrel, elevation, low, high, pin, pins, mount`)},
	ItemTip: {with: phrases(`dry, wet, cold, warm, hot, soaked, flat over, flattens, flattened, whole, print, whole print,
		nothing hard, felt, it, its, shape, shape again, takes its shape, took its shape, springs back, sprang back, scale, kitchen
		scale, state, states, force, flattening, in all three states, tip, photograph, photo kept, coldest, fridge, freezer`)},
	ItemTipRadius: {with: phrases(`radius, smallest, everywhere, edge, edges, end, ends, coin, tip, fins, fin, nose`)},
	ItemTugAndBite: {say: "pulled and bitten for ten seconds, nothing came off", with: phrases(`pulled, tugged, squeezed, bit,
		bitten, gnawed, hard, bit hard into, bit into, yanked, twisted, pliers, teeth, fin, fins, all round, tail, ball, rocket,
		came off, comes off, counted in, counted out, counted in and out, came back, all came back, complete, both, was, been`)},
	ItemWeighed: {with: phrases(`lightest, heaviest, dry, wet, soaked, each, ball, balls, rocket, rockets, projectile, projectiles, times`)},
	ItemOpenTag: {say: "tag on it, vent locked open", with: phrases(`tag, red, vent, vents, valve, tap, dump, dumps, open, stays
		open, left open, locked, tied, wire, with a pin, zip tie, holds, hangs, while carried, while it is carried, stored, until
		the next use, tank, dose`)},
	ItemWaterTest: {needs: [][]string{{"no drop", "held", "holds", "stood", "stands", "dry outside", "no water came"},
		{"no growth", "not grown", "no bulge", "same size", "same round", "did not grow"}},
		with: phrases(`water, tank, dose, barrel, vessel, dry outside, drop, growth, that stays, steps, five steps, hand pump,
		round, measured, at the top, grow, grown, bulge`)},
	ItemReliefTest: {with: phrases(`hiss, hisses, hissed, began to, begins to, starts to, started to, full, flow, full by, full
		flow, lift, lifts, lifted, times, highest, no higher than, relief, valve, bench, pump, hand pump, opened, opens, began,
		times`)},
	ItemReliefInPlace: {with: phrases(`hiss, hisses, hissed, came to rest, comes to rest, rest, rests, steady, relief, valve,
		switch held closed, pump, supply, highest`)},
	ItemContacts: {say: "each contact opens by itself", with: phrases(`contact, contacts, meter, ohmmeter, ohms, across, buzzer,
		buzzed, buzzed out, relay, relays, coil, pulled, wire, wires, unscrewed, stop, key, remote, plug, button, when its part is
		moved, part, moved, itself, closes, closed, opens, opened, shows, without end, k1, k2, k3, k4, one by one, one after the
		other`)},
	ItemTwoActions: {say: "no click in any of them", with: append(phrases(`relay, relays, coil, coils bridged to plus, wires to
		plus, wire to plus, wire, wires, crossed, plus, fire, them, them all, hands off, held, without, click, the other, firing
		valve`), phrases(ofStops)...)},
	ItemDryControl: {say: "each time nothing fires, the supply falls silent", with: append(phrases(`as expected, click, clicks,
		click open, clicks open, clicked, no longer, runs, range, battery, other, nothing moves, anew, lights, no longer running`),
		append(phrases(ofStops),
			phrases(ofValves)...)...)},
	ItemOpeningTime: {with: phrases(`shortest, of ten, fire, valve, film, frames, times, battery, full battery, weak battery`)},
	ItemPassage:     {with: phrases(`shank, drill, largest, goes through, valve, fire, seat, port`)},
	ItemDeadVolume:  {with: phrases(`water, least, most of three, least and most, of three, times, weighed, cup`)},
	ItemPrefill:     {with: phrases(`tank, cylinder, bottle, filled, at the coupling, independent, shade, cooled, label`)},
	ItemVentLow:     {with: append(phrases(ofHissing), phrases(ofEmptying)...)},
	ItemVentTest:    {with: append(phrases(ofHissing), phrases(ofEmptying)...)},
	ItemFaultsTried: {needs: [][]string{{"nothing fires", "nothing fired", "no shot", "nothing was fired"}}, with: phrases(ofEmptying + `,
		charging, while charging, while armed, armed, while it charges, pressed while it charges`)},
	ItemVentByHand: {with: phrases(`vent, vents, valve, valves, tap, taps, opened, open, hand, tank, dose, zero, empty`)},
	ItemKeyAndStop: {say: "stop pressed while charging and while armed, it vents each time", with: append(phrases(`vents, vent,
		empties, emptied, zero, to zero, channel, hand, in the hand of the adult in charge, adult in charge, key and remote in the
		hand of the adult in charge, off`), phrases(ofStops)...)},
	ItemVentOutlets: {say: "all blow away from faces and ears, relief outlet free", with: phrases(`dump, dumps, bleed, relief,
		valve, outlet, outlets, blow, blows, blow down, downwards, down, point, points, ribbon, wool thread, thread, rear, they,
		ground, floor, to the rear, away from faces, away from faces and ears, away from the seat, away from the rider, away from
		everybody, away from legs, under the float, under the cart, vent, vents, of it`)},
	ItemGaugeCompare: {with: phrases(`tank, dose, barrel, largest difference, difference, largest, independent, other, zero, at
		zero, cut out, apart, u tube, water, within, agree, agrees`)},
	ItemLeakDown: {with: phrases(`fell, falls, fall, fell by, tank, dose, barrel, tight, further, no further, stood, stands,
		stays, stayed`)},
	ItemSwitchTest: {with: phrases(`cycles, cycle, times, lowest, highest, sealed, lacquer, with lacquer, screw, cut out, every,
		screw sealed, from, independent`)},
	ItemPumpMark:   {with: phrases(`fills, fill, times, lowest, highest, pumps, pump, mark, stops, stopped`)},
	ItemTimerEmpty: {with: phrases(`fills, fill, times, lowest, highest, timer, start, pressed, pressed twice, vents, vents first, empty`)},
	ItemStaysEmpty: {with: phrases(`zero, at zero, stays, stayed, stays at zero, stayed at zero, stood, watched, tank, dose,
		barrel, nothing hissed, no hiss, nothing hisses, firing valve, opened by hand, vents open, vents still open, hisses`)},
	ItemSupplyOff: {needs: [][]string{pulledPlug}, with: phrases(`plug, plugs, pulled, silent, falls silent, fell silent, supply,
		pump, compressor, zero, at zero, to zero, went, tank, dose, barrel, empty, wait, waited, by a clock, by the clock, then`)},
	ItemBarrelEmpty: {say: "charged and armed, no bubble in two minutes", with: phrases(`bubble, bubbles, film, soap, soapy,
		soapy water, washing up liquid, muzzle, watch, by the watch, stop watch, charged, armed, whole, whole time, held, flat, no
		bubble, nothing loaded`)},
	ItemColdDrain: {say: "drained until dry, stored warm", needs: [][]string{{"stored warm", "warm", "indoors", "in the house", "heated",
		"kitchen",
		"in the freezer cold"}}, with: phrases(`drain, drained, tap, opened, opened till dry, until dry, till dry, drop, drops, few,
		a few drops, water, left to dry, no water, lifts, lifted, relief, relief valve, valve, hand, by hand, cold, freezer, opens,
		stored, kept, stands, house, hall, heated, room, overnight, came, ice, no ice on the valve, dry, blown`)},
	ItemNotFrozen: {say: "all turn freely", with: phrases(`ball, balls, rocket, rockets, projectile, projectiles, turned, seat,
		in the cold, freezer, hand, by hand, barrel, cold`)},
	ItemJamDrill: {say: "all practised it, nobody in line with the barrel", with: phrases(`practised, practiced, everybody,
		everyone, who loads, loaders, loads, plug, plug out first, waited, wait, rod, from the side, side, barrel, muzzle, empty,
		zero, off, near, nobody near, nobody, stayed away, kept away, stays away, no air in it, four, face, hand, vented, misfire,
		jam, drill`)},
	ItemLookIn: {say: "barrel empty, cover on, water poured in runs out", with: phrases(`cover, cover on, cover off, muzzle cover
		off, lid, lid on, when parked, muzzle, barrel, drain, drains, drain hole, hole, water, cup, poured, poured in, torch, lamp,
		slot, through, along, side, freely, at once, empty, shows, nothing inside, below, free, clear`)},
	ItemOneProjectile: {say: "looked in, one at a time, squeezed, dry", with: phrases(`ball, balls, rocket, rockets, dry, soft,
		springy, empty, rack, places, each load, squeezed, all, none wet`)},
	ControlItem: {say: "the adult is named, tried", with: phrases(`adult, adults, person, loads, loading, load, grid, cover,
		breech, card, on the card, ball, balls, pens, pen, keeps pens out, keeps, out, day, one, with the people who will do it, in
		charge`)},
	ItemLoadingWait: {say: "waited, then the rammer", with: phrases(`wait, waited, clock, by a clock, by the clock, watch, zero, at
		zero, rammer, rammer with a stop, rammer with stop, stop, used, needle on its pin, no hand over the bore, nobody s hand over
		the bore, hand, last charge, charge, muzzle, looked in, from the side, half a minute, between`)},
	ItemClearAllRound: {say: "taped all round, nobody behind", needs: [][]string{{"all round", "all around", "round it", "around",
		"on all sides",
		"all sides", "every side", "rear", "also behind", "nobody behind", "both ends"}}, with: phrases(`tape, taped off, roped off,
		fenced off, chalk, cone, cones, post, posts, rope, eye protection, ear defenders, eye and ear protection, helper, helpers at
		both ends, helpers, behind the cart, also behind, nobody behind, no wall near, no wall, hold the public back, rear, ground,
		radius, zone, inside it, walls, ends, protection on, for all, public, kept out`)},
	ItemShotsWeak:   {with: phrases(ofShots)},
	ItemShotsMiddle: {with: phrases(ofShots)},
	ItemShots:       {with: phrases(ofShots)},
	ItemPrint: {with: phrases(`print, prints, across, mean, two directions, directions, both directions, ink, paper, board, wide,
		high, smallest, largest, of five`)},
	ItemHearing: {with: phrases(`shot, shots, meter, phone, calibrated, loudest, peak, recorded, ear, ears, rider, driver,
		helper, helpers, adult, adults, child, children, everyone, everybody, us, handed out, worn, at the pump, pump, in the
		design, muzzle, of five, next to, flat top none`)},
	ItemLandingClear: {with: phrases(`came down, landed, shots, balls, muzzle, nearest, furthest, farthest, net, hood, covered
		faces, net hung, hangs, hung, mesh, wheels, vehicle, stands, brake set, brake, ball, rockets, rocket, stood, wind, day s
		wind, downwind, three`)},
	ItemSecondLook: {say: "every line read, each seal and label looked at", with: phrases(`line, lines, label, labels, seal,
		seals, serial, revision, name, compared, asked for, emptying, leak down, relief test, relief, launcher, beside, record,
		reading, shown, shown again, went through, sat, an hour, order, in order, through, design`)},
}

// ofShots are words beside the speeds of shots.
const ofShots = `shot, shots, fired, slowest, fastest, speeds, chronograph, video, projectile, projectiles, ball, balls,
		rocket, rockets, from, mean, film, phone`
