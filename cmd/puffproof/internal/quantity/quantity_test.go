package quantity

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// Expected texts are the same arithmetic by hand: 1 psi = 6894.757 Pa,
// 1 ft = 0.3048 m, 1 oz = 28.3495 g, 1 cfm = 28.3168 L/min, 1 lbf = 4.44822 N
// (NIST SP 811, 2008, Appendix B).
func TestNear(t *testing.T) {
	cases := map[string]struct {
		si   float64
		q    Kind
		sys  System
		want string
	}{
		"pressure":              {45000, Pressure, Metric, "0.45 bar"},
		"pressure above 1 bar":  {105000, Pressure, Metric, "1.05 bar"},
		"pressure ten":          {1e6, Pressure, Metric, "10.0 bar"},
		"pressure small":        {6800, Pressure, Metric, "0.068 bar"},
		"pressure tiny":         {12, Pressure, Metric, "12 Pa"},
		"pressure negative":     {-2000, Pressure, Metric, "-0.020 bar"},
		"pressure rounds over":  {99950, Pressure, Metric, "1.0 bar"},
		"pressure us":           {45000, Pressure, US, "6.5 psi"},
		"pressure us small":     {3447.378646584, Pressure, US, "0.50 psi"},
		"speed":                 {12.345, Speed, Metric, "12.3 m/s"},
		"speed us":              {12.345, Speed, US, "40.5 ft/s"},
		"energy":                {0.3123, Energy, Metric, "0.31 J"},
		"energy small":          {0.0499, Energy, US, "0.050 J"},
		"energy above one":      {1.7777, Energy, Metric, "1.78 J"},
		"energy large":          {123.45, Energy, Metric, "123 J"},
		"energy per area":       {1284.3, EnergyPerArea, Metric, "1284 J/m2"},
		"zero":                  {0, Energy, Metric, "0 J"},
		"volume":                {8e-4, Volume, Metric, "800 mL"},
		"volume litre":          {2.5e-3, Volume, Metric, "2.50 L"},
		"volume us":             {8e-4, Volume, US, "48.8 in3"},
		"length":                {0.051, Length, Metric, "51.0 mm"},
		"length us":             {0.051, Length, US, "2.01 in"},
		"mass":                  {0.005, Mass, Metric, "5.00 g"},
		"mass us":               {0.005, Mass, US, "0.176 oz"},
		"time":                  {0.03, Time, Metric, "30.0 ms"},
		"time long":             {60, Time, Metric, "60.0 s"},
		"temperature":           {291.15, Temperature, Metric, "18 °C"},
		"temperature us":        {291.15, Temperature, US, "64 °F"},
		"flow":                  {2e-4, VolumeFlow, Metric, "12.0 L/min"},
		"flow us":               {2e-4, VolumeFlow, US, "0.424 cfm"},
		"force":                 {0.5, Force, Metric, "0.50 N"},
		"force us":              {0.5, Force, US, "0.11 lbf"},
		"age":                   {4 * 365.25 * 86400, Age, Metric, "4.0 years"},
		"angle":                 {math.Pi / 3, Angle, Metric, "60.0 deg"},
		"gauge":                 {45000, Gauge, Metric, "0.45 bar gauge"},
		"gauge us":              {45000, Gauge, US, "6.5 psi gauge"},
		"setting":               {41239, Setting, Metric, "0.412 bar gauge"},
		"setting us":            {41239, Setting, US, "5.98 psi gauge"},
		"setting small":         {500, Setting, Metric, "0.005 bar gauge"},
		"shot":                  {12.345, ShotSpeed, Metric, "12.35 m/s"},
		"leak":                  {6.2e-5, LeakBore, Metric, "0.062 mm"},
		"leak us":               {6.2e-5, LeakBore, US, "0.0024 in"},
		"leak flow":             {7e-7, LeakFlow, US, "2.6 in3/min"}, // 1 in3 is 16.3871 mL
		"leak flow metric":      {7e-7, LeakFlow, Metric, "42 mL/min"},
		"pressure times volume": {5000, PressureVolume, Metric, "50 bar L"},
		"the same us":           {5000, PressureVolume, US, "26 psi ft3"}, // 5000 J/(6894.757 Pa 0.0283168 m3) = 25.6
		"sonic conductance":     {4.2e-8, Conductance, Metric, "4.20 L/(s bar)"},
		"the same in us":        {4.2e-8, Conductance, US, "0.614 cfm/psi"}, // 4.2e-8 6894.757/0.000471947 = 0.6136
		"temperature step":      {2, TemperatureStep, Metric, "2 K"},
		"temperature step us":   {2, TemperatureStep, US, "3.6 °F"},
		"count":                 {3, Count, Metric, "3"},
		"plain":                 {0.65, Plain, Metric, "0.650"},
		"not a number":          {math.NaN(), Energy, Metric, "not known"},
		"infinite":              {math.Inf(1), Time, Metric, "without end"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, c.sys.Near(c.q, c.si)) })
	}
}

func TestWorstNeverFlatters(t *testing.T) {
	require.Equal(t, "0.51 J", Metric.Worst(Energy, 0.5001))
	require.Equal(t, "0.50 J", Metric.Near(Energy, 0.5001))
	require.Equal(t, "0.62 bar", Metric.Words(Pressure, 62990, Down))
	require.Equal(t, "0.29 J", Metric.Worst(Energy, 0.29), "a figure that is whole stays")
}

// Every text of a dimension is a quantity that unit.Parse reads back to within
// half of the last digit shown; 1e-9 of it is left for double rounding.
func TestWordsCanBeReadBack(t *testing.T) {
	for d := unit.Dimension(0); d.String() != "unknown dimension"; d++ {
		for _, sys := range []System{Metric, US} {
			for _, si := range []float64{0.0012, 0.5, 1, 37.7, 320} {
				if d == unit.Temperature {
					si += 250 // the coldest that the program accepts
				}
				text := sys.Near(Of(d), si)
				q, err := unit.Parse(text, d)
				require.Nil(t, err, text)
				number, name, _ := strings.Cut(text, " ")
				u := unit.Unit{Factor: 1}
				if name != "" {
					u, _ = unit.Lookup(name)
				}
				_, decimals, _ := strings.Cut(number, ".")
				last := u.Factor * math.Pow(10, -float64(len(decimals)))
				if v, _ := strconv.ParseFloat(number, 64); math.Abs(v) >= 1e5 { // three digits, then zeros
					last = u.Factor * math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-2)
				}
				require.InDelta(t, si, q.Nominal, 0.5*last*(1+1e-9), "%s %s", d, text)
			}
		}
	}
}

// Two figures that are held against each other stand in one unit, unless one would lose its digits by it.
func TestLike(t *testing.T) {
	require.Equal(t, "0.54 m", Metric.Like(Length, 0.54, 10.2, Down))
	require.Equal(t, "40.5 mm", Metric.Like(Length, 0.0405, 0.0445, Down))
	require.Equal(t, "5.00 mm", Metric.Like(Length, 0.005, 10.2, Down), "0.01 m would be twice as much")
	require.Equal(t, "without end", Metric.Like(Time, math.Inf(1), 60, Up))
	require.Equal(t, "not known", Metric.Like(Time, math.NaN(), 60, Up))
	require.Equal(t, "1.77 ft", US.Like(Length, 0.54, 3.1, Down))
}

// 400 bar, the most that a design may state, is 5802 psi (NIST SP 811): beyond it a figure has no digits.
func TestNoDigitsBeyondEveryModel(t *testing.T) {
	for _, c := range []struct {
		q    Kind
		sys  System
		si   float64
		want string
	}{{Gauge, Metric, 1667e5, "over 400 bar gauge"}, {Pressure, US, 1667e5, "over 5802 psi"},
		{Setting, Metric, 401e5, "over 400.000 bar gauge"},
		{Gauge, Metric, 399e5, "399 bar gauge"}, {Energy, Metric, 1667e5, "167000000 J"}} {
		require.Equal(t, c.want, c.sys.Near(c.q, c.si))
	}
	require.Equal(t, "over 400 bar gauge", Metric.Like(Gauge, 401e5, 10e5, Up))
	require.Equal(t, "over 400", Metric.Bare(Gauge, 401e5, Up))
	require.Equal(t, "over 5802 psi", US.Text(finding.Say("%s", finding.Bar(1667e5))))
}
