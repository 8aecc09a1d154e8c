package unit

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// near holds two SI values to 1e-12 relative: a handful of double roundings.
func near(t *testing.T, want, got float64) {
	t.Helper()
	require.InDelta(t, want, got, 1e-12*math.Max(1e-12, math.Abs(want)))
}

func TestParseReads(t *testing.T) {
	cases := map[string]struct {
		text               string
		dim                Dimension
		nominal, low, high float64
		stated             bool
		origin             Origin
		ref                Reference
	}{
		"percent":               {"2.0 L ± 3 %", Volume, 2e-3, 1.94e-3, 2.06e-3, true, Unstated, Unsaid},
		"percent without blank": {"2.0L±3%", Volume, 2e-3, 1.94e-3, 2.06e-3, true, Unstated, Unsaid},
		"ascii plus minus":      {"12 g +/- 0.5 g, measured", Mass, 0.012, 0.0115, 0.0125, true, Measured, Unsaid},
		"two sided":             {"15 ms -15/+10 ms, estimated", Time, 0.015, 0, 0.025, true, Estimated, Unsaid},
		"two sided, two units":  {"15 ms -15 ms / +0.01 s", Time, 0.015, 0, 0.025, true, Unstated, Unsaid},
		"two sided, plus first": {"15 ms +10/-15 ms", Time, 0.015, 0, 0.025, true, Unstated, Unsaid},
		"two sided percent":     {"0.5 N -100/+200 %", Force, 0.5, 0, 1.5, true, Unstated, Unsaid},
		"unicode minus":         {"0.5 N −0.5/+1.0 N", Force, 0.5, 0, 1.5, true, Unstated, Unsaid},
		"no tolerance":          {"0.30 bar", Pressure, 3e4, 3e4, 3e4, false, Unstated, Unsaid},
		"origin alone":          {"0.30 bar, label", Pressure, 3e4, 3e4, 3e4, false, Label, Unsaid},
		"exact":                 {"0.30 bar ± 0", Pressure, 3e4, 3e4, 3e4, true, Unstated, Unsaid},
		"exact with origin":     {"0.30 bar ± 0, measured", Pressure, 3e4, 3e4, 3e4, true, Measured, Unsaid},
		"absolute":              {"1013 hPa abs ± 30 hPa", Pressure, 101300, 98300, 104300, true, Unstated, Absolute},
		"bara":                  {"1.4 bara", Pressure, 1.4e5, 1.4e5, 1.4e5, false, Unstated, Absolute},
		"psig":                  {"10 psig", Pressure, 68947.57293168361, 68947.57293168361, 68947.57293168361, false, Unstated, Gauge},
		"bar gauge":             {"2 bar gauge", Pressure, 2e5, 2e5, 2e5, false, Unstated, Gauge},
		"temperature":           {"18 degC ± 10 K", Temperature, 291.15, 281.15, 301.15, true, Unstated, Unsaid},
		"fahrenheit difference": {"68 degF ± 18 degF", Temperature, 293.15, 283.15, 303.15, true, Unstated, Unsaid},
		"degree sign":           {"-5 °C", Temperature, 268.15, 268.15, 268.15, false, Unstated, Unsaid},
		"plain":                 {"0.65 ± 0.05", Dimensionless, 0.65, 0.6, 0.7, true, Unstated, Unsaid},
		"plain percent band":    {"3.4 ± 20 %", Dimensionless, 3.4, 2.72, 4.08, true, Unstated, Unsaid},
		"plain per cent":        {"65 %", Dimensionless, 0.65, 0.65, 0.65, false, Unstated, Unsaid},
		"range":                 {"2 to 4 bar", Pressure, 3e5, 2e5, 4e5, true, Unstated, Unsaid},
		"range, unit twice":     {"500 mbar to 1 bar, estimated", Pressure, 7.5e4, 5e4, 1e5, true, Estimated, Unsaid},
		"range, dots":           {"2...4 bar", Pressure, 3e5, 2e5, 4e5, true, Unstated, Unsaid},
		"conductance":           {"4.2 L/(s bar) ± 10 %", Conductance, 4.2e-8, 3.78e-8, 4.62e-8, true, Unstated, Unsaid},
		"conductance dot":       {"4.2 L/(s·bar)", Conductance, 4.2e-8, 4.2e-8, 4.2e-8, false, Unstated, Unsaid},
		"superscript":           {"380 mm²", Area, 3.8e-4, 3.8e-4, 3.8e-4, false, Unstated, Unsaid},
		"exponent":              {"1.2e-8 m3/(s Pa)", Conductance, 1.2e-8, 1.2e-8, 1.2e-8, false, Unstated, Unsaid},
		"negative angle":        {"-10 deg ± 2 deg", Angle, -math.Pi / 18, -12 * math.Pi / 180, -8 * math.Pi / 180, true, Unstated, Unsaid},
		"negative percent":      {"-10 deg ± 10 %", Angle, -math.Pi / 18, -11 * math.Pi / 180, -9 * math.Pi / 180, true, Unstated, Unsaid},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			q, err := Parse(c.text, c.dim)
			require.Nil(t, err)
			near(t, c.nominal, q.Nominal)
			near(t, c.low, q.Low)
			near(t, c.high, q.High)
			require.Equal(t, c.stated, q.Stated)
			require.Equal(t, c.origin, q.Origin)
			require.Equal(t, c.ref, q.Reference)
			require.Equal(t, c.dim, q.Dimension)
		})
	}
}

// What gauges and labels print says the same as the unit's own spelling.
func TestSpellingsOfTheWorkshop(t *testing.T) {
	for text, c := range map[string]struct {
		as  string
		dim Dimension
	}{
		"30 PSI":             {"30 psi", Pressure},
		"30 Psi ± 1 PSI":     {"30 psi ± 1 psi", Pressure},
		"44.7 PSIA":          {"44.7 psia", Pressure},
		"2.5 BAR":            {"2.5 bar", Pressure},
		"2.5 Bar abs":        {"2.5 bar abs", Pressure},
		"250 KPa":            {"250 kPa", Pressure},
		"1013 hpa abs":       {"1013 hPa abs", Pressure},
		"18 C ± 8 C":         {"18 degC ± 8 degC", Temperature},
		"64 F":               {"64 degF", Temperature},
		"2 litres ± 3 %":     {"2 L ± 3 %", Volume},
		"1 litre":            {"1 L", Volume},
		"2.5 liters":         {"2.5 L", Volume},
		"250 KPA":            {"250 kPa", Pressure},
		"2 LITRES":           {"2 L", Volume},
		"2 Liters":           {"2 L", Volume},
		"6 to 8 g":           {"7 g ± 1 g", Mass},
		"6-8 g":              {"7 g ± 1 g", Mass},
		"6–8 g":              {"7 g ± 1 g", Mass},
		"6−8 g":              {"7 g ± 1 g", Mass},
		"6 - 8 g, measured":  {"7 g ± 1 g, measured", Mass},
		"6 — 8 g":            {"7 g ± 1 g", Mass},
		"2 bar - 4 bar":      {"2 bar to 4 bar", Pressure},
		"2 bara-4 bara":      {"2 bara to 4 bara", Pressure},
		"10-30 degC":         {"10 degC to 30 degC", Temperature},
		"8 grams, measured":  {"8 g, measured", Mass},
		"12 L/min, template": {"12 l/min, template", VolumeFlow},
		"12 litres/min":      {"12 L/min", VolumeFlow},
		"12 liters/min":      {"12 L/min", VolumeFlow},
		"750 cc":             {"750 mL", Volume},
		"2 dm3 ± 3 %":        {"2 L ± 3 %", Volume},
		"2 inches":           {"2 in", Length},
		"1 inch to 2 inches": {"1 in to 2 in", Length},
		"7 ± 1 g":            {"7 g ± 1 g", Mass},
		"7 +/- 1 g, label":   {"7 g ± 1 g, label", Mass},
		"18 ± 8 C":           {"18 degC ± 8 K", Temperature},
		"64±9 F":             {"64 degF ± 9 degF", Temperature},
	} {
		got, err := Parse(text, c.dim)
		require.Nil(t, err, text)
		want, err := Parse(c.as, c.dim)
		require.Nil(t, err, c.as)
		near(t, want.Nominal, got.Nominal)
		near(t, want.Low, got.Low)
		near(t, want.High, got.High)
		require.Equal(t, want.Reference, got.Reference, text)
		require.Equal(t, want.Origin, got.Origin, text)
	}
	for _, text := range []string{"12 MBAR", "12 Mpa", "12 PA"} { // of these a capital more or less is another unit
		_, err := Parse(text, Pressure)
		require.NotNil(t, err, text)
	}
}

func TestParseRefuses(t *testing.T) {
	cases := map[string]struct {
		text   string
		dim    Dimension
		kind   Kind
		found  string
		offset int
		hint   string // words the hint must have
	}{
		"empty":               {"", Mass, Empty, "", 0, ""},
		"blanks":              {"   ", Mass, Empty, "   ", 0, ""},
		"comma":               {"0,5 bar", Pressure, CommaNumber, "0,5", 0, "write 0.5, not 0,5"},
		"comma in tolerance":  {"5 g ± 0,5 g", Mass, CommaNumber, "0,5", 7, "write 0.5"},
		"thousands":           {"1,013 hPa", Pressure, CommaNumber, "1,013", 0, "1013 if thousands"},
		"fraction":            {"1/2 in", Length, FractionNumber, "1/2", 0, "0.5 in (12.7 mm)"},
		"mixed fraction":      {"1 1/2 in", Length, FractionNumber, "1 1/2", 0, "1.5 in (38.1 mm)"},
		"over zero":           {"1/0 in", Length, FractionNumber, "1/0", 0, "decimal"},
		"nan":                 {"NaN bar", Pressure, NotANumber, "NaN", 0, ""},
		"inf":                 {"inf bar", Pressure, NotANumber, "inf", 0, ""},
		"hexadecimal":         {"0x10 g", Mass, NotANumber, "0x10", 0, ""},
		"huge":                {"1e300 g", Mass, TooExtreme, "1e300", 0, ""},
		"huge exponent":       {"1e99999 g", Mass, TooExtreme, "1e99999", 0, ""},
		"tiny":                {"1e-400 g", Mass, TooExtreme, "1e-400", 0, ""},
		"two points":          {"1.0.3 g", Mass, NotANumber, "1.0.3", 0, "one decimal point"},
		"words":               {"heavy", Mass, NotANumber, "heavy", 0, ""},
		"about":               {"~12 g", Mass, NotANumber, "~12", 0, "estimated"},
		"at most":             {"<12 g", Mass, NotANumber, "<12", 0, "range"},
		"no unit":             {"12", Mass, NoUnit, "12", 2, "5 g"},
		"unknown unit":        {"12 q", Mass, UnknownUnit, "q", 3, ""},
		"capitals":            {"12 MBAR", Pressure, UnknownUnit, "MBAR", 3, "write mbar"},
		"capitals abs":        {"12 Mpa abs", Pressure, UnknownUnit, "Mpa abs", 3, "write MPa abs"},
		"pounds of pressure":  {"30 lbs", Pressure, UnknownUnit, "lbs", 3, "psi"},
		"kilos of pressure":   {"2 kg", Pressure, WrongDimension, "kg", 2, "kgf/cm2"},
		"gallon":              {"1 gal", Volume, UnknownUnit, "gal", 2, "US gallon is meant (3.785 L); the imperial one is 4.546 L"},
		"inch sign":           {"2 \"", Length, UnknownUnit, "\"", 2, "write in"},
		"grams for a force":   {"100 g", Force, WrongDimension, "g", 4, "0.981 N"},
		"gram-force":          {"100 gf", Force, UnknownUnit, "gf", 4, "0.981 N"},
		"pounds for a force":  {"1 lb", Force, WrongDimension, "lb", 2, "4.45 N"},
		"wrong dimension":     {"12 mm", Mass, WrongDimension, "mm", 3, "length"},
		"unit on plain":       {"0.65 mm", Dimensionless, WrongDimension, "mm", 5, "no unit"},
		"bare tolerance":      {"2 L ± 0.1", Volume, NoUnit, "2 L ± 0.1", 10, ""},
		"no unit at all":      {"2 ± 0.1", Volume, NoUnit, "2 ± 0.1", 8, ""},
		"share of no unit":    {"2 ± 10 %", Volume, WrongDimension, "%", 8, ""},
		"hyphen, falling":     {"8-6 g", Mass, BadTolerance, "8-6 g", 1, `write "to"`},
		"hyphen, no width":    {"6-6 g", Mass, BadTolerance, "6-6 g", 1, "smaller first"},
		"hyphen as a sign":    {"6 -8 g", Mass, BadTolerance, "6 -8 g", 1, `write "to"`},
		"hyphen from zero":    {"0-8 g", Mass, BadTolerance, "0-8 g", 1, `write "to"`},
		"hyphen below zero":   {"-5-8 degC", Temperature, BadTolerance, "-5-8 degC", 2, `write "to"`},
		"two hyphens":         {"6--8 g", Mass, BadTolerance, "6--8 g", 1, `write "to"`},
		"hyphen, no unit":     {"6-8", Mass, NoUnit, "6-8", 3, "5 g"},
		"hyphen, plain":       {"0.4-0.6", Dimensionless, BadTolerance, "0.4-0.6", 3, `write "to"`},
		"one side, unit":      {"0.5 N -1 N", Force, BadTolerance, "0.5 N -1 N", 5, `write "to"`},
		"tolerance dimension": {"2 L ± 3 mm", Volume, WrongDimension, "mm", 9, ""},
		"tolerance sign":      {"2 L ± -3 %", Volume, BadTolerance, "-3", 7, "sign"},
		"one side":            {"0.5 N +1 N", Force, BadTolerance, "+1 N", 6, "both sides"},
		"hyphen, two kinds":   {"1 bara - 2 bar", Pressure, WrongDimension, "2 bar", 9, ""},
		"range upside down":   {"4 to 2 bar", Pressure, BadTolerance, "4 to 2 bar", 5, ""},
		"range of two kinds":  {"1 bara to 2 bar", Pressure, WrongDimension, "2 bar", 10, ""},
		"temperature percent": {"18 degC ± 5 %", Temperature, BadTolerance, "%", 13, ""},
		"no comma":            {"12 g measured", Mass, Trailing, "measured", 5, "comma"},
		"misspelt origin":     {"12 g, measurd", Mass, BadOrigin, "measurd", 6, "measured"},
		"guess":               {"12 g, guess", Mass, BadOrigin, "guess", 6, "estimated"},
		"empty origin":        {"12 g,", Mass, BadOrigin, "", 5, "comma"},
		"left over":           {"12 g (dry)", Mass, Trailing, "(dry)", 5, "comment"},
		"below zero":          {"-300 degC", Temperature, BelowZero, "-300 degC", 0, ""},
		"years as time":       {"4 years", Time, WrongDimension, "years", 2, ""},
		"endless":             {strings.Repeat("1", 300), Mass, Trailing, strings.Repeat("1", 40) + "…", 0, ""},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			q, err := Parse(c.text, c.dim)
			require.NotNil(t, err, "%+v", q)
			require.Equal(t, c.kind, err.Kind, err.Error())
			require.Equal(t, c.found, err.Text)
			require.Equal(t, c.offset, err.Offset)
			require.Contains(t, err.Hint, c.hint)
			require.NotEmpty(t, err.Want)
			require.Equal(t, Quantity{}, q)
		})
	}
}

// Every unit reads back what it is written as, and one of it is Factor+Offset.
func TestEveryUnitReads(t *testing.T) {
	for _, u := range table() {
		q, err := Parse("1 "+u.Name, u.Dimension)
		require.Nil(t, err, u.Name)
		require.Equal(t, u.ToSI(1), q.Nominal, u.Name)
		require.Equal(t, u.Reference, q.Reference, u.Name)
		near(t, 1, u.FromSI(u.ToSI(1)))
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"2.0 L ± 3 %", "15 ms -15/+10 ms, estimated", "0,5 bar", "1/2 in", "1e400 g", "2 to 4 bar",
		"−5 degC ± 1 K", "1013 hPa abs ± 30 hPa", "4.2 L/(s·bar)", "±", "\xff\xfe", "- - 1", "1 bar -", "1 bar -1/", "0.5 ± 0"} {
		for d := range numDimensions {
			f.Add(s, uint8(d))
		}
	}
	f.Fuzz(func(t *testing.T, s string, d uint8) {
		q, err := Parse(s, Dimension(d%uint8(numDimensions)))
		if err != nil {
			require.NotEmpty(t, err.Kind)
			require.GreaterOrEqual(t, err.Offset, 0)
			require.LessOrEqual(t, err.Offset, len(s))
			require.NotEmpty(t, err.Error())
			return
		}
		for _, v := range []float64{q.Nominal, q.Low, q.High} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		}
		require.LessOrEqual(t, q.Low, q.Nominal)
		require.LessOrEqual(t, q.Nominal, q.High)
		require.True(t, q.Stated || q.Low == q.High)
	})
}
