package remedy

import (
	"slices"
	"strings"

	"puffproof/limits/finding"
)

// typed is how many keys are told in full, as lines to be typed: a new part has five.
const typed = 5

// Say is a proof in words: the change, and what it does.
func (p *Proof) Say() finding.Text {
	var parts []finding.Text
	for _, c := range p.Changes {
		if said := finding.Say("%s = %s", c.Key, c.To.Said()); telling(c.Key) || len(p.Changes) <= typed {
			parts = append(parts, said)
		}
	}
	said := finding.Join(parts, ", ").Say(" (%s)", p.Changes[0].Why)
	if p.Mends() {
		return said.Say(": tried in brief, it then holds")
	}
	return said.Say(": tried in brief, it comes nearer but does not yet hold")
}

// briefly is the first proof that a verdict is told: its changes without reasons, keys of one table without the table again.
func briefly(id string, proofs []Proof) finding.Text {
	for _, mends := range []bool{true, false} {
		for i := range proofs {
			p := &proofs[i]
			if p.Verdict == id && p.Mends() == mends && p.Helps() {
				return p.brief()
			}
		}
	}
	return nil
}

// brief is a proof in a few words.
func (p *Proof) brief() finding.Text {
	var parts []finding.Text
	before := ""
	for _, c := range p.Changes {
		if !telling(c.Key) && len(p.Changes) > typed {
			continue
		}
		table, key := c.Key[:strings.LastIndexByte(c.Key, '.')+1], c.Key
		if table == before {
			key = key[len(table):]
		}
		before = table
		parts = append(parts, finding.Say("%s = %s", key, c.To.Said()))
	}
	said := finding.Join(parts, ", ")
	if !p.Mends() {
		said = said.Say(", which alone does not do")
	}
	return said
}

// telling tells that a key says what a new part is; its others go without saying.
func telling(key string) bool {
	return strings.HasSuffix(key, ".kind") || strings.HasSuffix(key, ".orifice") || strings.HasSuffix(key, ".open_in") ||
		strings.HasSuffix(key, ".rated_for_gas") || strings.HasSuffix(key, ".set_pressure")
}

// diagnoses are verdicts whose advice says what is missing, whatever mends it.
var diagnoses = [...]string{finding.VentTrapped, finding.VentShutdown, finding.VentPowerLoss, finding.ShotUnasked, finding.LoadingEmpty}

// Proven gives the verdicts with advice that was tried in the place of words that name no more
// than a guess: what has no effect is left out, what mends the verdict comes before what only
// helps. Verdicts without remedies keep their words.
func Proven(verdicts []finding.Verdict, proofs []Proof) {
	for i := range verdicts {
		v := &verdicts[i]
		var said, nearer []finding.Text
		tried := false
		for _, p := range proofs {
			if p.Verdict != v.ID {
				continue
			}
			tried = true
			switch {
			case p.Mends():
				said = append(said, p.Say())
			case p.Helps():
				nearer = append(nearer, p.Say())
			}
		}
		said = append(said, nearer...)
		v.Brief = briefly(v.ID, proofs)
		switch {
		case !tried, len(said) == 0 && slices.Contains(diagnoses[:], v.ID):
		case len(said) > 0 && slices.Contains(diagnoses[:], v.ID):
			v.Advice = v.Advice.Say(" Such as %s.", finding.Join(said, "; or "))
		case len(said) > 0:
			v.Advice = finding.Join(said, "; or ").Say(".")
		default:
			v.Advice = finding.Words("No single change of one part that was tried mends it: puffproof advise looks for several at once.")
		}
	}
}
