package design

import (
	"regexp"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/finding"
)

// teachIn says what the key is, and missingIn what goes without it, in the reader's units.
func (k *key) teachIn(u quantity.System) string { return filled(u, k.teach, k.teachOf) }

func (k *key) missingIn(u quantity.System) string { return filled(u, k.missing, k.missingOf) }

// filled puts figures into a text; one without figures stands as it is.
func filled(u quantity.System, text string, figures []finding.Shown) string {
	if len(figures) == 0 {
		return text
	}
	args := make([]any, len(figures))
	for i, f := range figures {
		args[i] = f
	}
	return u.Text(finding.Say(text, args...))
}

// exampleIn is the example of a key as the reader would write it.
func (k *key) exampleIn(u quantity.System) string {
	if u == quantity.US && k.exampleUS != "" {
		return k.exampleUS
	}
	return u.Example(k.example)
}

// exampleUnit is the unit of the example.
func (k *key) exampleUnit(u quantity.System) string {
	m := regexp.MustCompile(`^"[-.0-9]+ ([^±,"-]*[^±,"\s-])`).FindStringSubmatch(k.exampleIn(u))
	if m == nil {
		return "UNIT"
	}
	return m[1]
}
