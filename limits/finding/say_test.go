package finding_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
)

// A text keeps its figures typed wherever it is spliced in, and neighbouring words are one
// part.
func TestTextsKeepTheirFigures(t *testing.T) {
	p := finding.Bar(0.42e5)
	inner := finding.Say("from %s", p)
	text := finding.Say("%d of %s shots %s, %.1f %%", 2, finding.Words("5"), inner, 1.25)
	assert.Equal(t, "2 of 5 shots from 0.42 bar, 1.2 %", text.String())
	assert.Equal(t, finding.Text{{Words: "2 of 5 shots from "}, {Figure: &p}, {Words: ", 1.2 %"}}, text)
	longer := inner.Say("; %s", finding.Joule(0.5))
	assert.Equal(t, "from 0.42 bar; 0.50 J", longer.String())
	assert.Equal(t, "from 0.42 bar", inner.String(), "a text that is added to stays")
	assert.Equal(t, "a; b", finding.Notes(finding.Words("a"), nil, finding.Words("b")).String())
	assert.Nil(t, finding.Words(""))
	assert.Panics(t, func() { finding.Say("%s") }, "an argument is missing")
}

func TestTextsAreTrimmedAtTheirEnd(t *testing.T) {
	for _, c := range []struct {
		text finding.Text
		want string
	}{
		{finding.Words("it says. ."), "it says"},
		{finding.Say("up to %s. ", finding.Bar(1e5)), "up to 1.0 bar"},
		{finding.Say("up to %s", finding.Bar(1e5)), "up to 1.0 bar"},
		{nil, ""},
	} {
		assert.Equal(t, c.want, c.text.TrimEnd(". ").String())
	}
	whole := finding.Words("it says.")
	_ = whole.TrimEnd(".")
	assert.Equal(t, "it says.", whole.String(), "the text itself stays")
}

// One unit behind two figures, and a temperature from kelvins (0 degC is 273.15 K by
// definition, SI Brochure, 9th edition, 2.3.1).
func TestFiguresOfTexts(t *testing.T) {
	assert.Equal(t, "1 to 60 g", finding.Grams.Of(1e-3, 3).To(finding.Grams.Of(60e-3, 3)).String())
	assert.Equal(t, "50 degC", finding.Celsius.Of(323.15, 3).String())
	assert.Equal(t, "1013.25 hPa", finding.Hectopascals.Of(101325, 6).String())
	assert.Equal(t, "50 bar L", finding.BarLitres.Of(5000, 2).String())
	assert.Equal(t, "0.43 bar", finding.WorstBar(0.4201e5).String(), "never below the figure")
	assert.Equal(t, "0.42 bar", finding.Bar(0.4201e5).String())
}

// A condition keeps value, limit and margin; an answer without figures has no condition
// either.
func TestAConditionKeepsTheFigures(t *testing.T) {
	v := finding.NewVerdict(finding.MuzzleSealed, "asked", finding.InPascalGauge)
	v.Judge(2, 1)
	v.HoldsWhile(finding.Words("the guard stays on"), finding.ItemSealGuard)
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, finding.OnProcedure, v.Basis)
	assert.Equal(t, []float64{2, 1, -1}, []float64{*v.Value, *v.Limit, *v.Margin})
	v.Unknown(finding.Words("it was not computed"))
	assert.Nil(t, v.Condition)
	assert.Nil(t, v.Items)
	assert.Nil(t, v.Value)
}

// What is no number is not known, and has no unit with which it would look like a figure.
func TestNoSentenceHasANumberThatIsNone(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.Equal(t, "not known", finding.Significant(v, 3))
		assert.Equal(t, "about not known", finding.Say("about %s", finding.Speed(v)).String())
	}
}

// A key that a text names is found again wherever the text went, and its words are as they would be without.
func TestATextKnowsTheKeysThatItNames(t *testing.T) {
	missing := finding.Join([]finding.Text{finding.Key("gauge.range"), finding.KeyAs("venting.within", "[venting] within").Say(" (how long)"),
		finding.Key("gauge.range")}, ", ")
	whole := finding.Notes(finding.Say("missing: %s", missing), finding.Words("barrel.bore is stated"),
		finding.OneIsWrong()).And(finding.Words("."))
	assert.Equal(t, "missing: gauge.range, [venting] within (how long), gauge.range; barrel.bore is stated; one of the two is wrong.",
		whole.String())
	assert.Equal(t, []string{"gauge.range", "venting.within"}, whole.Keys())
	assert.True(t, whole.Contradicts())
	assert.False(t, missing.Contradicts())
	assert.Equal(t, "gauge.range", finding.Key("gauge.range").TrimEnd("e").String(), "a key is never cut")
	assert.Equal(t, finding.Text{{Words: "a b"}}, finding.Words("a").And(finding.Words(" b")), "neighbouring words are one part")
}
