package show

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestCleanShowsWhatItRemoves(t *testing.T) {
	for in, want := range map[string]string{
		"plain ± 3 %":              "plain ± 3 %",
		"\x1b[31mred":              "<U+001B>[31mred",
		"a\u202eb":                 "a<U+202E>b",
		"a\u009bb":                 "a<U+009B>b",
		"a\nb\tc":                  "a b c",
		"bad\xffbyte":              "bad<0xFF>byte",
		"real \ufffd mark":         "real \ufffd mark",
		"👩\u200d🚀":                 "👩🚀",
		"e\u0301":                  "e\u0301",
		"\u05e9\u05dc\u05d5\u05dd": "\u05e9\u05dc\u05d5\u05dd",
		"":                         "",
	} {
		assert.Equal(t, want, Clean(in), "%q", in)
	}
}
