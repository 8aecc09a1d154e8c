package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// An answer that says of a part that it stands the other way than it has to fails, whatever else it says; one that tells it in another
// order, or says nothing of it, does not. The launcher is invented.
func TestPartsStandAsTheyHaveTo(t *testing.T) {
	it := &Item{ID: ItemDryControl, Stands: []Stand{{"dump_tank", true}, {"dump_dose", true}, {"fire", false}, {"dump", true}}}
	judge := func(value string) Outcome {
		got, _ := Judge(it, &Confirmation{Who: "AB", Date: "2026-05-01", Value: value}, "2026-05-02")
		return got
	}
	for _, value := range []string{
		"dump_tank shut, nothing fires",
		"fire open, nothing fires",
		"nothing fires, dump_tank stays closed",
		"nothing fires, dump_tank and dump_dose shut, fire open",
		"open: fire; shut: dump_tank; nothing fires",
		"nothing fires, dump_tank open, dump_dose was closed",
		"each time shut: fire, dump_dose; nothing fires",
		"nothing fires, Dump tank, dump dose and fire open",
		"the dump tank valve is still shut, nothing fires",
		"nothing fires; closed fire, closed dump_tank",
		"dump_tank open, fire shut, dump shut, nothing fires",
		"nothing fires, dump_dose each time shut",
		"nothing fires, fire opens",
	} {
		assert.Equal(t, Failing, judge(value), value)
	}
	for _, value := range []string{
		"each time dump_tank and dump_dose open, fire shut, nothing fires, silent",
		"open: dump_tank, dump_dose; shut: fire; nothing fires",
		"nothing fires, dump_tank open, fire closed",
		"open dump_tank and dump_dose, fire shut, nothing fires",
		"no fire, dump_tank open, nothing fired",
		"fire button pressed, dump_tank open, nothing fires",
		"dump tank opens each time, fire stays shut, the pump falls silent, nothing fires",
		"all as listed, nothing fires",
		"nothing fires, both dumps open, firing valve shut",
		"stop, key, remote, plug: dump_tank, dump_dose and dump open; fire is closed; nothing fires",
	} {
		assert.Equal(t, Closes, judge(value), value)
	}
	got, why := Judge(it, &Confirmation{Who: "AB", Date: "2026-05-01", Value: "dump_tank shut, nothing fires"}, "2026-05-02")
	assert.Equal(t, Failing, got)
	assert.Contains(t, why.String(), "says that dump_tank is shut; it has to be open")
}
