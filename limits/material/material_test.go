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
			"home-made, steel", "carbon steel, welded", "steel (EN 286)", "declared: a metal made for gas, no water pipe", "cast iron",
			"galvanised steel pipe", "titanium", "epoxy-coated steel", "powder coated steel tank", "zinc plated steel",
			"steel, acrylic painted tank",
			"rubber coated steel", "steel, rating printed on the plate", "brass, no plastic"},
		Tough: {"polycarbonate", "polycarbonate, maker's gas rating attached", "clear polycarbonate tube", "steel and polycarbonate",
			"aluminium, polycarbonate"},
		Soft: {"ABS", "acetal, a plastic", "acetal", "POM", "polyurethane", "brass and nylon", "painted PP", "HDPE",
			"PE 100", "nylon", "PA12"},
		Rubber: {"rubber", "steel-reinforced rubber", "rubber hose", "silicone", "hose", "TPU",
			"steel tank with rubber ends", "rubber, steel",
			"rubber coated", "coated rubber"},
		Pipe: {"PVC", "cPVC", "PVC-U, grey", "polyvinyl chloride", "steel and PVC", "steel with PVC ends", "steel-grey PVC",
			"galvanised steel, inner liner PVC", "epoxy coated PVC"},
		Never: {"drain pipe", "HT waste pipe", "orange KG pipe", "HT-Rohr", "wood and glue", "old paint tin",
			"lemonade bottle", "ABS tube",
			"Wasserflasche", "jam jar", "balloon", "plywood", "paper tube", "PET bottle", "glass", "aluminium drinks can", "concrete",
			"3D printed PLA", "PLA", "PLA-coated steel", "PLA coated with epoxy", "3D-printed nylon",
			"resin (SLA printed)", "printed ABS",
			"PETG, printed on my own", "polycarbonate filament", "acrylic", "clear acrylic", "PMMA", "Perspex",
			"plexiglass", "polystyrene",
			"steel with acrylic ends", "Pappe", "printed titanium", "3D print"},
		Unknown: {"Kanalgrundrohr", "steel-look resin", "no steel", "like steel", "carbon fibre", "stell",
			"steelish", "сталь", "resin", "epoxy", "fibreglass", "glass fibre reinforced", "glass-filled nylon-like resin",
			"ABS-like resin",
			"PETG", "ASA", "HIPS", "zinc", "pot metal", "white metal", "zamak", "steel, rusty, from a scrap yard",
			"copper pipe, soft soldered",
			"dented aluminium", "cast iron, cracked", "cracked ABS", "steel or plastic", "plastic, steel",
			"galvanised pipe", "aluminium can",
			"epoxy coated", "steel-coated epoxy"},
		Unnamed: {"", "?", "plastic", " Metal ", "declared", "42", "some metal", "Kunststoff"},
	} {
		for _, text := range texts {
			assert.Equal(t, kind, Of(text), "%q", text)
		}
	}
}

// What people are told to write is known when they write it.
func TestWhatIsNamedIsKnown(t *testing.T) {
	for _, text := range strings.Split(Known(), ", ") {
		want := Strong
		if text == tough {
			want = Tough
		}
		assert.Equal(t, want, Of(text), text)
	}
	for _, text := range strings.Split(KnownPlastics(), ", ") {
		assert.Equal(t, Soft, Of(text), text)
	}
	for k, gas := range map[Kind]bool{Unnamed: false, Unknown: false, Strong: true, Tough: true, Soft: true, Rubber: false, Pipe: false,
		Never: false} {
		assert.Equal(t, gas, k.ForGas())
		assert.Equal(t, k == Pipe || k == Never, k.Bars())
	}
}

// No word stands in two lists that contradict each other.
func TestTheListsDoNotOverlap(t *testing.T) {
	lists := [][]string{strong[:], {tough}, soft[:], rubber[:], flawed[:], pipe[:], never[:], beside[:]}
	for i, one := range lists {
		for _, w := range one {
			for _, other := range lists[i+1:] {
				assert.NotContains(t, other, w)
			}
		}
	}
}
