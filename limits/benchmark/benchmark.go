package benchmark

import (
	"fmt"
	"sync"
)

// Evidence is how well a published figure is known to this project.
type Evidence string

// The grades of evidence. A figure from memory decides a verdict only where it
// is the stricter side.
const (
	ReadPrimary   Evidence = "V"  // read in the primary text
	ReadSecondary Evidence = "V2" // read in a secondary text: test house, authority, handbook, quoted clause
	Computed      Evidence = "C"  // own arithmetic
	FromMemory    Evidence = "M"  // from memory
)

// String tells the grade in words.
func (e Evidence) String() string {
	switch e {
	case ReadPrimary:
		return "read in the primary text"
	case ReadSecondary:
		return "read in a secondary text"
	case Computed:
		return "own arithmetic"
	case FromMemory:
		return "from memory"
	}
	return "unknown evidence"
}

// Use is what a benchmark may do in a report.
type Use uint8

const (
	ForVerdict  Use = iota // a verdict may rest on it
	Information            // shown beside the verdicts, decides nothing
)

// Benchmark is a published figure, used voluntarily. It is plain data; reports
// print all of it.
type Benchmark struct {
	ID       BenchmarkID
	What     string
	Value    float64 // SI, in Unit
	Unit     string  // "J", "J/m2", "Pa" (gauge), "m", "kg", "m/s", "m3", "s", "dB(C)", "-", "Pa m3"
	Document string  // empty: the project's own rule
	Edition  string
	Clause   string
	Evidence Evidence
	Use      Use
	Caveat   string // what the source does not say, or how it is read here
}

// Source names document, edition, clause and evidence in one line.
func (b Benchmark) Source() string {
	if b.Document == "" {
		return "own rule of this project, no source"
	}
	s := b.Document
	if b.Edition != "" {
		s += ", " + b.Edition
	}
	if b.Clause != "" {
		s += ", " + b.Clause
	}
	return fmt.Sprintf("%s (%s: %s)", s, string(b.Evidence), b.Evidence)
}

// BenchmarkID names a benchmark. The names are stable.
type BenchmarkID string

// The benchmarks of energy, eye and sound.
const (
	EnergyFloor        BenchmarkID = "energy.floor"
	TotalResilient     BenchmarkID = "energy.total.resilient"
	TotalRigid         BenchmarkID = "energy.total.rigid"
	TipRadius          BenchmarkID = "energy.tip.radius"
	AreaPublished      BenchmarkID = "energy.area.published"
	AreaConservative   BenchmarkID = "energy.area.conservative"
	MarkerSpeed        BenchmarkID = "marker.speed"
	MarkerMass         BenchmarkID = "marker.mass"
	WeaponLawGermany   BenchmarkID = "weapon-law.germany"
	WeaponLawUK        BenchmarkID = "weapon-law.uk"
	EyeCornealAbrasion BenchmarkID = "eye.corneal-abrasion"
	EyeLensDislocation BenchmarkID = "eye.lens-dislocation"
	EyeHyphema         BenchmarkID = "eye.hyphema"
	EyeGlobeRupture    BenchmarkID = "eye.globe-rupture"
	EyeRetinalDamage   BenchmarkID = "eye.retinal-damage"
	SoundPeak          BenchmarkID = "sound.peak"
	SoundPeakCaps      BenchmarkID = "sound.peak.caps"
	SoundWork          BenchmarkID = "sound.work"
	SoundDaily         BenchmarkID = "sound.daily"
)

// Benchmarks lists every benchmark: energy, eye, sound, pressure, relief, body.
// The slice is the caller's own.
func Benchmarks() []Benchmark {
	var all []Benchmark
	for _, part := range [][]Benchmark{
		energyBenchmarks(), eyeBenchmarks(), soundBenchmarks(),
		pressureBenchmarks(), reliefBenchmarks(), bodyBenchmarks(),
	} {
		all = append(all, part...)
	}
	return all
}

// listed is that list made once: every launcher that is looked at asks for some of it.
var listed = sync.OnceValue(Benchmarks)

// BenchmarkOf gives the benchmark of that name. It panics on a name that is
// none: the names are constants of this package.
func BenchmarkOf(id BenchmarkID) Benchmark {
	for _, b := range listed() {
		if b.ID == id {
			return b
		}
	}
	panic(fmt.Sprintf("limits: no benchmark %q", string(id)))
}

func energyBenchmarks() []Benchmark {
	return []Benchmark{
		{ID: EnergyFloor, What: "muzzle energy at or below which energy per area is not tested",
			Value: 0.08, Unit: "J", Document: "ASTM F963", Edition: "2017", Clause: "4.21.2.3 and 8.14.5", Evidence: ReadSecondary,
			Caveat: "F963-16 left it out by a drafting error; EN 71-1 before 2018, 4.17.3, has the same figure for a rigid projectile"},
		{ID: TotalResilient, What: "total energy, resilient tip", Value: 0.5, Unit: "J", Document: "EN 71-1", Edition: "before 2018",
			Clause: "4.17.3", Evidence: ReadSecondary, Caveat: "EN 71-1 dropped it in 2018; German weapon law still has the same figure for toys"},
		{ID: TotalRigid, What: "total energy, rigid tip",
			Value: 0.08, Unit: "J", Document: "EN 71-1", Edition: "before 2018", Clause: "4.17.3", Evidence: ReadSecondary,
			Caveat: "an EU market notice (RAPEX 0750/09) failed 0.118 J; a rigid tip is anything not shown to be resilient"},
		{ID: TipRadius, What: "radius of a rigid tip, at least", Value: 2e-3, Unit: "m", Document: "EN 71-1", Clause: "4.17.2",
			Evidence: FromMemory, Caveat: "ASTM F963, 4.21, has it too, from memory; whatever the energy: a point cuts and sticks"},
		{
			ID: AreaPublished, What: "energy per contact area, above the floor", Value: 2500, Unit: "J/m2",
			Document: "ASTM F963", Edition: "2017 and 2023", Clause: "4.21.2.3, method 8.14.6", Evidence: ReadSecondary,
			Caveat: "the area is the measured print of the tip on a flat plate, less than the frontal area for a dome; " +
				"EN 71-1:2014+A1:2018 has it too, from memory",
		},
		{ID: AreaConservative, What: "energy per contact area, stricter, above the floor", Value: 1600, Unit: "J/m2", Document: "GB 6675",
			Edition: "2003", Evidence: ReadSecondary, Caveat: "0.16 J/cm2; EN 71-1:2011+A3, 4.17.4, has it for arrows"},
		{ID: MarkerSpeed, What: "muzzle speed of low-energy markers", Value: 53.34, Unit: "m/s", Document: "ASTM F2574", Clause: "abstract",
			Evidence: ReadPrimary, Use: Information, Caveat: "not a toy: it shows what a toy is not"},
		{ID: MarkerMass, What: "projectile mass of low-energy markers", Value: 4.0e-3, Unit: "kg", Document: "ASTM F2574", Clause: "abstract",
			Evidence: ReadPrimary, Use: Information, Caveat: "not a toy: it shows what a toy is not"},
		{ID: WeaponLawGermany, What: "German weapon law: toys up to this energy", Value: 0.5, Unit: "J",
			Document: "Waffengesetz (Germany)", Clause: "Anlage 2 Abschnitt 3 Unterabschnitt 2 Nr. 1", Evidence: ReadPrimary, Use: Information,
			Caveat: "information only; local law decides; the same figure as the total for resilient tips"},
		{ID: WeaponLawUK, What: "UK weapon law: lethal barrelled above this muzzle energy", Value: 1.0,
			Unit: "J", Document: "Firearms Act 1968 (UK)", Edition: "as amended 2017", Clause: "s. 57(1B)", Evidence: ReadPrimary, Use: Information,
			Caveat: "information only; local law decides"},
	}
}

// eyeBenchmarks are the energies per projected area with a 50 % chance of an
// injury to the eye.
func eyeBenchmarks() []Benchmark {
	var list []Benchmark
	for _, e := range []struct {
		id     BenchmarkID
		injury string
		value  float64
	}{
		{EyeCornealAbrasion, "corneal abrasion", 1503},
		{EyeLensDislocation, "lens dislocation", 19194},
		{EyeHyphema, "hyphema", 20188},
		{EyeGlobeRupture, "globe rupture", 23771},
		{EyeRetinalDamage, "retinal damage", 30351},
	} {
		list = append(list, Benchmark{
			ID: e.id, What: e.injury, Value: e.value, Unit: "J/m2",
			Document: "Duma et al., J. Trauma, doi 10.1097/01.ta.0000174830.55282.32", Edition: "2005", Clause: "abstract",
			Evidence: ReadPrimary, Use: Information,
			Caveat: "kinetic energy per projected area with a 50 % risk; no published correction for children was found, none is made",
		})
	}
	return list
}

// EyeFigures puts an energy per projected area [J/m2] beside the published risks
// of injury to the eye.
func EyeFigures(energyPerProjectedArea float64) []EyeFigure {
	var figures []EyeFigure
	for _, b := range eyeBenchmarks() {
		figures = append(figures, EyeFigure{Injury: b.What, Half: b.Value, Ratio: energyPerProjectedArea / b.Value})
	}
	return figures
}

func soundBenchmarks() []Benchmark {
	const caveat = "a children's toy is measured; an estimate here is an interval, and the sources call the sensitivity of children's " +
		"ears unknown"
	return []Benchmark{
		{ID: SoundPeak, What: "peak sound level of a toy, half a metre away", Value: 115, Unit: "dB(C)", Document: "EN 71-1", Clause: "4.20",
			Evidence: ReadSecondary, Caveat: caveat},
		{ID: SoundPeakCaps, What: "peak sound level half a metre away, toys with percussion caps", Value: 125, Unit: "dB(C)", Document: "EN 71-1",
			Clause: "4.20", Evidence: ReadSecondary, Use: Information, Caveat: caveat},
		{ID: SoundWork, What: "peak sound level at the ear, lower exposure action value at work", Value: 135, Unit: "dB(C)",
			Document: "Directive 2003/10/EC", Clause: "Article 3", Evidence: FromMemory,
			Caveat: "for adults at work: from 137 dB(C) on hearing protection is a must, 140 dB(C) is the limit at the ear (Article 3, from " +
				"memory)"},
		{ID: SoundDaily, What: "steady sound level over eight hours at the ear, upper exposure action value at work", Value: 85, Unit: "dB(A)",
			Document: "Directive 2003/10/EC", Clause: "Article 3", Evidence: FromMemory, Caveat: "for adults at work, over a working day; from " +
				"it on hearing protection is a must"},
	}
}

// EyeFigure stands beside the energies as information.
type EyeFigure struct {
	Injury string
	Half   float64 // energy per projected area with a 50 % chance of the injury [J/m2]
	Ratio  float64 // this launcher's worst energy per projected area over Half [-]
}
