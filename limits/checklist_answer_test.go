package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// An answer that says otherwise than what is expected closes nothing, nor does one
// without the figure, nor one from a day to come.
func TestAnAnswerMustSayWhatIsExpected(t *testing.T) {
	l := dumped()
	l.Switch.CutOut = between("", 0.38e5, 0.46e5)
	ventTime := 20.0
	for _, c := range []struct {
		item, date, value string
		figures           []Figure
		closes            bool
		why               string
	}{
		{ItemVentTest, "2026-05-01", "9 s", []Figure{{9, InSecond}}, true, ""},
		{ItemVentTest, "2026-05-01", "9 s, 0.02 bar", []Figure{{9, InSecond}, {2e3, InPascalGauge}}, true, ""},
		{ItemVentTest, "2026-05-01", "9 s, 0.3 bar", []Figure{{9, InSecond}, {0.3e5, InPascalGauge}}, false, "not what is expected"},
		{ItemVentTest, "2026-05-01", "600 s", []Figure{{600, InSecond}}, false, "not what is expected"},
		{ItemVentTest, "2026-05-01", "never empties", nil, false, "no figure in s"},
		{ItemVentTest, "2026-05-01", "", nil, false, "no figure in s"},
		{ItemVentTest, "2099-05-01", "9 s", []Figure{{9, InSecond}}, false, "still to come"},
		{ItemReliefTest, "2026-05-01", "0.75 bar", []Figure{{0.75e5, InPascalGauge}}, true, ""},
		{ItemReliefTest, "2026-05-01", "3 bar", []Figure{{3e5, InPascalGauge}}, false, "not what is expected"},
		{ItemSwitchTest, "2026-05-01", "0.40 to 0.43 bar", []Figure{{0.40e5, InPascalGauge}, {0.43e5, InPascalGauge}}, true, ""},
		{ItemSwitchTest, "2026-05-01", "0.40 to 0.9 bar", []Figure{{0.40e5, InPascalGauge}, {0.9e5, InPascalGauge}}, false, "not what is expected"},
		{"loading.wait", "2026-05-01", "1 s", []Figure{{1, InSecond}}, false, "not what is expected"},
		{ItemJamDrill, "2026-05-01", "", nil, true, ""},
		{ItemJamDrill, "2099-05-01", "", nil, false, "still to come"},
	} {
		l.Checklist = []Confirmation{{Item: c.item, Who: "A. N.", Date: c.date, Value: c.value, Figures: c.figures}}
		a := &Assessment{Launcher: l, Day: "2026-06-01", Faults: &FaultReport{}, Loading: loadingOf(l, 5000),
			Emptying: &VentReport{Target: 5000, Tests: []StopwatchTest{{Volume: "tank", Slowest: ventTime}}}}
		it := itemIn(t, answered(append(ventItems(a), faultItems(a)...), l, a.Day), c.item)
		assert.Equal(t, c.closes, it.Done != nil, "%s %q: %s", c.item, c.value, it.OpenWhy)
		if c.why == "" {
			assert.Empty(t, it.OpenWhy)
		} else {
			assert.Contains(t, it.OpenWhy, c.why)
		}
	}
}
