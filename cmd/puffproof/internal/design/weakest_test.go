package design

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// What an example shoots is shot by its weakest launcher too: who builds one from it is not left with a projectile that stays in
// the barrel.
func TestTheWeakestOfAnExampleLeaves(t *testing.T) {
	for _, name := range []string{"whale", "rocket", "soapbox"} {
		w, err := worst.FindWeakest(t.Context(), read(t, demo(t, name+".toml")), search.Options{Budget: 600})
		require.NoError(t, err)
		require.True(t, w.Known, name)
		assert.True(t, w.Leaves, "%s: %.2f m/s", name, w.Speed)
	}
}
