package paper

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/hazard"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/setpoint"
)

// read is the text of a safety file without markup.
func read(t *testing.T, in Input) string {
	t.Helper()
	root, _ := page(t, built(t, in))
	return textOf(root)
}

// The sentence that inspectors like best stands only where it is true: everything,
// full flow and faults included, at or below the 0.5 bar gauge at which EU
// pressure law starts (Directive 2014/68/EU, Art. 1(1)).
func TestHalfBarSentence(t *testing.T) {
	const best = "Everything, single faults included, stays at or below 0.5 bar gauge"
	assert.NotContains(t, read(t, invented(t, nil)), best, "its relief valve opens at 0.75 bar")
	assert.Contains(t, read(t, invented(t, nil)), "That is above 0.5 bar gauge, where EU pressure law starts")
	in := invented(t, nil)
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "designs", "rocket.toml"))
	require.NoError(t, err)
	l, problems := design.Reader{}.Read("rocket.toml", data)
	require.Empty(t, problems)
	in.Launcher = l
	in.Faults.Faults[0].WorstGauge = 0.31e5 // left in the heat with its bleed blocked
	assert.Contains(t, read(t, in), best+": at most 0.31 bar gauge", "its supply cannot exceed 0.24 bar, a fault can")
	in.Faults.Faults[0].WorstGauge = 0.52e5
	assert.NotContains(t, read(t, in), best, "at a single fault a vessel has more")
	in.Faults.Faults[0].Where = "barrel"
	in.Faults.Faults[1].WorstGauge, in.Faults.Faults[1].Where = 0.31e5, "dose"
	assert.Contains(t, read(t, in), best+": at most 0.31 bar gauge", "the barrel's is that of its own verdict")
}

// The list of objects says which get in, and names no shot that was not computed: a golf ball of 42.67 mm (R&A and USGA, rules of
// golf) does not go into a bore of 41 mm, and foam of closed cells takes up no water.
func TestObjectsThatGetIn(t *testing.T) {
	in := invented(t, nil)
	in.Report.Verdicts = append(in.Report.Verdicts, finding.Verdict{ID: finding.MisuseOfObjects, Title: "Other objects",
		Status: finding.Conditional, Condition: finding.Words("it is kept up")})
	text := read(t, in)
	assert.Contains(t, text, "Shot in the model, 14 in all: AA cell alone, AA cell on the projectile")
	for _, none := range []string{"golf ball alone", "golf ball on the projectile", "soaked with water"} {
		assert.NotContains(t, text, none)
	}
	assert.Contains(t, text, "golf ball42.7 mm45.9 gno")
	assert.Contains(t, text, "glass marble16.0 mm5.40 gyes")
}

// A person inside the landing zone is named so.
func TestClearZone(t *testing.T) {
	in := invented(t, nil)
	assert.Contains(t, read(t, in), "Landing zone and clear zone are not computed: invented.")
	in.Flights = &measure.FlightReport{ClearRadius: 10.2, Ahead: 7.9, Behind: 5.1, Bounce: 2,
		Standing: []measure.Standing{{Name: "nearest person", Distance: 3, Inside: true, Person: true}}}
	text := read(t, in)
	for _, w := range []string{"10.2 m", "INSIDE the landing zone", "The clear zone of part 4, 10.2 m all round",
		"Who stands too near? Nearest person, as near as 3 m: INSIDE the landing zone",
		"the adult in charge and who loads, each named here", "is not crew", "Who and when? Loaded by the adult in charge",
		"Nobody younger than", "No use below",
		"The nearest person that the design states, as near as 2.7 m, is inside that zone: they go further away, or the condition on people " +
			"where it " +
			"can come down, below, is kept."} {
		assert.Contains(t, text, w)
	}
}

// What speaks against a computed cut-out stands before it, and nobody is told how
// to set the switch of a design that does not hold.
func TestSetpointIsNeverBetterThanItsAnswer(t *testing.T) {
	cut, stated := 38000.0, 40000.0
	good := setpoint.Answer{Works: true, Why: finding.Words("the relief valve"), CutOut: &cut,
		Procedure: finding.AllWords([]string{"Turn it slowly."})}
	with := func(change func(s *setpoint.Answer)) Input {
		in, s := invented(t, nil), good
		change(&s)
		in.Setpoint = &s
		return in
	}
	for want, in := range map[string]Input{
		"The highest nominal cut-out is 0.38 bar gauge. What binds: the relief valve.": with(func(*setpoint.Answer) {}),
		"the design has 0.40 bar gauge: TOO HIGH.":                                     with(func(s *setpoint.Answer) { s.Stated = &stated }),
		"NOT KNOWN: the dead head. With that left open:": with(func(s *setpoint.Answer) {
			s.Unknown = finding.Words("the dead head")
		}),
		"DOES NOT HOLD: the screw. But for that:": with(func(s *setpoint.Answer) {
			s.Unmet = finding.Words("the screw")
		}),
		"No cut-out works with this design: the relief valve.": with(func(s *setpoint.Answer) {
			s.Works, s.CutOut = false, nil
		}),
	} {
		assert.Contains(t, read(t, in), want)
	}
	assert.Contains(t, read(t, with(func(*setpoint.Answer) {})), "Turn it slowly.")
	from, to := 0.06, 0.04
	assert.Contains(t, read(t, with(func(s *setpoint.Answer) {
		s.Changes = []setpoint.Change{{Key: "barrel.travel", What: finding.Words("a shorter barrel"), From: &from, To: &to}}
	})), "barrel.travel from 60.0 mm to 40.0 mm: a shorter barrel.", "what a note calls listed is listed")
	in := failing(with(func(*setpoint.Answer) {}))
	assert.NotContains(t, read(t, in), "Turn it slowly.")
}

// Measurements stand in the file as they were read, with what they contradict.
func TestMeasurementsAreRaw(t *testing.T) {
	in := invented(t, nil)
	assert.Contains(t, read(t, in), "No measurement was given to this file.")
	in.Attached = []document.Attached{{Role: ShotsRole, Name: "shots.csv", SHA256: strings.Repeat("ab", 32),
		Text: "pressure [bar],speed [m/s]\n0.36,4.21\n"}}
	in.Report.Measured = &measure.Report{Wrong: finding.Words("too fast"), Disagrees: finding.Words("slower than any computed"),
		Clashes: []launcher.Clash{{Key: "paths.relief.set_pressure"}}}
	text := read(t, in)
	for _, w := range []string{"shots.csv, file abababababab", "0.36,4.21", "Contradiction: too fast",
		"The shots do not agree with the model: slower than any computed.", "Contradiction: paths.relief.set_pressure"} {
		assert.Contains(t, text, w)
	}
}

// Every number in brackets has its source in the list, and the list has no gaps.
func TestEveryFigureHasItsSource(t *testing.T) {
	text := read(t, failing(invented(t, nil)))
	begin := strings.LastIndex(text, "V read in the primary text, V2 in a secondary text")
	require.Positive(t, begin)
	used, list := text[:begin], text[begin:]
	list, _, _ = strings.Cut(list, "Inputs and how to repeat this")
	highest := 0
	for _, m := range regexp.MustCompile(`\[(\d+)\]`).FindAllStringSubmatch(used, -1) {
		n, err := strconv.Atoi(m[1])
		require.NoError(t, err)
		highest = max(highest, n)
		assert.Contains(t, list, m[0])
	}
	assert.Greater(t, highest, 5)
	assert.NotContains(t, list, "["+strconv.Itoa(highest+1)+"]")
}

// The order that an organiser reads in: both signatures on page one and again at the
// end of the body, the risks before the figures; the appendix apart, behind all.
func TestOrderOfTheParts(t *testing.T) {
	text := read(t, invented(t, nil))
	_, text, _ = strings.Cut(text, "May it be used?") // behind the list of contents
	at := -1
	for _, w := range []string{"Signature of the adult in charge", "Signature of the second person", "2. What could hurt whom",
		"Hazard log", "3. Rules of use",
		"4. Plan of the place", "5. Photographs",
		"6. The launcher", "7. Pressure", "8. Tests", "open items first", "9. Energy and sound", "10. Inspection plan and log",
		"Log of use, incidents and near misses",
		"11. Signatures", "12. Appendix", "Claims, and what shows them", "Failures and unknowns first. A", "Single faults", "Top event",
		"Checklist in full",
		"Limits used", "Assumed because", "Sources", "The design file as read"} {
		i := strings.Index(text, w)
		assert.Greater(t, i, at, w)
		at = i
	}
}

// The file counts as computed only what was computed.
func TestPairsThatWereNotComputedAreNotCountedAsPasses(t *testing.T) {
	onTest := fault.Result{With: "x", Effect: fault.ChangesShot, Status: finding.OpenItem, Basis: "test: relief.test",
		RevealedBy: finding.ItemReliefTest}
	not := onTest
	not.Effect = fault.NotComputed
	all := []fault.Result{
		{With: "x", Effect: fault.ChangesShot, Status: finding.Fail}, onTest, not, not,
		{With: "x", Effect: fault.NoEffect, Status: finding.OpenItem, HeldBy: finding.ItemJamDrill},
		{With: "x", Effect: fault.NoEffect, Status: finding.Pass}, {With: "x", Effect: fault.ChangesShot, Status: finding.Pass}}
	words := pairCount(all)
	for _, want := range []string{"7 pairs", "for 3;", "in 2 neither", "Above a limit or unknown: 1.",
		"Held only by a test", "open alone: 1.", "2 were not computed"} {
		assert.Contains(t, words, want)
	}
	assert.NotContains(t, pairCount(all[:2]), "not computed")
	var shown []finding.Status
	for _, r := range shownPairs(all) {
		shown = append(shown, r.Status)
	}
	assert.Equal(t, []finding.Status{finding.Fail, finding.OpenItem, finding.Pass, finding.Pass}, shown,
		"neither what was not computed nor what one fault says alone")
}

// What remains of a hazard follows its verdicts: where one fails the harm is what it was before any control, where one
// is not known nobody knows, and only where all hold is it what the control leaves.
func TestResidualRiskFollowsTheVerdicts(t *testing.T) {
	of := func(total, fault finding.Status) string {
		verdicts := []finding.Verdict{{ID: finding.EnergyTotal, Status: total}, {ID: finding.EnergyFault, Status: fault}}
		for _, e := range hazard.Log(&launcher.Launcher{}, verdicts, nil) {
			if e.ID == "eye" {
				return remains(e)
			}
		}
		return ""
	}
	assert.Equal(t, "an eye can still be injured at close range: case reports of foam toys tell of it", of(finding.Pass, finding.Conditional))
	assert.Equal(t, "not known, as bad as a lost eye until it is: energy.fault", of(finding.Pass, finding.Unknown))
	assert.Equal(t, "all of it, a lost eye: energy.total fails", of(finding.Fail, finding.Unknown))
	in := invented(t, nil)
	assert.Contains(t, read(t, in), "have injured eyes at close range", "published injuries stand beside the ratios")
}
