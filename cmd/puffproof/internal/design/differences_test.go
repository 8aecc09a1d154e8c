package design

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What two files write differently, key by key, in the order of the file. The two are written
// here; they need not be whole designs to differ.
func TestDifferences(t *testing.T) {
	a := &Editable{data: []byte(`name = "one"
[volumes.tank]
volume = "2 L"
rated_for_gas = true
[paths."a.b"]
hose = { bore = "4 mm", length = "1 m" }
open_in = [
  "firing",
]
[[gauge]]
on = "tank"
[barrel]
bore = "40 mm"
`)}
	b := &Editable{data: []byte(strings.NewReplacer("2 L", "2000 mL", "true", "false # said the shop", `"1 m"`, `"2 m"`,
		"[[gauge]]", "[gauge]", `on = "tank"`, "on = \"tank\"\nrange = \"1 bar\"", "\nbore = \"40 mm\"", "").Replace(string(a.data)))}
	var said []string
	for _, d := range Differences(a, b) {
		said = append(said, d.Key+": "+orNone(d.A)+" | "+orNone(d.B))
	}
	assert.Equal(t, []string{"volumes.tank.volume: 2 L | 2000 mL", "volumes.tank.rated_for_gas: true | false",
		`paths."a.b".hose.length: 1 m | 2 m`, "gauge.range: - | 1 bar", "barrel.bore: 40 mm | -"}, said)
	assert.Empty(t, Differences(a, a))
	var back []string
	for _, d := range Differences(b, a) {
		back = append(back, d.Key+": "+orNone(d.B)+" | "+orNone(d.A))
	}
	assert.ElementsMatch(t, said, back, "the other way round the same keys differ")
}

func orNone(v *string) string {
	if v == nil {
		return "-"
	}
	return *v
}
