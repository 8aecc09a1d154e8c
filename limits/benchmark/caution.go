package benchmark

// Statement is one sentence or two that reports print, with its source.
type Statement struct {
	Text   string
	Source string // empty: the project's own words
}

// Scope says what the figures of a report are. Every report prints it.
func Scope() []Statement {
	return []Statement{
		{"EU and UK toy law excludes guns and pistols that use compressed gas. Toy figures are used here as voluntary benchmarks; meeting them " +
			"gives no approval of any kind.",
			"Directive 2009/48/EC Annex I; UK SI 2011/1881 Sch. 1 para 10 (V: read in the primary text)"},
		{"Local law decides whether a launcher is a weapon. For information: German law speaks of toys up to 0.5 J, UK law of lethal barrelled " +
			"weapons above 1 J at the muzzle, US law asks for marks on look-alikes.",
			"WaffG Anlage 2 Abschn. 3 UA 2 Nr. 1; Firearms Act 1968 s. 57(1B); 16 CFR 1272 (V: read in the primary text)"},
		{"Each limit names its document, clause and evidence: V read in the primary text, V2 in a secondary text, C own arithmetic, M from " +
			"memory.", ""},
	}
}

// Cautions are printed, short, by check and by every report.
func Cautions() []Statement {
	return []Statement{
		{"The figures are published benchmarks, used voluntarily. Local law, local codes and a licensed engineer go before this program.", ""},
		{"Everyone near the launcher wears eye protection.", ""},
		{"One named adult is in charge and keeps the key and the stop.", ""},
		{"Never load anything but the projectile.", ""},
		{"Plastic pipe that is not rated for gas is not a pressure vessel: it bursts into splinters.", BenchmarkOf(PlasticPipeGas).Source()},
		{"Passing a benchmark is not harmless: published data put the 50 % chance of a corneal abrasion near 1500 J/m2. No figure for children " +
			"was found.", BenchmarkOf(EyeCornealAbrasion).Source()},
	}
}

// CautionsInShort names the three of Cautions that stand where there is one line for them.
func CautionsInShort() string {
	return "Wear eye protection; unrated plastic pipe bursts; local law first."
}

// EyeInjuries stands beside every figure on the eye: a ratio to a published risk is not all that is published.
func EyeInjuries() Statement {
	return Statement{"Toy launchers of foam have injured eyes at close range, of a child and of adults: blood in the front chamber, a " +
		"swollen cornea, a bruised retina. A small multiple is not harmless.",
		"case reports, BMJ Case Reports, 2017 (M: from memory, to be looked up)"}
}
