package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// A jet that was left out leaves the bore that it sat in, which no factor on its own bore tells: of a hose that of the hose, else that of a
// G 1/4 fitting, 8 mm (common practice, no source). What is drilled through the part itself can only be drilled wider.
func TestAMissingRestrictorLeavesWhatItSatIn(t *testing.T) {
	hose := func(bore float64) *launcher.HoseSpec {
		return &launcher.HoseSpec{Bore: launcher.Exact("", bore), Length: launcher.Exact("", 0.5), Side: launcher.HoseBefore}
	}
	for _, c := range []struct {
		name      string
		bore      float64
		hose      *launcher.HoseSpec
		removable launcher.Answer
		mode      Mode
		wide      float64
		gone      bool
	}{
		{"a jet of 1.2 mm", 1.2e-3, nil, launcher.Unanswered, BoreMissing, 8e-3, true},
		{"a jet that can be left out", 1.2e-3, nil, launcher.Yes, BoreMissing, 8e-3, true},
		{"in a hose", 1.2e-3, hose(6e-3), launcher.Unanswered, BoreMissing, 6e-3, true},
		{"in a hose hardly wider", 3e-3, hose(4e-3), launcher.Unanswered, BoreMissing, 6e-3, false},
		{"wider than half a fitting", 5e-3, nil, launcher.Unanswered, BoreMissing, 10e-3, false},
		{"drilled through the part", 1.2e-3, nil, launcher.No, BoreDrilled, 2.4e-3, false},
		{"drilled through the part, with a hose", 1.2e-3, hose(6e-3), launcher.No, BoreDrilled, 2.4e-3, false},
	} {
		l := sample.Plain()
		p := &l.Paths[0]
		p.Flow, p.Hose = sample.Orifice(c.bore, 0.7), c.hose
		p.Flow.Removable = c.removable
		st := stageOf(t, l)
		f := st.boreFault(0)[0]
		assert.Equal(t, c.mode, f.mode, c.name)
		failed := st.failed(&f).Paths[0].Flow
		assert.InDelta(t, c.wide, failed.Value.High, 1e-12, c.name)
		assert.InDelta(t, c.bore, failed.Value.Low, 1e-12, "%s: or as it was", c.name)
		cd := 0.7
		if c.gone { // the ideal nozzle: no edge of a hole narrows the jet
			cd = 1
		}
		assert.InDelta(t, cd, failed.DischargeCoefficient.High, 1e-12, c.name)
		assert.Equal(t, c.mode == BoreMissing, len(f.prevented) > 0, "%s: what prevents it", c.name)
		assert.Equal(t, "restrictor.gauge", f.revealed, c.name)
	}
}

// A vent whose jet is missing only empties the faster.
func TestAVentWithoutItsJetLetsAirOut(t *testing.T) {
	l := sample.VentedTank()
	for i := range l.Paths {
		if l.Paths[i].To == "atmosphere" && l.Paths[i].Restrictor() {
			f := stageOf(t, l).boreFault(i)[0]
			assert.False(t, f.changes || f.latent, "%s", l.Paths[i].Name)
			assert.Equal(t, "it only lets air out", f.whyNot.String())
			return
		}
	}
	assert.Fail(t, "no vent is a drilled hole")
}
