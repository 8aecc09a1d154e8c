package usage

import (
	"strings"

	"github.com/xrash/smetrics"
)

// Nearest finds the word that was probably meant: a builder's synonym, the
// start of a word, or at most a third of the letters wrong. "" is no guess.
func Nearest(found string, known []string, synonyms map[string]string) string {
	found = strings.ToLower(found)
	if s, ok := synonyms[found]; ok {
		for _, k := range known {
			if k == s {
				return s
			}
		}
	}
	// Two wrong letters are let pass from four on: a swap of neighbours counts two.
	allowed := max(1, len(found)/3)
	if len(found) >= 4 {
		allowed = max(2, allowed)
	}
	best := ""
	for _, k := range known {
		if len(found) >= 2 && strings.HasPrefix(k, found) {
			return k
		}
		// One inserted, removed or replaced letter each costs 1.
		if d := smetrics.WagnerFischer(found, k, 1, 1, 1); d <= allowed {
			best, allowed = k, d-1
		}
	}
	return best
}

// commandSynonyms are words a builder may try first.
func commandSynonyms() map[string]string {
	return map[string]string{
		"new": "init", "create": "init", "template": "init",
		"reference": "keys", "schema": "keys", "key": "keys", "tables": "keys", "fields": "keys",
		"test": "check", "judge": "check", "run": "check", "verdict": "check", "validate": "check",
		"fire": "shot", "shoot": "shot", "simulate": "shot",
		"fit": "calibrate", "measure": "calibrate", "calibration": "calibrate", "evidence": "calibrate",
		"trajectory": "flight", "range": "flight", "landing": "flight", "fly": "flight",
		"testplan": "plan", "test-plan": "plan", "protocol": "plan",
		"complete": "completion", "man": "help", "usage": "help",
	}
}

// flagSynonyms are flags a builder may try first.
func flagSynonyms() map[string]string {
	return map[string]string{
		"no-colour": "no-color", "nocolor": "no-color", "monochrome": "no-color",
		"silent": "quiet", "overwrite": "force", "f": "force",
		"pressure": "at", "svg": "plot", "graph": "plot", "references": "sources",
		"v": "version", "assumptions": "assumed", "imperial": "units", "metric": "units", "us": "units",
	}
}
