package app

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/interview"
	"puffproof/cmd/puffproof/internal/quantity"
)

// On a terminal each question is shown with what it accepts; how tells how to find out, a wrong answer and one that
// contradicts another are asked again, and at the end of the input the rest is not known.
func TestAskingOnATerminal(t *testing.T) {
	var shown bytes.Buffer
	answers := "bal\nball\nhow\n41\n41 mm\n43 mm\n150 mm\n4 g\ncompressor\n12 L/min\n4 bar\n2 L\nno\ncurrent\nCv 2\nno\nno\n" +
		"valve\n0.8 bar\n0.5 bar\n4 years\n3 m\nno\n" + "1 bar\n"
	a := &asking{call: &Call{}, from: linesOf(strings.NewReader(answers)), to: &shown, talk: interview.Begin(quantity.Metric)}
	data, err := a.converse(context.Background())
	require.NoError(t, err)
	assert.Contains(t, string(data), "\nrange = \"1 bar\"\n")
	for _, said := range []string{"What flies?\n  accepted: ball, rocket, dart\n> ", `not taken: is none of the answers: "bal"`,
		`did you mean "ball"?`, "Inside diameter of the barrel, calipers", "put the unit behind the number", "ends below pressure_switch.cut_out"} {
		assert.Contains(t, strings.Join(strings.Fields(shown.String()), " "), strings.Join(strings.Fields(said), " "))
	}
	for line := range strings.Lines(shown.String()) { // what is typed behind > ends its line
		assert.LessOrEqual(t, len([]rune(strings.TrimPrefix(line, "> "))), 81, line)
	}

	a = &asking{call: &Call{}, from: linesOf(strings.NewReader("ball\n")), to: &shown, talk: interview.Begin(quantity.Metric)}
	data, err = a.converse(context.Background())
	require.NoError(t, err)
	assert.Contains(t, string(data), `bore = "41.0 mm, template"`)
}

// An interrupt ends the conversation while it waits for an answer.
func TestAnInterruptEndsTheQuestions(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a := &asking{call: &Call{}, from: make(chan typed), talk: interview.Begin(quantity.Metric)}
	_, err := a.converse(ctx)
	require.ErrorIs(t, err, context.Canceled)
}
