package interview

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/quantity"
)

// On a terminal each question is shown with what it accepts; how tells how to find out, a wrong answer and one that
// contradicts another are asked again, and at the end of the input the rest is not known.
func TestAskingOnATerminal(t *testing.T) {
	var shown bytes.Buffer
	answers := "bal\nball\nhow\n41\n41 mm\n43 mm\n150 mm\n4 g\ncompressor\n12 L/min\n4 bar\n2 L\nno\ncurrent\nCv 2\nno\nno\n" +
		"valve\n0.8 bar\n0.5 bar\n4 years\n3 m\nno\n" + "1 bar\n"
	data, problems, err := Converse(context.Background(), strings.NewReader(answers), &shown, io.Discard, quantity.Metric)
	require.NoError(t, err)
	require.Empty(t, problems)
	assert.Contains(t, string(data), "\nrange = \"1 bar\"\n")
	for _, said := range []string{"What flies?\n  accepted: ball, rocket, dart\n> ", `not taken: is none of the answers: "bal"`,
		`did you mean "ball"?`, "Inside diameter of the barrel, calipers", "put the unit behind the number",
		"ends below pressure_switch.cut_out"} {
		assert.Contains(t, strings.Join(strings.Fields(shown.String()), " "), strings.Join(strings.Fields(said), " "))
	}
	for line := range strings.Lines(shown.String()) { // what is typed behind > ends its line
		assert.LessOrEqual(t, len([]rune(strings.TrimPrefix(line, "> "))), 81, line)
	}

	data, _, err = Converse(context.Background(), strings.NewReader("ball\n"), &shown, io.Discard, quantity.Metric)
	require.NoError(t, err)
	assert.Contains(t, string(data), `bore = "41.0 mm, template"`)
}

// In a pipe how tells the way to find it out beside its question, as on a terminal, and the next line is the answer; the questions that
// nobody asked how of are not shown.
func TestHowInAPipe(t *testing.T) {
	var aside bytes.Buffer
	data, problems, err := Converse(context.Background(), strings.NewReader("ball\n How \n41 mm\n"), nil, &aside, quantity.Metric)
	require.NoError(t, err)
	require.Empty(t, problems)
	assert.Contains(t, string(data), `bore = "41 mm"`)
	said := strings.Join(strings.Fields(aside.String()), " ")
	assert.Contains(t, said, "Inside diameter of the barrel, calipers")
	assert.NotContains(t, said, "What flies?")
	assert.Equal(t, 1, strings.Count(said, "?"), "the one question: %s", said)
}

// An input without an answer makes no file, in a pipe or on a terminal: neither one that is empty nor one of blanks and remarks. That
// nothing is known is an answer.
func TestNoAnswerMakesNoFile(t *testing.T) {
	for _, to := range []io.Writer{nil, io.Discard} {
		for _, in := range []string{"", "\n", " \n\n", "# nothing\n"} {
			data, problems, err := Converse(context.Background(), strings.NewReader(in), to, io.Discard, quantity.Metric)
			require.ErrorIs(t, err, ErrNothingSaid, "%q", in)
			assert.Empty(t, problems)
			assert.Empty(t, data)
		}
		_, _, err := Converse(context.Background(), strings.NewReader("?\n"), to, io.Discard, quantity.Metric)
		require.NoError(t, err)
	}
}

// An interrupt ends the conversation while it waits for an answer.
func TestAnInterruptEndsTheQuestions(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a := &asking{from: make(chan inputfile.Line), talk: Begin(quantity.Metric)}
	_, _, err := a.converse(ctx)
	require.ErrorIs(t, err, context.Canceled)
}

// In a pipe lines too many that tell nothing are let pass, without end too; each other is told with its line, some twenty at most.
func TestLinesTooMany(t *testing.T) {
	told := func(in io.Reader) (lines []int) {
		_, problems, err := Converse(context.Background(), in, nil, io.Discard, quantity.Metric)
		require.NoError(t, err)
		for _, p := range problems {
			require.Equal(t, "is an answer to no question", p.Message)
			lines = append(lines, p.Line)
		}
		return lines
	}
	const all = "ball\n" + "?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n?\n"
	assert.Empty(t, told(strings.NewReader(all+"?\n\n ? \n# a remark\n")))
	assert.Equal(t, []int{21, 24}, told(strings.NewReader(all+"and\n?\n\nmore\n")))
	assert.Empty(t, told(endless("?\n")))
	assert.Len(t, told(io.MultiReader(strings.NewReader(all), endless("y\n"))), mostTold)
}

// endless is an input that says the same for ever.
type endless string

func (e endless) Read(p []byte) (int, error) { return copy(p, e), nil }

// A line that is longer than any answer ends the conversation: nothing is guessed of it.
func TestALineTooLongToBeAnAnswer(t *testing.T) {
	_, _, err := Converse(context.Background(), strings.NewReader("ball\n"+strings.Repeat("4", 4*longestAnswer)+"\n"), nil, io.Discard,
		quantity.Metric)
	require.ErrorContains(t, err, "line 2: ")
}
