// Package material reads what a part is made of from the words of a design. What is known to keep its strength up to 70 degC is a list,
// and so are the plastics that makers rate for compressed air; whatever is on none is not known at all. Each list says where it is from.
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
	Unknown             // a word that none of the lists has, or a part that may no longer have the strength of what it is made of
	Strong              // a metal: it keeps its strength up to 70 degC
	Tough               // polycarbonate: it loses little of it below 70 degC, and has a table of its own
	Soft                // another plastic that makers rate for compressed air: it loses much of its strength below 70 degC
	Rubber              // what hoses are made of: one is rated, a vessel of it is not known here
	Pipe                // PVC pipe: it never holds compressed gas here, and has a table of its own
	Never               // it never holds compressed gas here, whatever is printed on it: it shatters, it is layer-printed, it is no vessel
)

// Of tells the kind of a material by its words. One word that makes it worse decides over all others; a strong one counts only where
// all words beside it, up to the next comma, are known too: "steel-look resin" is no steel. A coat is not what a part is made of.
func Of(text string) Kind {
	all := uncoated(words(text))
	switch {
	case has(all, pipe[:]):
		return Pipe
	case has(all, never[:]), has(all, []string{"abs"}) && has(all, []string{"pipe", "tube"}), printed(all), brittle(all):
		return Never
	case !slices.ContainsFunc(all, func(w string) bool { return !slices.Contains(vague[:], w) }):
		return Unnamed
	case has(all, rubber[:]):
		return Rubber
	case has(all, flawed[:]), follows(all, []string{"pot", "white"}, []string{"metal"}):
		return Unknown
	case has(all, soft[:]):
		return Soft
	case has(all, plastic[:]) && !follows(all, []string{"no"}, plastic[:]):
		return Unknown // which one is not said
	}
	best := Unknown
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;:()/+&", r) }) {
		each := uncoated(words(part))
		foreign := func(w string) bool {
			return len([]rune(w)) > 1 && !slices.Contains(strong[:], w) && w != tough && !slices.Contains(beside[:], w)
		}
		switch {
		case slices.ContainsFunc(each, foreign):
		case slices.Contains(each, tough):
			return Tough // the weaker of both
		case has(each, strong[:]):
			best = Strong
		}
	}
	return best
}

// ForGas tells whether a rating of this material may hold for compressed gas.
func (k Kind) ForGas() bool { return k == Strong || k == Tough || k == Soft }

// Bars tells whether it never holds compressed gas here.
func (k Kind) Bars() bool { return k == Pipe || k == Never }

// Known names what is known to stay strong, for people to choose from.
func Known() string {
	return "steel, stainless steel, iron, aluminium, brass, bronze, copper, titanium, polycarbonate"
}

// KnownPlastics names the plastics that makers rate for compressed air, for people to choose from.
func KnownPlastics() string { return "ABS, polyethylene, polypropylene, nylon, acetal, polyurethane" }

// Has tells whether one of some words, in small letters, stands in a text.
func Has(text string, any ...string) bool { return has(words(text), any) }

func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
}

func has(all, any []string) bool {
	return slices.ContainsFunc(all, func(w string) bool { return slices.Contains(any, w) })
}

// follows tells whether one of some words stands right behind one of others.
func follows(all, first, then []string) bool {
	for i := 1; i < len(all); i++ {
		if slices.Contains(first, all[i-1]) && slices.Contains(then, all[i]) {
			return true
		}
	}
	return false
}

// uncoated leaves out what a part is only coated with: "epoxy-coated steel" is steel. A thing that is "coated with" something is what
// stands before it.
func uncoated(all []string) (out []string) {
	for i, w := range all {
		named := i+2 < len(all) && slices.Contains(coats[:], all[i+1]) &&
			!slices.Contains([]string{"with", "in", "by", "on"}, all[i+2])
		if !(named && slices.Contains(coatings[:], w)) {
			out = append(out, w)
		}
	}
	return out
}

// printed tells of a part that was built layer by layer: a rating that is printed on one is none.
func printed(all []string) bool {
	for i, w := range all {
		if w == "printed" && !(i > 0 && slices.Contains([]string{"rating", "label", "pressure", "date", "bar", "is"}, all[i-1])) {
			return true
		}
	}
	return follows(all, []string{"d", "layer"}, []string{"print", "prints"})
}

// brittle tells of glass that is no fibre in something else.
func brittle(all []string) bool {
	return has(all, []string{"glass"}) && !follows(all, []string{"glass"}, []string{"fibre", "fiber", "fibres", "fibers", "filled",
		"reinforced"})
}

// strong are metals, as they are written in English, American and German (general knowledge, no source; carbon steel keeps all of its
// strength up to 150 degC, aluminium alloys up to 65 to 100 degC: EN 13445, ASME VIII-1, from memory). Cast iron is brittle and is rated
// for gas all the same (malleable iron fittings: EN 10242, from memory). Zinc and what is cast of it creeps and gets brittle with age: it
// is not on the list.
var strong = [...]string{"steel", "stahl", "stainless", "edelstahl", "inox", "iron", "eisen", "aluminium", "aluminum", "alu", "brass",
	"messing", "bronze", "gunmetal", "copper", "kupfer", "titanium", "titan", "metal"}

// tough is the one plastic that vessels are made of for its heat resistance: it softens at 130 to 145 degC (handbooks, from memory).
const tough = "polycarbonate"

// beside are words that say no material, and none against one.
var beside = [...]string{"alloy", "carbon", "mild", "cast", "forged", "drawn", "rolled", "spun", "turned", "machined", "seamless", "welded",
	"brazed", "galvanised", "galvanized", "verzinkt", "anodised", "anodized", "eloxiert", "painted", "coated", "nickel", "chromed", "plated",
	"polished", "grade", "type", "en", "din", "iso", "astm", "aisi", "sae", "ss", "aw", "tube", "tubing", "pipe", "cylinder", "tank", "vessel",
	"receiver", "reservoir", "chamber", "pot", "plate", "sheet", "bar", "block", "wall", "thick", "mm", "inch", "made", "for", "gas", "air",
	"compressed", "with", "and", "of", "in", "the", "maker", "makers", "home", "homemade", "self", "new", "clear"}

// vague are words that name none.
var vague = [...]string{"plastic", "plastics", "kunststoff", "polymer", "metal",
	"something", "any", "various", "material", "some", "a", "declared"}

var plastic = [...]string{"plastic", "plastics", "kunststoff", "polymer"}

// coats are words for what only covers a part, coatings what it may be covered with.
var (
	coats    = [...]string{"coated", "painted", "plated", "lacquered", "enamelled", "enameled"}
	coatings = [...]string{"epoxy", "powder", "polyester", "zinc", "nylon", "ptfe", "enamel", "acrylic", "polyurethane", "rubber"}
)

// soft are the plastics that makers rate for compressed air, all of which lose much of their strength below 70 degC: pipe of ABS, PE and
// PP (their makers' tables of pressure over temperature), tubes of nylon and polyurethane (ISO 7628, DIN 73378), fittings of acetal; all
// from memory. Which of two it is, is not asked: the same table derates them.
var soft = [...]string{"abs", "polyethylene", "polyethene", "pe", "hdpe", "ldpe", "pex", "polypropylene", "pp", "ppr", "polyurethane", "pu",
	"pur", "nylon", "polyamide", "pa", "acetal", "pom", "polyoxymethylene"}

// rubber is what hoses and seals are made of, reinforced or not.
var rubber = [...]string{"rubber", "gummi", "silicone", "silicon", "latex", "epdm", "neoprene", "nitrile", "nbr", "elastomer", "tpu", "tpe",
	"vinyl", "hose", "hosepipe", "schlauch", "innertube", "tyre", "tire"}

// flawed are words for a part that may no longer have, or never had, the strength of what it is made of, and what is called like
// something that it is not. Plastics are among them that come from a printer as a rule (ASA, PETG, HIPS, resins) or whose parts nobody
// rates for gas: what they are has to be asked.
var flawed = [...]string{"rust", "rusty", "rusted", "rostig", "corroded", "corrosion", "pitted", "dent", "dented", "crack", "cracked",
	"scrap", "scrapped", "junk", "salvaged", "damaged", "repaired", "patched", "leaking", "leaky", "solder", "soldered",
	"resin", "resins", "epoxy", "polyester", "petg", "pet", "asa", "hips", "like", "look", "style", "effect", "imitation",
	"zinc", "zamak", "mazak", "pewter"}

var pipe = [...]string{"pvc", "cpvc", "upvc", "polyvinyl"}

// never are words for pipe (KG and HT are the drain pipe of German shops, Rohr its word for pipe), for other things from kitchen and
// workshop, and for plastics that no vessel for gas is made of: acrylic and polystyrene shatter as glass does; PLA softens at 55 to
// 60 degC (data sheets of filament, from memory), less than a car in the sun; and what is built layer by layer parts between its layers,
// and nobody rates it for gas, whatever it is printed of (common practice, no source).
var never = [...]string{"drain", "drainpipe", "waste", "soil", "sewer", "gutter", "downpipe", "bottle", "bottles", "flasche",
	"wasserflasche", "soda", "lemonade", "cardboard", "pappe", "tin", "jar", "balloon", "kg", "ht", "rohr", "wood", "wooden",
	"drinks", "cans", "holz", "plywood", "mdf", "bamboo", "ceramic", "concrete", "cement", "clay", "plaster", "paper", "glue", "foam",
	"acrylic", "acryl", "pmma", "plexiglass", "plexiglas", "perspex", "polystyrene", "styrene", "styrofoam",
	"pla", "printer", "gedruckt", "fdm", "fff", "sla", "sls", "mjf", "dlp", "filament"}
