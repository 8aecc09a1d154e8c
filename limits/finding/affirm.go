package finding

import (
	"slices"
	"strings"
	"unicode"
)

// affirmation is how the words of an answer to an item are read. Own rule of this project, no source.
type affirmation struct {
	// yes are phrases of which an answer in words has at least one; what is negated in them is what is asked. A word of the text may
	// be longer where the phrase ends with a star.
	yes []string
	// against are words that speak against what is asked, unless they are denied; they too may end with a star.
	against []string
	// doubt are words beside which nobody knows whether it was as it should be, unless they are denied: such an answer is none.
	doubt []string
	// fine are phrases that would be read as a denial or a doubt, and are none here.
	fine []string
	// beside are words of which an answer with figures has at least one: a figure alone leaves out what it is for.
	beside []string
}

// elsewhere are places where what is asked to be on the launcher does nothing.
var elsewhere = []string{"in the box", "inside the box", "in a box", "in the bag", "in the car", "in the shed", "in the drawer",
	"in my pocket",
	"in the pocket", "at home", "on the desk", "on the bench", "in the lorry", "in the van", "in the truck", "in the trailer"}

// affirmations are those of the items that are told in words, and of those with figures beside which such words are usual.
var affirmations = map[string]affirmation{
	ItemAgeRetire: {yes: []string{"no crack*", "nothing past", "none past", "intact", "whole", "sound"}, against: []string{"past",
		"expired"},
		doubt: []string{"under the tape", "under the paint", "its years", "hairline", "for its age", "to speak of", "saving", "ten years old",
			"asleep", "bubble in", "gone soft",
			"lies in", "dent*", "scratch*", "perish*", "brittle", "crumbl*", "hardened", "bulg*", "frayed",
			"kink*", "worn",
			"peel*", "flak*",
			"swollen", "too old", "past the first", "glance"},
		fine: []string{"bent every hose*", "bent each hose*", "bent the hose*", "bent all hose*"}},
	ItemEndCaps: {yes: []string{"fully in", "threads in", "seated", "hold", "holds", "held", "tight"}, against: []string{"off",
		"moved"},
		doubt: []string{"one cap", "strap*", "pushed in", "with wire", "wired", "open", "gap", "low pressure", "tape*", "glue*", "by hand",
			"hold it",
			"tilt*", "turned when", "turns when", "turned by", "askew", "cross threaded", "stripped", "wobbl*", "one side", "tight squeeze",
			"on the sofa"},
		fine: []string{"not move", "not be moved", "nothing moved", "not turn", "not be turned", "pulled by hand", "tugged by hand",
			"tried by hand", "taped thread*", "thread tape"}},
	ItemHoseRestraint: {yes: []string{"clipped", "clips", "restrained", "sleeved", "held", "hold"}, against: []string{"off"},
		doubt: append([]string{"foot", "rider s", "alphabet", "one side", "tissue", "in my hand", "in the hand", "one metre", "two metres",
			"three metres", "one end", "can be pulled",
			"open", "string", "weight", "by hand", "hold it", "whip*", "slip*", "came out", "the other", "to nothing", "while it runs",
			"tape*"}, elsewhere...),
		fine: []string{"nothing slid", "nothing slipped", "nothing moved", "nothing gave", "pulled by hand", "tugged by hand",
			"each fitting by hand", "the other end"}},
	ItemReliefShutOff: {yes: []string{"no tap", "no valve", "no shut off", "nothing between", "none between", "nothing in the way",
		"straight",
		"directly"},
		against: []string{"tap", "taps", "valve", "cock", "shut off", "stopcock", "check valve"}, doubt: []string{"that any*", "anyone turns",
			"that is used", "in use", "in daily use", "wheel", "lever",
			"isolat*", "that closes", "coupling", "plug in",
			"a plug", "needed"},
		fine: []string{"valve s outlet", "valve sits", "valve is", "valve itself", "and valve", "to the valve", "at the valve"}},
	ItemOneBarrel: {yes: []string{"one barrel", "this barrel", "the breech", "same barrel"}, against: []string{"second", "other",
		"another"},
		doubt: []string{"one there", "spare", "one here", "of two", "one barrel each", "barrel each", "to both", "and that", "branch*"}},
	ItemExhaust: {yes: []string{"free", "freely", "comes out", "came out"}, doubt: []string{"comes out of the muzzle",
		"came out of the muzzle", "comes out of the barrel", "came out of the barrel", "out of the muzzle", "with water",
		"after i", "out of the barrel", "hard", "slow*", "weak*", "choke*",
		"free of", "little"}, fine: []string{"into the barrel"}},
	ItemFuses: {yes: []string{"fused", "below its wire*", "no circuit"}},
	ItemGuard: {yes: []string{"stays out", "stayed out", "not reach", "not reached", "out of reach", "short of"},
		against: []string{"reach*", "touch*"}, doubt: []string{"folded", "reach today", "small children", "adult finger*", "adult s finger*",
			"adult hand*", "grown up*", "from the side in", "finger* touch*", "from the side reach*", "in from",
			"luck", "get in", "gets in",
			"got in", "go in", "goes in", "went in",
			"fits in", "taken off",
			"removed", "stays out of sight", "stayed out of sight", "short of time", "if held",
			"when held"}, fine: []string{"over the muzzle", "across the muzzle"}},
	ItemSealGuard: {yes: []string{"gets past", "got past", "gets by", "gets out", "got out", "passes",
		"escapes"}, fine: []string{"before the muzzle", "over the muzzle", "into the barrel", "no lips", "no mouth", "no ear", "no face",
		"no finger",
		"no fingers", "no child", "cannot be sealed", "cannot seal"}},
	ItemElevation: {yes: []string{"fixed", "holds", "hold", "held", "at both stops", "at the stops", "stands upright", "locked"},
		doubt: []string{"by hand"}},
	ItemTip: {yes: []string{"nothing hard", "flat"}, against: []string{"hard"}},
	ItemTugAndBite: {yes: []string{"nothing came off", "nothing comes off", "no piece", "no pieces", "none came off", "held", "holds",
		"whole",
		"intact", "in one piece", "nothing broke off", "nothing tore off", "nothing bitten off", "nothing was bitten off", "nothing detached",
		"no part came off", "no bit came off", "no bits came off", "no crumbs came off", "nothing would come off", "nothing has come off"},
		// bitten is what the item asks for; what it is bitten to is not
		against: []string{"bit a", "bit through", "bit out", "bite off", "bitten off", "bitten through", "bitten away", "bitten out",
			"bitten open", "bitten apart", "bitten clean", "bitten short", "bitten down", "bitten to", "bitten in", "bitten into", "bitten up",
			"is bitten", "are bitten", "looks bitten", "got bitten", "bitten a", "bitten one", "bitten bit*", "bite mark*", "through it",
			"piece*", "off", "tore", "crumb*"},
		doubt: []string{"until", "bin", "dog", "the dog", "went through", "gentl*", "chunk", "in the vice", "vise", "yet", "tape*", "glue*",
			"bits", "soften*", "in two",
			"swallow*", "no piece left", "mouthful", "gone",
			"before the", "in the hand",
			"by hand", "holds the record"},
		fine: []string{"pulled by hand", "tugged by hand", "squeezed by hand"}},
	ItemOpenTag: {yes: []string{"tag on", "tag is on", "tagged", "locked open", "tied open"}, against: []string{"shut", "closed",
		"off"},
		doubt: append([]string{"internet", "its way", "shopping list", "list", "yesterday*", "wind", "blew off", "blew away", "took it",
			"sprang", "last year", "tag on order", "tag on the compressor", "tag on the pump", "on the compressor",
			"on order", "year",
			"plan", "full", "snapped", "screwed down", "for sale",
			"tag on the desk"}, elsewhere...)},
	ItemTwoActions: {yes: []string{"no click", "no shot", "nothing clicks", "nothing clicked", "nothing fires", "nothing fired",
		"none fired"},
		against: []string{"click*", "shot"}, doubt: []string{"hum*", "left in always", "until pressed", "until i press*", "left in",
			"first try", "today", "stays in",
			"until", "key in", "enough",
			"suffic*", "flat", "disconnected", "plug was out",
			"plug out", "plug is out",
			"one action", "at two", "dead", "no power", "no current", "no battery", "coil unplugged", "coil was unplugged", "valve unplugged",
			"coil off",
			"compressor on", "pump on", "compressor running", "pump running", "last season", "last year", "last month", "fuse out", "fuse was out",
			"fuse pulled"},
		fine: []string{"with both it click*", "with both they click*", "both it clicks", "key only", "button only", "only the key",
			"only the button", "without the key", "without key",
			"without the button", "without button", "without pressing", "without turning",
			"both together click*", "together they click*", "together it clicks", "together it clicked", "both click*",
			"clicks only with both",
			"click only with both", "clicks with both", "only with both", "only when both"}},
	ItemDryControl: {yes: []string{"nothing fires", "nothing fired", "none fired", "nothing moves", "nothing moved", "no shot",
		"no fire"},
		against: []string{"shot", "keeps running", "kept running", "still runs", "still running", "still ran", "still on",
			"stays on", "stayed on",
			"hums on", "runs", "running"},
		doubt: []string{"remote dead", "remote is dead", "remote flat", "forgotten", "all valves open", "all valves shut",
			"all valves closed", "all open", "all shut", "all closed",
			"everything open", "everything shut", "everything closed", "pump on", "supply on", "compressor on", "goes on", "included",
			"by itself", "flat", "disconnected", "no battery", "hums", "ignored"},
		fine: []string{"while armed", "while charging", "before it runs", "while running", "stops running", "stopped running",
			"one after the other", "one after another"}},
	ItemContacts: {yes: []string{"each opens", "each contact opens", "every contact opens", "all open", "all contacts open",
		"each one opens",
		"each opened", "every contact opened", "each contact opened", "all opened", "each one opened"},
		against: []string{"weld*", "stuck", "sticks", "stays closed", "stayed closed", "stays shut", "stayed shut", "beep*"},
		doubt: []string{"battery low", "from outside", "knock*", "needs a", "last season", "last month", "both together", "together",
			"in pairs",
			"one of", "the other", "bridged", "held down", "last year", "by ear",
			"by the click", "battery on", "not measured", "no meter", "without a meter", "open or", "by hand"},
		fine: []string{"unscrewed", "no beep*", "no ohms", "no reading", "without end", "without beep*", "one after the other"}},
	ItemKeyAndStop: {yes: []string{"vents", "vented", "empties", "emptied"}, against: []string{"shut", "closed", "stays full",
		"stayed full"},
		doubt: []string{"overnight", "i open", "open the tap", "second launcher", "other launcher", "through the muzzle",
			"through the barrel", "out of the barrel",
			"out of the muzzle", "in a day", "first time",
			"key on", "myself", "by me", "flew", "ball out", "bang", "after a", "by hand", "by the relief", "second press",
			"pressed twice", "vented once", "vents once",
			"remote out of reach", "battery", "stays in",
			"slow*", "hour*", "turned on", "turning on"}, fine: []string{"second launcher on another*", "other launcher on another*",
			"while charging", "while armed", "while it charges",
			"while it is armed", "at full pressure"}},
	ItemVentOutlets: {yes: []string{"away", "free"}, against: []string{"towards", "muffler on the relief", "capped", "hose on",
		"cap on", "plugged"},
		doubt: []string{"camera", "when the", "turned round", "keeps his head", "keeps her head", "head down", "ducks", "neck", "sleeve",
			"up the", "to the seat", "one side", "on the child", "at me", "at us", "at him", "at her",
			"on the rider", "facing",
			"at the rider*", "at a rider*", "at an ear", "at the ear*", "at ears", "at the child*", "at a child",
			"at faces", "at a face",
			"at the face*", "in the face*", "in faces", "into the*", "into a*", "at the driver*", "at people", "at the public",
			"at somebody",
			"at someone", "free of", "carried", "throw away", "far away"},
		fine: []string{"nobody sits", "nobody stands", "dump hiss*", "hisses under*", "nothing on it", "nothing on the relief*", "they hiss",
			"it hisses", "hiss to", "hisses to", "hiss down*", "hisses down*"}},
	ItemBarrelEmpty: {yes: []string{"no bubble*", "film held", "film holds", "film stays flat", "film stayed flat"},
		against: []string{"bulg*", "swell*", "swelled", "grew", "rose", "popped", "moved"},
		doubt: []string{"low pressure", "flat", "wiped", "rain*", "visible", "in the dark", "dry", "zero", "at rest", "off", "until", "gone",
			"dried", "second", "seconds", "a moment",
			"air off",
			"supply off", "uncharged", "empty",
			"unloaded tank"}, fine: []string{"stayed flat", "stays flat", "nothing under the film", "over the muzzle", "across the muzzle"}},
	ItemColdDrain: {yes: []string{"dry", "drained", "blown out"}, doubt: []string{"weather", "last month", "last week", "last event",
		"last autumn", "last winter", "last year",
		"season", "dew", "into the", "rain*", "ice", "icy", "wet", "damp",
		"moist", "frozen",
		"froze", "frost*",
		"outside", "outdoors", "battery", "dry run", "water in", "stuck"}, fine: []string{"no water", "no more water"}},
	ItemNotFrozen: {yes: []string{"turn free*", "turns free*", "turned free*", "move free*", "moves free*", "moved free*", "slid free*"},
		against: []string{"stuck", "sticks", "held fast"}, doubt: []string{"most of", "some of", "one of", "last winter", "last year", "summer",
			"indoors", "with force", "after a knock", "pliers", "hammer", "hot water", "while armed", "when armed", "charged", "loaded tank"}},
	ItemJamDrill: {yes: []string{"did it", "practised", "practiced", "nobody in line", "nobody s face or hand", "every one of",
		"each one of"},
		doubt: []string{"full charge", "heads", "last event", "last season", "from the front", "laugh*", "the builder for", "for all", "alone",
			"loaded", "face at", "my face", "children", "live", "year",
			"one of", "two of", "three of",
			"reading",
			"full pressure", "with air", "under pressure", "charged",
			"in line", "nobody in line to",
			"before the muzzle", "before the barrel", "in front of the"}, fine: []string{"no air", "without air"}},
	ItemLookIn: {yes: []string{"empty", "clear", "runs out", "ran out", "drains"}, doubt: []string{"ran out of light", "down to",
		"last event", "last season", "yesterday", "on monday", "promise",
		"left off", "taped",
		"empty tank", "ran out of time", "ran out of water", "hour*", "inside", "pen", "stays in",
		"stayed in",
		"water stays", "water stayed", "full", "empty handed", "can in", "slow*", "in it", "in the barrel",
		"in the bore"}, fine: []string{"into the barrel"}},
	ItemOneProjectile: {yes: []string{"one at a time", "one each", "looked in", "squeezed", "nothing inside"},
		against: []string{"two", "frozen", "icy", "soaked"}, doubt: append([]string{"manual", "children counted", "kids counted",
			"the children",
			"the kids", "bucket", "frost*", "one each hand", "yesterday", "my head",
			"three",
			"four",
			"each hand", "dark", "wet", "damp", "hard", "ice", "pen", "inside",
			"squeezed in",
			"looked in the box", "nothing inside the box"}, elsewhere...), fine: []string{"looked into the barrel"}},
	ControlItem: {yes: []string{"named", "tried", "keeps", "kept"}, doubt: append([]string{"forget*", "pen went in",
		"keeps it open", "on paper", "in vain",
		"asleep", "went home", "coming off", "falling out",
		"falls out", "fell out",
		"gave up", "give up", "got in", "gets in", "get in", "got a", "kept in", "named after"}, elsewhere...)},
	ItemLoadingWait: {yes: []string{"waited", "gauge at zero", "rammer"}, doubt: []string{"picture", "photo*", "felt safe", "felt",
		"at home",
		"sticks", "hand in front", "hands in front",
		"armed", "pressure on", "still charged", "in vain", "after loading",
		"while armed", "when armed",
		"over the bore", "over the muzzle", "a second", "waited for the"}, fine: []string{"rammer only", "only the rammer"}},
	ItemClearAllRound: {yes: []string{"taped", "tape", "marked", "fenced", "roped", "clear", "nobody near", "nobody there",
		"nobody inside", "nobody in it"}, doubt: append([]string{"nobody near now", "nobody there now", "later", "wall at", "wall in",
		"in my mind", "tomorrow", "people walk",
		"walk through", "used up",
		"one side", "two sides",
		"three sides", "crowd*", "kids", "washed", "sky", "people behind",
		"somebody behind", "someone behind", "child inside", "children inside", "child in", "children in", "somebody inside",
		"someone inside",
		"people inside", "wall right", "wall behind", "wall next", "wall near", "near a wall", "near the wall", "by the wall",
		"at the wall",
		"against the wall", "marked down", "taped over", "roped in", "as mud", "on the map", "on paper", "on the plan"}, elsewhere...)},
	ItemHearing: {yes: []string{"ear defenders", "recorded", "loudest"}, doubt: append([]string{"overload*", "off the scale",
		"next time",
		"on the builder",
		"too loud", "two of", "one of", "ring", "ringing", "rings",
		"hurt*", "for the adults",
		"for adults", "on the adults", "on adults", "on me", "sold out", "too large", "too big", "clipped", "flat top*", "a song",
		"music",
		"loudest ever", "from inside", "dog", "band", "if anybody"}, elsewhere...)},
	ItemSecondLook: {yes: []string{"looked", "read", "shown", "all of it", "every", "each"}, doubt: []string{"doubtful", "on the phone",
		"two minutes",
		"a minute", "each other", "gone", "disagree", "no to", "some of",
		"first page", "photo*",
		"picture*", "from afar", "the weather", "read the paper", "invented", "his own", "surprise", "quick*", "brief*"}},
	ItemReliefTest:    {yes: []string{"hiss*"}},
	ItemReliefInPlace: {yes: []string{"hiss*"}},
	ItemVentTest:      {yes: []string{"hiss*"}},
	ItemVentLow:       {yes: []string{"hiss*"}},
	ItemShots:         {yes: []string{"fired"}},
	ItemShotsWeak:     {yes: []string{"fired"}},
	ItemShotsMiddle:   {yes: []string{"fired"}},
	ItemLandingClear:  {yes: []string{"nobody within", "nobody in it", "nobody there", "nobody near", "nobody nearer", "no wheel"}},
	ItemLabels: {against: []string{"water", "liquid", "hydraulic", "vacuum"},
		beside: []string{"air", "compressed air", "gas", "gases", "gasses", "nitrogen", "n2", "pneumatic*"},
		doubt:  []string{"air gun", "airsoft", "air bed", "hot air", "no air"}},
	ItemMuzzleAdmits: {yes: []string{"next size not", "next does not", "next one does not", "nothing above"}},
	ItemBore:         {yes: []string{"next size not", "next does not", "next one does not"}},
}

// affirmationOf is how the words of an answer to an item are read.
func affirmationOf(id string) affirmation {
	if strings.HasPrefix(id, ControlItem) {
		id = ControlItem
	}
	return affirmations[id]
}

// Affirmation lists what an answer in words to an item has to say one of; nil: of this item nothing of the kind is asked.
func Affirmation(id string) []string {
	var out []string
	for _, phrase := range affirmationOf(id).yes {
		out = append(out, strings.TrimSuffix(phrase, "*"))
	}
	return out
}

// Affirms tells whether an answer says that it was as it should be.
func Affirms(id, text string) bool {
	yes := affirmationOf(id).yes
	return len(yes) == 0 || mentions(spoken(text), yes)
}

// reservations are words with which an answer takes back a part of what it says, or says why it was so.
var reservations = []string{"but", "apart from", "although", "though", "however", "only", "half", "halfway", "partly", "partially",
	"some",
	"sometimes", "mostly", "mainly", "usually", "often", "occasionally", "nearly", "almost", "in theory", "theoretic*", "for now",
	"so far",
	"at the moment", "for a while", "if", "unless", "because", "since", "due to", "as there", "larger than", "bigger than",
	"that matter*",
	"should", "would", "could", "might", "maybe", "perhaps", "probably", "presumabl*", "i think", "i guess", "guess*", "suppos*",
	"apparently",
	"seem*", "every other", "every second", "most of", "more or less", "kind of", "sort of", "as good as", "good enough", "hope*",
	"assum*",
	"pretend*", "imagin*", "invented", "made up", "eventually", "sooner or later", "soon", "as always", "as usual", "as ever", "as a rule",
	"is the rule", "as delivered", "as supplied", "as far as", "according to", "up to now", "until now", "to date", "at least on",
	"that i heard",
	"that i saw", "that i noticed", "one could", "from where i", "in our heads", "in my head", "in his head", "on order", "worth mentioning",
	"except*", "save for", "bar one", "bar two", "this time", "must be", "for safety", "on video", "other than", "enough", "most people",
	"on the drawing", "in the drawing", "tomorrow", "next week", "next time", "most", "at most of", "while", "before", "one of",
	"all except", "rather"}

// doubtful are words beside which it is open for any item how it was, unless they are denied.
var doubtful = []string{"swell*", "bulg*", "creep*", "crept", "flak*", "pops", "pop out", "popped", "rubs", "rubbed", "rubbing",
	"flips", "flipped",
	"slip*", "shifts", "shifted", "wobbl*", "rattl*", "warp*", "melt*", "burn*", "scorch*", "smok*", "spark*", "hurt*", "injur*",
	"bruis*", "spill*",
	"tangl*", "askew", "crooked", "dubious", "doubt*", "forgot*", "first time", "pressure in", "air was in", "spectator*",
	"over the muzzle",
	"over the bore", "across the bore", "across the muzzle", "into the barrel", "when it is open", "when open", "valve is open",
	"one with",
	"one after", "swap*", "in there", "turned back", "gets to the bore", "got past", "gets past the guard", "when unplugged",
	"at face height"}

// unreserved are phrases that begin as a reservation does and are none.
var unreserved = []string{"even if", "even though", "half a", "half metre*", "half meter*", "the only", "air only", "could not",
	"as it should", "as they should", "at most", "as before", "before each", "before every", "each one of", "every one of",
	"before any", "far enough", "long enough", "large enough", "wide enough", "deep enough", "as soon as"}

// reserved is the word of an answer beside which nobody knows whether it was as the item asks; "" none. Of the words that speak of
// the item itself a denied one is none.
func reserved(of affirmation, words []string) string {
	denied := 0
	for i := 0; i < len(words); {
		rest, step := words[i:], 1
		doubt, asked := max(first(rest, of.doubt), first(rest, doubtful)), max(first(rest, of.yes), first(rest, harmless))
		fine := max(first(rest, unreserved), first(rest, of.fine))
		switch n := max(doubt, first(rest, reservations)); {
		case fine > 0 && fine >= n:
			step = fine
		case n > asked && (denied == 0 || n > doubt):
			return strings.Join(rest[:n], " ")
		case asked > 0:
			step, denied = asked, 0
		case words[i] == stop || words[i] == "and" || words[i] == "then":
			denied = 0
		case slices.Contains(denials, words[i]):
			denied = reach + 1
		}
		i += step
		denied = max(denied-step, 0)
	}
	return ""
}

// stop is the end of a clause among the words of a text.
const stop = "|"

// spoken are the words of a text in lower case, a stop for each mark between clauses. What a short form leaves out is written out.
func spoken(text string) []string {
	text = strings.ReplaceAll(strings.ToLower(text), "’", "'")
	text = strings.NewReplacer("can't", "can not", "cannot", "can not", "won't", "will not", "n't", " not ").Replace(text)
	var b strings.Builder
	for i, r := range text {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(r)
		case strings.ContainsRune(";:!?|", r), strings.ContainsRune(".,", r) && !digitAt(text, i+1):
			b.WriteString(" " + stop + " ")
		default:
			b.WriteByte(' ')
		}
	}
	return strings.Fields(b.String())
}

func digitAt(text string, i int) bool { return i < len(text) && text[i] >= '0' && text[i] <= '9' }

// begins is how many words a phrase has with which a list begins; 0: it does not.
func begins(words []string, phrase string) int {
	n := 0
	for phrase != "" { // its words, one blank between
		part, rest, _ := strings.Cut(phrase, " ")
		if phrase = rest; n == len(words) {
			return 0
		}
		stem, open := strings.CutSuffix(part, "*")
		if words[n] != stem && !(open && strings.HasPrefix(words[n], stem)) {
			return 0
		}
		n++
	}
	return n
}

// mentions tells whether some phrase stands anywhere in a list of words.
func mentions(words []string, phrases []string) bool {
	for i := range words {
		if first(words[i:], phrases) > 0 {
			return true
		}
	}
	return false
}

// first is the number of words of the first of some phrases with which a list begins; 0: none.
func first(words []string, phrases []string) int {
	for _, phrase := range phrases {
		if n := begins(words, phrase); n > 0 {
			return n
		}
	}
	return 0
}
