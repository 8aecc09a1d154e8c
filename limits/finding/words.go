package finding

import (
	"slices"
	"strings"
	"unicode"
)

// Declared is a declaration without surrounding blanks; "" where it only says
// that there is none, or that it is still to come.
func Declared(text string) string {
	t := strings.TrimSpace(text)
	bare := strings.ToLower(strings.Trim(t, " .-?!"))
	switch bare {
	case "", "none", "no", "nobody", "nothing", "tba", "n/a", "n.a", "na", "unknown", "not known", "don't know", "dunno", "false", "x", "xxx":
		return ""
	}
	words := strings.Join(spoken(bare), " ")
	for _, found := range []string{"to be found", "to be seen", "to be heard", "to be felt"} { // "no cracks to be found" was looked for
		words = strings.ReplaceAll(words, found, "")
	}
	if mentions(strings.Fields(words), stillToCome) {
		return ""
	}
	return t
}

// Proves is a declaration that stands for an item until it is answered, without surrounding blanks; "" where it denies what the item asks,
// names a trouble, takes a part back or guesses, or tells of a tip what somebody felt. Where honest words are misread so, what they declare
// does not count.
func Proves(id, text string) string {
	t := Declared(text)
	words, of := spoken(t), affirmationOf(id)
	if t == "" || complains(of, words) || reserved(of, words) != "" || guessed(t) || id == ItemTip && mentions(words, impressions) ||
		id == ItemSealGuard && mentions(words, noGuard) && !mentions(words, letsAirPast) {
		return ""
	}
	return t
}

// noGuard are words of what a mouth closes upon as well as on the bare muzzle, and of what is only said to people; letsAirPast of what
// keeps letting air past whatever is held to it.
var (
	noGuard = []string{"rubber*", "soft", "softer", "foam*", "gasket*", "cushion*", "pad", "pads", "padded", "padding", "o ring", "silicone",
		"tell", "tells", "told", "telling", "warn*", "instruct*", "ask", "asks", "asked", "explain*", "watch*", "rule", "rules", "sign", "signs",
		"label*", "notice", "supervis*", "careful*", "forbid*", "forbidden", "agree*", "promise*", "know", "knows"}
	letsAirPast = []string{"slot*", "hole*", "bar", "bars", "cage*", "grid*", "grille*", "mesh", "wire*", "gap", "gaps", "notch*", "opening*",
		"window*", "cross", "slit*", "spoke*", "pins", "teeth", "crown*"}
)

// impressions are words of a test that nobody made with an instrument, and of one that is not made.
var impressions = []string{"thumb*", "finger*", "feel*", "felt", "think", "thought", "believe*", "looks", "undone", "not done",
	"cannot say"}

// stillToCome are words that say that what is declared does not exist yet.
var stillToCome = []string{"to be", "will be", "todo", "to do", "tbd", "fixme", "planned", "plan to", "later", "pending", "not yet", "soon",
	"missing", "under construction", "ordered"}

// People counts the different people of an answer's "AB, CD". A name has two letters or more and no digit; of two of which one
// begins with the other, as "AB" and "Abe", nobody can tell that they are two people.
func People(who string) int {
	var people []string
	for _, name := range Names(who) {
		if len([]rune(name)) > 1 && !strings.ContainsFunc(name, unicode.IsDigit) && !Known(people, name) {
			people = append(people, name)
		}
	}
	return len(people)
}

// Known tells whether a name may be one of some people.
func Known(people []string, name string) bool {
	return slices.ContainsFunc(people, func(p string) bool { return strings.HasPrefix(p, name) || strings.HasPrefix(name, p) })
}

// Names are the initials or names in an answer, in lower case, without what stands between them.
func Names(who string) (names []string) {
	for _, name := range strings.FieldsFunc(strings.ReplaceAll(who, " and ", ","), func(r rune) bool {
		return strings.ContainsRune(",;/&+",
			r)
	}) {
		plain := strings.Map(func(r rune) rune {
			if unicode.IsLetter(r) || unicode.IsDigit(r) {
				return unicode.ToLower(r)
			}
			return -1
		}, name)
		if plain != "" {
			names = append(names, plain)
		}
	}
	return names
}

// troubles are words that speak against any part or test; stems end with a star.
var troubles = []string{"fail*", "leak*", "hiss*", "bubbl*", "fired", "fires", "stuck", "sticks", "sticky", "jammed", "broke*", "crack*",
	"burst*", "blocked", "clog*", "iced", "loose*", "torn", "tore", "bent", "wrong*", "illegib*", "missing", "missed", "lack*", "lost",
	"skipped", "forgot*", "omitted", "absent", "damag*", "rust*", "corrod*", "split", "drip*", "wept", "weep*", "seep*", "nope", "trouble*",
	"problem*", "defect*", "except*", "ran on", "runs on", "run on", "kept on", "keeps on", "went on", "came off", "comes off", "fell off",
	"let go", "bit off", "hardly", "barely", "scarcely", "rarely", "un*"}

// harmless are words that begin as a trouble does, or have one in them, and are none.
var harmless = []string{"leak down", "leakdown", "leak test", "until", "under*", "unit*", "unplug*", "unload*", "unpowered", "uncharged",
	"unlike", "unchanged", "undamaged", "unbroken", "uncracked", "unhurt", "unobstructed", "unblocked", "universal", "union*", "unused",
	"relief valve", "safety valve", "nobody near", "nobody nearer", "nobody within", "nobody went near", "nobody behind", "nobody inside",
	"nobody else", "nobody there", "nobody in line", "nobody in front", "nobody in it", "nobody under", "nobody above"}

// denials are words that say that what follows is not so.
var denials = []string{"no", "not", "none", "nothing", "never", "without", "nowhere", "nobody", "nor", "neither"}

// deniable are things that it is well to have none of, without being a trouble by themselves.
var deniable = []string{"hard", "drop", "growth", "gap", "play", "movement", "sharp", "dirt", "stone*", "difference", "change", "hurt"}

// reach is how many words of a clause a denial bears on.
const reach = 4

// denies tells of an answer to an item that it says that nothing was done, or that the test failed.
func denies(id, text string) bool {
	words := spoken(text)
	return strings.TrimSpace(text) != "" && (Declared(text) == "" || complains(affirmationOf(id), words) || shortOf(words))
}

// complains tells whether words name a trouble of the part that was looked at, or deny what is asked. "no leak" is no complaint, "not
// empty" is one; nor is what an item asks to be denied. A text that is misread so leaves its item open, which hurts nobody.
func complains(of affirmation, words []string) bool {
	bad, good := slices.Concat(of.against, troubles), slices.Concat(of.yes, of.fine, harmless)
	denied, open := 0, false // so many words more a denial reaches, which has denied no trouble yet
	for i := 0; i < len(words); {
		asked, trouble := first(words[i:], good), first(words[i:], bad)
		denial := slices.Contains(denials, words[i])
		switch {
		case asked > 1 && words[i] == "and": // "vessel and valve" goes on
			i += asked
			continue
		case words[i] == stop || slices.Contains([]string{"but", "and", "then"}, words[i]):
			if open {
				return true
			}
			denied = 0
		case asked > 0:
			if slices.Contains(denials, words[i]) { // "no piece came off"
				denied = 1
			}
			if denied > 0 && (attempted(words[i+asked:]) || first(words[i+asked:], []string{"except*"}) > 0) { // "no cracks looked for"
				return true
			}
			if i += asked; denied > 0 && i < len(words) && slices.Contains([]string{"or", "nor"}, words[i]) { // "no tap or valve"
				denied = reach
			}
			continue
		case denial:
			if open {
				return true
			}
			denied, open = reach+1, true
		case trouble > 0:
			if denied == 0 || attempted(words[i+trouble:]) {
				return true
			}
			open = false
			i += trouble - 1
		case first(words[i:], deniable) > 0 || first(words[i:], of.doubt) > 0 || first(words[i:], doubtful) > 0:
			open = false
		}
		i++
		if denied = max(denied-1, 0); denied == 0 && open {
			return true
		}
	}
	return open
}

// attempted tells whether words begin with a test or a reading: "no leak test" denies that, and no leak.
func attempted(words []string) bool {
	return first(words, []string{"test*", "check*", "look*", "read*", "record*", "measure*", "tried", "try", "search*", "sought",
		"can be ruled", "ruled",
		"to be ruled"}) > 0
}

// guesses are words beside which a figure is no reading; more and less say no figure either.
var guesses = []string{"about", "approx*", "roughly", "circa", "ca", "nearly", "almost", "guess*", "estimat*", "assum*", "suppos*",
	"probabl*",
	"perhaps", "maybe", "presum*", "or more", "or so", "or less", "or higher", "or lower", "or above", "and more", "at least", "more than",
	"should be", "would be"}

// guessed tells whether an answer has a word of that kind.
func guessed(text string) bool {
	return mentions(spoken(strings.ReplaceAll(text, "~", " about ")), guesses)
}

// Telling counts the words of an answer that say something of what was seen: "all fine" has none, for it says as much of a launcher
// that nobody looked at. Numbers and what stands alone as a letter are no words.
func Telling(text string) (n int) {
	empty := []string{"ok", "okay", "fine", "good", "great", "well", "done", "yes", "yep", "seen", "saw", "checked", "check", "looked",
		"looks", "look", "tested", "test", "passed", "pass", "works", "worked", "all", "it", "is", "was", "are", "were", "the", "and", "as",
		"expected",
		"everything", "perfect", "perfectly", "right", "correct", "correctly", "super", "true", "sure", "very", "really", "just"}
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		letters := strings.ContainsFunc(word, unicode.IsLetter) && !strings.ContainsFunc(word, unicode.IsDigit)
		if letters && len([]rune(word)) > 1 && !slices.Contains(empty, word) {
			n++
		}
	}
	return n
}
