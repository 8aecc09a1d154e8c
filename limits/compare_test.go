package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/setpoint"
)

// What only one launcher has stands beside nothing, and so does what has no end.
func TestFiguresSideBySide(t *testing.T) {
	const speed, time, pressure = finding.InMetrePerSecond, finding.InSecond, finding.InPascalGauge
	a := []figure{{"speed", speed, AsItIs, 3}, {"time", time, NotLess, math.Inf(1)}, {"tank", pressure, NotLess, 7}}
	b := []figure{{"speed", speed, AsItIs, math.NaN()}, {"time", time, NotLess, 4}, {"dose", pressure, NotLess, 0}}
	assert.Equal(t, []string{"speed 3 -", "time - 4", "tank 7 -", "dose - 0"}, said(sideBySide(a, b)))
	assert.Equal(t, []string{"speed - 3", "time 4 -", "dose 0 -", "tank - 7"}, said(sideBySide(b, a)))
}

// Set pressures that are no answer yet stand nowhere.
func TestSetPressuresSideBySide(t *testing.T) {
	cutOut, highest := 4.0, 6.0
	known := setpoint.Answer{CutOut: &cutOut, ReliefSetMax: &highest}
	open := known
	open.Unknown = finding.Words("an input is not stated")
	assert.Equal(t, []string{"highest cut-out 4 -", "its cut-in - -", "relief valve, highest set pressure 6 -"},
		said(sideBySide(settings(&known), settings(&open))))
}

// A verdict that one launcher is not asked differs from one that passes; those that are alike are left out.
func TestStatusesApart(t *testing.T) {
	a := Report{Verdicts: []finding.Verdict{{ID: finding.DatesPast, Status: finding.Pass}, {ID: finding.EnergyTotal, Status: finding.Fail},
		{ID: finding.EnergyArea, Status: finding.Pass}}}
	b := Report{Verdicts: []finding.Verdict{{ID: finding.EnergyTotal, Status: finding.Pass}, {ID: finding.EnergyArea, Status: finding.Pass}}}
	var found []string
	for _, v := range statusesApart(&a, &b) {
		found = append(found, v.ID+" "+string(v.A)+"/"+string(v.B))
	}
	assert.Equal(t, []string{"energy.total fail/pass", "dates.past pass/"}, found, "in the order of the table")
}

// said writes compared figures in a line each.
func said(compared []Compared) (lines []string) {
	write := func(v *float64) string {
		if v == nil {
			return "-"
		}
		return finding.Significant(*v, 1)
	}
	for _, c := range compared {
		lines = append(lines, c.Name+" "+write(c.A)+" "+write(c.B))
	}
	return lines
}
