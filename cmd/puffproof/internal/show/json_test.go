package show

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type word string

// The text is what RFC 8259 makes of it; that a list without items is no null, and
// a figure that is none is, is the contract of the documents.
func TestDocumentKeepsTheOrderOfKeys(t *testing.T) {
	three := 3.0
	got, err := Document(Fields(
		"z", word("pass"), "a", 0.1, "none", (*float64)(nil), "three", &three, "whole", 2, "yes", true, "text", "<é> & \"q\"",
		"never", Finite(math.Inf(1)), "unknown", Known(math.NaN()), "known", Known(5), "silent", Said(""), "said", Said("x"),
		"object", Fields("b", 1, "a", 2), "nothing", Object(nil), "list", List([]int{1, 2}, func(n int) Object { return Fields("n", n) }),
		"empty", List(nil, func(n int) Object { return Fields("n", n) }), "words", []string{"w"}, "noWords", []string(nil), "map",
		map[string]float64{"b": 1, "a": 2}))
	require.NoError(t, err)
	assert.Equal(t, `{"z":"pass","a":0.1,"none":null,"three":3,"whole":2,"yes":true,"text":"<é> & \"q\"",`+
		`"never":null,"unknown":null,"known":5,"silent":null,"said":"x",`+
		`"object":{"b":1,"a":2},"nothing":null,"list":[{"n":1},{"n":2}],"empty":[],"words":["w"],"noWords":[],"map":{"a":2,"b":1}}`, string(got))
	assert.True(t, json.Valid(got))
}

// A figure that is no number withholds the document, wherever it stands; infinity
// is known, so Known does not hide it.
func TestDocumentRefusesAFigureThatIsNoNumber(t *testing.T) {
	for _, bad := range []any{math.NaN(), math.Inf(-1), Known(math.Inf(1)), []float64{1, math.NaN()}, Fields("deep", math.NaN()),
		[]Object{Fields("v", math.Inf(1))}} {
		_, err := Document(Fields("good", 1.0, "bad", bad))
		assert.ErrorContains(t, err, "a figure is no number")
	}
}

func TestFieldsWithoutAValueAreTheCallersBug(t *testing.T) {
	odd := []any{"a", 1, "b"} // written out, staticcheck finds it (SA5012)
	assert.PanicsWithValue(t, "show: the last key has no value", func() { Fields(odd...) })
	assert.Panics(t, func() { Fields(1, "a") })
}

func TestJSONCannotSteerATerminal(t *testing.T) {
	in := "\x1b[2J\u009b\u202e\u200b\U000E0041é漢👩"
	var b strings.Builder
	require.NoError(t, WriteJSON(&b, Fields("k", in).mustDocument(t)))
	for _, r := range b.String() {
		assert.False(t, r == 0x1b || r == 0x9b || r == 0x202e || r == 0xE0041, "%U", r)
	}
	assert.Contains(t, b.String(), "{\n  \"k\": \"")
	assert.Contains(t, b.String(), "é漢👩")
	var back map[string]string
	require.NoError(t, json.Unmarshal([]byte(b.String()), &back))
	assert.Equal(t, in, back["k"])
}

func (o Object) mustDocument(t *testing.T) json.RawMessage {
	t.Helper()
	data, err := Document(o)
	require.NoError(t, err)
	return data
}
