package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// Who holds a hose's print against the list finds there what the print has to say: a wider hose shoots harder, and shows it nowhere else.
func TestHosesHaveTheirBoreInTheList(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Paths[0].Name, l.Paths[0].Hose = "fire", &launcher.HoseSpec{Bore: launcher.Band{Set: true, Low: 7.8e-3, Nominal: 8e-3, High: 8.2e-3}}
	})
	assert.Equal(t, "; inside of hoses, by their print: fire 7.80 mm to 8.20 mm", hosePrints(l).String())
	l.Paths[0].Hose.Shared = true
	assert.Empty(t, hosePrints(l), "it is told with the way that has it")
}

// Where no hole is drilled, the test that the fault of a wider hose names is one of the list all the same, with each hose's bore.
func TestHosesAreCheckedWithoutARestrictor(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Paths[0].Name, l.Paths[0].Hose = "fire", &launcher.HoseSpec{Bore: launcher.Band{Set: true, Low: 7.8e-3, Nominal: 8e-3, High: 8.2e-3}}
	})
	a := assessed.WithFaults(l, fault.Result{Part: "fire", Mode: fault.HoseWider, Latent: true, RevealedBy: finding.ItemBore,
		Effect: fault.ChangesShot})
	a.Revealed, a.Loading = a.Faults.Revealed(), &vent.Loading{Names: []string{"tank"}, Wait: 12.3}
	it := assessed.Item(t, FaultItems(a), finding.ItemBore)
	assert.Equal(t, "fire 7.80 mm to 8.20 mm", it.Expect.String())
	assert.Equal(t, []finding.NamedPart{{Name: "fire", Expected: *finding.FigureBetween(finding.InMetre, 7.8e-3, 8.2e-3)}}, it.Parts)
	assert.Equal(t, [3]float64{7.8e-3, 8.2e-3, 1}, [3]float64{it.Figure.Low, it.Figure.High, float64(it.Figure.Least)})
	a.Revealed = nil
	for _, it := range FaultItems(a) {
		assert.NotEqual(t, finding.ItemBore, it.ID, "nothing rests on it")
	}
}
