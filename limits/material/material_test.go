package material

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is made of what is general knowledge; a word that nobody knows is never taken for something strong.
func TestWhatWordsSayOfAMaterial(t *testing.T) {
	for kind, texts := range map[Kind][]string{
		Strong: {"steel", "Stainless steel", "Edelstahl", "aluminium", "Aluminum 6061-T6", "alu", "Messing", "declared: steel",
			"home-made, steel", "polycarbonate, maker's gas rating attached", "carbon steel, welded", "steel (EN 286)",
			"declared: a metal made for gas, no water pipe"},
		Soft: {"ABS", "clear acrylic", "3D printed PLA", "acetal, a plastic", "polyurethane", "Perspex", "steel or plastic", "brass and nylon",
			"rubber", "painted PP"},
		Pipe: {"PVC", "cPVC", "PVC-U, grey", "polyvinyl chloride", "steel and PVC"},
		Never: {"drain pipe", "HT waste pipe", "orange KG pipe", "HT-Rohr", "wood and glue", "old paint tin", "lemonade bottle", "ABS tube",
			"Wasserflasche", "jam jar", "balloon", "plywood", "paper tube"},
		Unknown: {"acetal", "Kanalgrundrohr", "Pappe", "steel-look resin", "no steel", "like steel", "carbon fibre", "stell",
			"steelish", "сталь",
			"steel, rusty, from a scrap yard", "copper pipe, soft soldered", "dented aluminium"},
		Unnamed: {"", "?", "plastic", " Metal ", "declared", "42", "some metal"},
	} {
		for _, text := range texts {
			assert.Equal(t, kind, Of(text), "%q", text)
		}
	}
}

// What people are told to write is known when they write it.
func TestWhatIsNamedIsKnown(t *testing.T) {
	for _, text := range strings.Split(Known(), ", ") {
		assert.Equal(t, Strong, Of(text), text)
	}
	for k, gas := range map[Kind]bool{Unnamed: false, Unknown: false, Strong: true, Soft: true, Pipe: false, Never: false} {
		assert.Equal(t, gas, k.ForGas())
		assert.Equal(t, k == Pipe || k == Never, k.Bars())
	}
}

// No word stands in two lists that contradict each other.
func TestTheListsDoNotOverlap(t *testing.T) {
	for _, w := range strong {
		for _, worse := range [][]string{soft[:], pipe[:], never[:]} {
			assert.NotContains(t, worse, w)
		}
	}
	for _, w := range beside {
		for _, worse := range [][]string{strong[:], soft[:], pipe[:], never[:]} {
			assert.NotContains(t, worse, w)
		}
	}
}
