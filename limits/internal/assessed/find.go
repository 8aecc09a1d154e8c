package assessed

import (
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// Verdict is the one verdict of an identifier.
func Verdict(t testing.TB, all []finding.Verdict, id string) finding.Verdict {
	t.Helper()
	return one(t, all, "verdict "+id, func(v finding.Verdict) bool { return v.ID == id })
}

// Item is the one item of an identifier.
func Item(t testing.TB, all []finding.Item, id string) finding.Item {
	t.Helper()
	return one(t, all, "item "+id, func(it finding.Item) bool { return it.ID == id })
}

// Fault is the one fault of an identifier.
func Fault(t testing.TB, all []fault.Result, id string) fault.Result {
	t.Helper()
	return one(t, all, "fault "+id, func(f fault.Result) bool { return f.ID == id })
}

func one[T any](t testing.TB, all []T, name string, is func(T) bool) T {
	t.Helper()
	var found []T
	for _, v := range all {
		if is(v) {
			found = append(found, v)
		}
	}
	require.Len(t, found, 1, name)
	return found[0]
}
