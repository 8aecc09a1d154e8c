// Package material reads what a part is made of from the words of a design. What is known to keep its strength up to 70 degC is a list;
// whatever is not on it counts as what softens early, or is not known at all. The lists are general knowledge, no source.
package material

import (
	"slices"
	"strings"
	"unicode"
)

// Kind is what is known of a material.
type Kind uint8

// The kinds.
const (
	Unnamed Kind = iota // no material is named
	Unknown             // a word that none of the lists has
	Strong              // keeps its strength up to 70 degC
	Soft                // a plastic, PVC apart, that loses much of it below 70 degC, or one that is not named
	Pipe                // PVC pipe: it never holds compressed gas here, and has a table of its own
	Never               // pipe for water and things of the household: they never hold compressed gas here, whatever is printed on them
)

// Of tells the kind of a material by its words. One word that makes it worse decides over all others; a strong one counts only where
// all words beside it, up to the next comma, are known too: "steel-look resin" is no steel.
func Of(text string) Kind {
	switch all := words(text); {
	case has(all, pipe[:]):
		return Pipe
	case has(all, never[:]), has(all, []string{"abs"}) && has(all, []string{"pipe", "tube"}):
		return Never
	case !slices.ContainsFunc(all, func(w string) bool { return !slices.Contains(vague[:], w) }):
		return Unnamed
	case has(all, soft[:]):
		return Soft
	case has(all, flawed[:]):
		return Unknown
	}
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;:()/+&", r) }) {
		each := words(part)
		foreign := func(w string) bool {
			return len([]rune(w)) > 1 && !slices.Contains(strong[:], w) && !slices.Contains(beside[:], w)
		}
		if has(each, strong[:]) && !slices.ContainsFunc(each, foreign) {
			return Strong
		}
	}
	return Unknown
}

// ForGas tells whether a rating of this material may hold for compressed gas.
func (k Kind) ForGas() bool { return k == Strong || k == Soft }

// Bars tells whether it never holds compressed gas here.
func (k Kind) Bars() bool { return k == Pipe || k == Never }

// Known names what is known to stay strong, for people to choose from.
func Known() string {
	return "steel, stainless steel, iron, aluminium, brass, bronze, copper, titanium, polycarbonate"
}

// Has tells whether one of some words, in small letters, stands in a text.
func Has(text string, any ...string) bool { return has(words(text), any) }

func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
}

func has(all, any []string) bool {
	return slices.ContainsFunc(all, func(w string) bool { return slices.Contains(any, w) })
}

// strong are metals, as they are written in English, American and German, and the one plastic that vessels are made of for its heat
// resistance.
var strong = [...]string{"steel", "stahl", "stainless", "edelstahl", "inox", "iron", "eisen", "aluminium", "aluminum", "alu", "brass",
	"messing", "bronze", "gunmetal", "copper", "kupfer", "titanium", "titan", "metal", "polycarbonate"}

// beside are words that say no material, and none against one.
var beside = [...]string{"alloy", "carbon", "mild", "cast", "forged", "drawn", "rolled", "spun", "turned", "machined", "seamless", "welded",
	"brazed", "galvanised", "galvanized", "verzinkt", "anodised", "anodized", "eloxiert", "painted", "coated", "nickel", "chromed", "plated",
	"polished", "grade", "type", "en", "din", "iso", "astm", "aisi", "sae", "ss", "aw", "tube", "tubing", "pipe", "cylinder", "tank", "vessel",
	"receiver", "reservoir", "chamber", "pot", "plate", "sheet", "bar", "block", "wall", "thick", "mm", "inch", "made", "for", "gas", "air",
	"compressed", "with", "and", "of", "in", "the", "maker", "makers", "home", "homemade", "self", "new", "clear"}

// vague are words that name none.
var vague = [...]string{"plastic", "metal", "something", "any", "various", "material", "some", "a", "declared"}

// soft are plastics that lose much of their strength below 70 degC, and whatever is only called one.
var soft = [...]string{"abs", "acrylic", "pmma", "polyethylene", "polyethene", "pe", "hdpe", "ldpe", "pex", "polypropylene", "pp",
	"polystyrene", "pla", "petg", "pet", "printed", "plastic", "polyurethane", "pu", "nylon", "polyamide", "plexiglass", "plexiglas",
	"perspex", "vinyl", "rubber", "silicone", "latex"}

// flawed are words for a part that may no longer have, or never had, the strength of what it is made of.
var flawed = [...]string{"rust", "rusty", "rusted", "rostig", "corroded", "corrosion", "pitted", "dent", "dented", "crack", "cracked",
	"scrap", "scrapped", "junk", "salvaged", "damaged", "repaired", "patched", "leaking", "leaky", "solder", "soldered"}

var pipe = [...]string{"pvc", "cpvc", "upvc", "polyvinyl"}

// never are words for pipe (KG and HT are the drain pipe of German shops, Rohr its word for pipe), and for other things from kitchen and
// workshop.
var never = [...]string{"drain", "drainpipe", "waste", "soil", "sewer", "gutter", "downpipe", "glass", "bottle", "bottles", "flasche",
	"wasserflasche", "soda", "lemonade", "cardboard", "tin", "jar", "balloon", "kg", "ht", "rohr", "wood", "wooden", "plywood", "bamboo",
	"ceramic", "paper", "glue"}
