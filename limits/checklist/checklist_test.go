package checklist

import (
	"puffproof/limits/finding"
	"testing"

	"github.com/stretchr/testify/require"
)

func itemIn(t *testing.T, items []finding.Item, id string) finding.Item {
	t.Helper()
	for _, it := range items {
		if it.ID == id {
			return it
		}
	}
	require.Fail(t, "no item "+id)
	return finding.Item{}
}
