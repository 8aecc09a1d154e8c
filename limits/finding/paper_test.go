package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a plate, a bill or a paper says of the age of a part is told with its year: "nothing past its date" was read off nothing where the
// design has no date. One year may stand for parts named before it; one too old fails; the sentence that is asked closes the item.
func TestAnAgeIsToldByItsPaper(t *testing.T) {
	it := &Item{ID: ItemAgeRetire, Years: []int{1990, 2010, 2024, 2026, 2030, 2031, 2035}, Dated: []Dated{{"volumes.tank", 1986, 2026},
		{"projectile", 2016, 2026}, {"barrel", 2031, 2031}}}
	for value, want := range map[string]Outcome{
		"no cracks, nothing past its date": Unusable, "no cracks, nothing past its date, tank 2024": Unusable,
		"no cracks, nothing past its date, tank 2024, foam 2026":                       Unusable,
		"no cracks, nothing past its date, tank 2024, foam 2026, barrel by paper 2031": Closes,
		"no cracks, tank and barrel good until 2035, balls bought 2024":                Closes,
		"no cracks, 2024, 2031, 2026, tank, barrel, foam":                              Unusable,
		"no cracks, tank 1990, foam 2010, barrel 2031":                                 Failing,
		"no cracks, tank 1990, foam 2024, barrel 2030":                                 Failing,
	} {
		outcome, why := Judge(it, &Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01", Value: value}, "2026-06-01")
		assert.Equal(t, want, outcome, "%s: %s", value, why)
	}
	asked := it.Write().String()
	assert.Equal(t, `"no cracks, nothing past its date, tank 2026, projectile 2026, barrel 2031"; the years as a plate, a bill or a paper `+
		`shows them`, asked)
	outcome, why := Judge(it, &Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01",
		Value: "no cracks, nothing past its date, tank 2026, projectile 2026, barrel 2031"}, "2026-06-01")
	assert.Equal(t, Closes, outcome, "what is asked is accepted: %s", why)
	it.Dated = nil
	outcome, _ = Judge(it, &Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01", Value: "no cracks, nothing past its date"},
		"2026-06-01")
	assert.Equal(t, Closes, outcome, "of parts that the design has a date of")
}
