package limits

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func itemIn(t *testing.T, items []Item, id string) Item {
	t.Helper()
	for _, it := range items {
		if it.ID == id {
			return it
		}
	}
	require.Fail(t, "no item "+id)
	return Item{}
}
