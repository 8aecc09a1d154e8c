package finding

import "testing"

// A word of trouble in an answer fails it, unless it is denied; a number of readings that is asked for has to be there.
func TestTroubleInAnAnswer(t *testing.T) {
	lifts := func(value string, n int) *Confirmation {
		c := &Confirmation{Who: "AB, CD", Date: "2026-05-01", Value: value}
		for range n {
			c.Figures = append(c.Figures, Figure{70e3, InPascalGauge})
		}
		return c
	}
	it := &Item{ID: ItemReliefTest, Figure: &Expected{Unit: InPascalGauge, Low: 60e3, High: 90e3, Least: 3}}
	for _, c := range []struct {
		value string
		n     int
		want  Outcome
	}{
		{"0.7, 0.7, 0.7 bar", 3, Closes},
		{"0.7, 0.7, 0.7 bar, no leak, nothing stuck", 3, Closes},
		{"0.7 bar, 0.7 bar, never opened", 2, Failing},
		{"0.7, 0.7, 0.7 bar, stuck the last time", 3, Failing},
		{"0.7, 0.7, 0.7 bar, no trouble at first, then it sticks", 3, Failing},
		{"0.7 bar", 1, Unusable},
		{"nope, unreadable", 0, Failing},
	} {
		got, why := Judge(it, lifts(c.value, c.n), "2026-06-01")
		if got != c.want {
			t.Errorf("%q: %v (%s), want %v", c.value, got, why, c.want)
		}
	}
}

// One person under two spellings is one person.
func TestPeople(t *testing.T) {
	for who, want := range map[string]int{"AB, CD": 2, "AB,CD": 2, "A. B. & C. D.": 2, "AB": 1, "AB, AB": 1, "AB, ab.": 1, "A, B": 0,
		"AB, Abe": 1, "Abe, AB": 1, "11, 22": 0, "AB, C3": 1, "AB, CD, A": 2, " , ": 0, "": 0} {
		if got := People(who); got != want {
			t.Errorf("%q: %d people, want %d", who, got, want)
		}
	}
}
