package benchmark_test

import (
	"fmt"
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Published figures in the units of their documents, turned into SI with exact
// definitions (1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s2). The
// tolerance is half of the last digit that the SI figure is known to.
func TestBenchmarksInTheUnitsOfTheirDocuments(t *testing.T) {
	const (
		inch = 0.0254
		foot = 12 * inch
		lbf  = 0.45359237 * 9.80665
		psi  = lbf / (inch * inch)
	)
	for _, c := range []struct {
		id     benchmark.BenchmarkID
		want   float64
		within float64
		source string
	}{
		{benchmark.EnergyFloor, 0.08, 0, "ASTM F963-17 4.21.2.3"},
		{benchmark.TotalResilient, 0.5, 0, "EN 71-1 before 2018, 4.17.3"},
		{benchmark.TotalRigid, 0.08, 0, "EN 71-1 before 2018, 4.17.3"},
		{benchmark.AreaPublished, 2500, 0, "ASTM F963-17 4.21.2.3"},
		{benchmark.AreaConservative, 0.16 / 1e-4, 1e-9, "GB 6675-2003: 0.16 J/cm2"},
		{benchmark.MarkerSpeed, 175 * foot, 0.005, "ASTM F2574: 175 ft/s, from memory"},
		{benchmark.WeaponLawGermany, 0.5, 0, "WaffG Anlage 2"},
		{benchmark.WeaponLawUK, 1, 0, "Firearms Act 1968 s. 57(1B)"},
		{benchmark.EyeCornealAbrasion, 1503, 0, "Duma et al. 2005, abstract"},
		{benchmark.EyeLensDislocation, 19194, 0, "Duma et al. 2005, abstract"},
		{benchmark.EyeHyphema, 20188, 0, "Duma et al. 2005, abstract"},
		{benchmark.EyeGlobeRupture, 23771, 0, "Duma et al. 2005, abstract"},
		{benchmark.EyeRetinalDamage, 30351, 0, "Duma et al. 2005, abstract"},
		{benchmark.EUPressureLaw, 0.5e5, 0, "2014/68/EU Art. 1(1)"},
		{benchmark.SoundPracticePV, 5000, 0, "2014/68/EU: 50 bar L = 5000 Pa m3"},
		{benchmark.SimpleVesselPV, 5000, 0, "2014/29/EU Annex III: 50 bar L"},
		{benchmark.ASMEScopePressure, 15 * psi, 1e-6, "ASME VIII-1 U-1(c)(2)(h): 15 psi"},
		{benchmark.ASMEScopeDiameter, 6 * inch, 1e-12, "ASME VIII-1 U-1(c)(2)(i): 6 in"},
		{benchmark.SkinAir, 30 * psi, 1e-6, "29 CFR 1910.242(b): 30 psi"},
		{benchmark.HighStoredEnergy, 14240 * foot * lbf, 5, "ECSS-E-ST-32-02C: 14240 ft lbf, given as 19310 J"},
		{benchmark.HighStoredPressure, 100 * psi, 5000, "ECSS-E-ST-32-02C: 0.69 MPa, 100 psi from memory"},
		{benchmark.LaboratoryEnergy, 100e3, 0, "UC Berkeley EHS: 100 kJ"},
		{benchmark.ReliefFullFlowASME, 0.207e5, 50, "ASME VIII-1 UG-125(c): 3 psi, 0.207 bar"},
		{benchmark.ReliefSetASME, 2 * psi, 1e-6, "ASME VIII-1 UG-134: 2 psi"},
		{benchmark.LungPressure, 1000 * 9.80665, 200, "MSD Manual: 1 m of water, about 0.1 bar"},
		{benchmark.SmallBall, 1.75 * inch, 1e-9, "16 CFR 1117: 1.75 in"},
		{benchmark.SmallPart, 1.25 * inch, 5.1e-5, "16 CFR 1501.4: 1.25 in, given as 31.7 mm"},
		{benchmark.SoundPeak, 115, 0, "EN 71-1 4.20"},
		{benchmark.SoundPeakCaps, 125, 0, "EN 71-1 4.20"},
		{benchmark.SoundWork, 135, 0, "2003/10/EC Art. 3, from memory"},
	} {
		b := benchmark.BenchmarkOf(c.id)
		assert.InDelta(t, c.want, b.Value, c.within, "%s: %s", c.id, c.source)
	}
}

// Each benchmark carries what a report has to print.
func TestBenchmarksAreWhole(t *testing.T) {
	seen := map[benchmark.BenchmarkID]bool{}
	for _, b := range benchmark.Benchmarks() {
		assert.False(t, seen[b.ID], "%s occurs twice", b.ID)
		seen[b.ID] = true
		assert.NotEmpty(t, b.What, b.ID)
		assert.NotEmpty(t, b.Unit, b.ID)
		if b.Document == "" {
			assert.Contains(t, b.Caveat, "own rule", b.ID)
			assert.Equal(t, "own rule of this project, no source", b.Source())
			continue
		}
		assert.NotContains(t, b.Evidence.String(), "unknown", b.ID)
		assert.Contains(t, b.Source(), b.Document)
		assert.Contains(t, b.Source(), "("+string(b.Evidence)+": ")
	}
	assert.Equal(t, "ASTM F963, 2017, 4.21.2.3 and 8.14.5 (V2: read in a secondary text)",
		benchmark.BenchmarkOf(benchmark.EnergyFloor).Source())
	assert.PanicsWithValue(t, `limits: no benchmark "no such"`, func() { benchmark.BenchmarkOf("no such") })
}

// Weapon law and the eye decide nothing.
func TestInformationOnly(t *testing.T) {
	for _, id := range []benchmark.BenchmarkID{
		benchmark.WeaponLawGermany, benchmark.WeaponLawUK, benchmark.MarkerSpeed, benchmark.MarkerMass, benchmark.SoundPeakCaps,
		benchmark.EyeCornealAbrasion, benchmark.EyeRetinalDamage,
	} {
		assert.Equal(t, benchmark.Information, benchmark.BenchmarkOf(id).Use, id)
	}
	for _, p := range launcher.Policies() {
		for _, b := range []benchmark.Benchmark{p.Floor, p.TotalResilient, p.TotalRigid, p.Area} {
			assert.Equal(t, benchmark.ForVerdict, b.Use, b.ID)
			assert.NotEqual(t, benchmark.FromMemory, b.Evidence, "%s decides an energy verdict", b.ID)
		}
	}
}

// 2500 J/m2 over 1503 J/m2 is 1.66: own arithmetic on two published figures.
func TestEyeFigures(t *testing.T) {
	figures := benchmark.EyeFigures(2500)
	require.Len(t, figures, 5)
	assert.Equal(t, "corneal abrasion", figures[0].Injury)
	assert.Equal(t, "1.66", fmt.Sprintf("%.2f", figures[0].Ratio))
	for i := 1; i < len(figures); i++ {
		assert.Greater(t, figures[i].Half, figures[i-1].Half)
		assert.InEpsilon(t, 2500, figures[i].Half*figures[i].Ratio, 1e-12)
	}
}

// Makers' tables for PVC pipe with water: 73/80/90/100/110/120/130/140 °F and
// 1.00 .88 .75 .62 .50 .40 .30 .22. In °C the rows lie at 22.8 to 60.
func TestPVCFactor(t *testing.T) {
	celsius := func(c float64) float64 { return c + 273.15 }
	for _, c := range []struct{ celsius, factor float64 }{
		{-20, 1}, {22.7, 1},
		{(73 - 32) / 1.8, 1}, {(80 - 32) / 1.8, 0.88}, {(90 - 32) / 1.8, 0.75}, {(100 - 32) / 1.8, 0.62},
		{(110 - 32) / 1.8, 0.50}, {(120 - 32) / 1.8, 0.40}, {(130 - 32) / 1.8, 0.30}, {60, 0.22},
		{23, 0.88}, {26, 0.88}, {27, 0.75}, {45, 0.40}, {50, 0.30}, {54.5, 0.22},
		{60.1, 0}, {80, 0},
	} {
		assert.Equal(t, c.factor, benchmark.PVCFactor(celsius(c.celsius)), "%.4f degC", c.celsius)
	}
	assert.Panics(t, func() { benchmark.PVCFactor(0) })
}

// The lower factor between rows is never above the straight line.
func TestPVCFactorIsBelowTheLine(t *testing.T) {
	table := benchmark.PVCDerating()
	require.Len(t, table, 8)
	for i := 1; i < len(table); i++ {
		a, b := table[i-1], table[i]
		for _, u := range []float64{0.01, 0.5, 0.99} {
			line := a.Factor + u*(b.Factor-a.Factor)
			assert.LessOrEqual(t, benchmark.PVCFactor(a.Temperature+u*(b.Temperature-a.Temperature)), line)
		}
	}
}

// Sizes: golf ball 1.680 in and 1.620 oz avoirdupois (R&A and USGA); table-tennis
// ball 40 mm, 2.7 g (ITTF); cells of IEC 60086-2. Half of the last digit. Marble and
// pebble: mass over volume is that of glass and of stone, 2400 to 2700 kg/m3 (common
// practice, no source).
func TestMisuseObjects(t *testing.T) {
	object := map[string]benchmark.MisuseObject{}
	for _, o := range benchmark.MisuseObjects() {
		object[o.Name] = o
		assert.True(t, o.Diameter > 0 && o.Length >= o.Diameter && o.Mass > 0, o.Name)
		assert.NotEmpty(t, o.Evidence, o.Name)
	}
	assert.Len(t, object, 7)
	golf := object["golf ball"]
	assert.InDelta(t, 1.680*0.0254, golf.Diameter, 5e-6)
	assert.InDelta(t, 1.620*0.45359237/16, golf.Mass, 5e-6)
	assert.Equal(t, 40e-3, object["table-tennis ball"].Diameter)
	assert.Equal(t, 2.7e-3, object["table-tennis ball"].Mass)
	assert.Equal(t, 14.5e-3, object["AA cell"].Diameter)
	assert.Equal(t, 50.5e-3, object["AA cell"].Length)
	assert.Equal(t, 44.5e-3, object["AAA cell"].Length)
	for _, name := range []string{"glass marble", "pebble"} {
		o := object[name]
		density := o.Mass / (3.14159265 / 6 * o.Diameter * o.Diameter * o.Diameter)
		assert.True(t, density > 2400 && density < 2700, "%s: %.0f kg/m3", name, density)
	}
}

// What no text of this package may say.
func TestNoBoldWords(t *testing.T) {
	var texts []string
	for _, b := range benchmark.Benchmarks() {
		texts = append(texts, b.What, b.Caveat, b.Source())
	}
	for _, s := range append(benchmark.Scope(), benchmark.Cautions()...) {
		assert.NotEmpty(t, s.Text)
		texts = append(texts, s.Text, s.Source)
	}
	for _, p := range launcher.Policies() {
		texts = append(texts, p.What)
	}
	for _, text := range texts {
		for _, bold := range []string{"complies", "compliant", "certified", "safe toy", "toy-safe"} {
			assert.NotContains(t, strings.ToLower(text), bold)
		}
	}
}

// The cautions say what the project has promised to say.
func TestCautionsAreThere(t *testing.T) {
	all := ""
	for _, s := range append(benchmark.Scope(), benchmark.Cautions()...) {
		all += s.Text + "\n"
	}
	for _, said := range []string{
		"compressed gas", "voluntar", "Local law", "licensed engineer", "eye protection", "adult is in charge",
		"anything but the projectile", "not a pressure vessel", "not harmless", "1500 J/m2",
	} {
		assert.Contains(t, all, said)
	}
}
