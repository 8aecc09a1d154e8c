package finding

import (
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
}

// affirmations are those of the items that are told in words, and of those with figures beside which such words are usual.
var affirmations = map[string]affirmation{
	ItemAgeRetire:     {[]string{"no crack*", "nothing past", "none past", "intact", "whole", "sound"}, []string{"past", "expired"}},
	ItemEndCaps:       {[]string{"fully in", "threads in", "seated", "hold", "holds", "held", "tight"}, []string{"off", "moved"}},
	ItemHoseRestraint: {[]string{"clipped", "clips", "restrained", "sleeved", "held", "hold"}, []string{"off"}},
	ItemReliefShutOff: {[]string{"no tap", "no valve", "no shut off", "nothing between", "none between", "straight", "directly"},
		[]string{"tap", "taps", "valve", "cock", "shut off"}},
	ItemOneBarrel: {[]string{"one barrel", "this barrel", "the breech", "same barrel"}, []string{"second", "other"}},
	ItemExhaust:   {[]string{"free", "freely", "comes out", "came out"}, nil},
	ItemFuses:     {[]string{"fused", "below its wire*", "no circuit"}, nil},
	ItemGuard: {[]string{"stays out", "stayed out", "not reach", "not reached", "out of reach", "short of"},
		[]string{"reach*", "touch*"}},
	ItemSealGuard: {[]string{"gets past", "got past", "gets by", "gets out", "got out", "passes", "escapes"}, nil},
	ItemElevation: {[]string{"fixed", "holds", "held", "at both stops", "stands upright", "locked"}, nil},
	ItemTip:       {[]string{"nothing hard", "flat"}, []string{"hard"}},
	ItemTugAndBite: {[]string{"nothing came off", "nothing comes off", "no piece", "none came off", "held", "holds", "whole", "intact"},
		[]string{"bit", "bite off", "bitten", "piece*", "off", "tore", "crumb*"}},
	ItemOpenTag: {[]string{"tag on", "tag is on", "tagged", "locked open", "tied open"}, []string{"shut", "closed", "off"}},
	ItemTwoActions: {[]string{"no click", "no shot", "nothing clicks", "nothing clicked", "nothing fires", "nothing fired", "none fired"},
		[]string{"click*", "shot"}},
	ItemDryControl:  {[]string{"nothing fires", "nothing fired", "none fired", "nothing moves", "nothing moved", "no shot"}, []string{"shot"}},
	ItemKeyAndStop:  {[]string{"vents", "vented", "empties", "emptied"}, nil},
	ItemVentOutlets: {[]string{"away", "free"}, []string{"towards", "muffler on the relief", "capped", "hose on"}},
	ItemBarrelEmpty: {[]string{"no bubble*", "film held", "film holds", "film stays flat", "film stayed flat"},
		[]string{"bulg*", "swell*", "swelled", "grew", "rose"}},
	ItemColdDrain: {[]string{"dry", "drained", "blown out"}, nil},
	ItemJamDrill:  {[]string{"did it", "practised", "practiced", "nobody in line", "nobody s face or hand"}, nil},
	ItemLookIn:    {[]string{"empty", "clear", "runs out", "ran out", "drains"}, nil},
	ItemOneProjectile: {[]string{"one at a time", "one each", "looked in", "squeezed", "nothing inside"},
		[]string{"two", "frozen", "icy", "soaked"}},
	ControlItem:       {[]string{"named", "tried", "keeps", "kept"}, nil},
	ItemLoadingWait:   {[]string{"waited", "gauge at zero", "rammer"}, nil},
	ItemClearAllRound: {[]string{"taped", "tape", "marked", "fenced", "roped", "clear"}, nil},
	ItemHearing:       {[]string{"ear defenders", "recorded", "loudest"}, nil},
	ItemSecondLook:    {[]string{"looked", "read", "shown", "all of it", "every", "each"}, nil},
	ItemReliefTest:    {[]string{"hiss*"}, nil},
	ItemReliefInPlace: {[]string{"hiss*"}, nil},
	ItemVentTest:      {[]string{"hiss*"}, nil},
	ItemShots:         {[]string{"fired"}, nil},
	ItemShotsWeak:     {[]string{"fired"}, nil},
	ItemShotsMiddle:   {[]string{"fired"}, nil},
	ItemLandingClear:  {[]string{"nobody within", "nobody in it", "nobody there", "nobody near", "nobody nearer", "no wheel"}, nil},
	ItemLabels:        {nil, []string{"water", "liquid", "hydraulic", "vacuum"}},
	ItemMuzzleAdmits:  {[]string{"next size not", "next does not", "next one does not", "nothing above"}, nil},
	ItemBore:          {[]string{"next size not", "next does not", "next one does not"}, nil},
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
	parts := strings.Fields(phrase)
	if len(parts) > len(words) {
		return 0
	}
	for i, part := range parts {
		stem, open := strings.CutSuffix(part, "*")
		if words[i] != stem && !(open && strings.HasPrefix(words[i], stem)) {
			return 0
		}
	}
	return len(parts)
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
