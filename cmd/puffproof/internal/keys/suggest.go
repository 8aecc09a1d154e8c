package keys

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
)

// distance is the number of letters to insert, delete, replace or swap with a
// neighbour that turns a into b (restricted edit distance).
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last := make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row := make([]int, len(y)+1)
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(y)]
}

// longestName bounds the words that are compared letter by letter.
const longestName = 48

// Nearest gives the word that was probably meant, or "": at most one slip for
// each three letters.
func Nearest(found string, words []string) string {
	if len(found) > longestName {
		return ""
	}
	f := unit.Fold(found)
	best, slips := "", len(f)/3+1
	for _, w := range words {
		if len(w) > longestName {
			continue
		}
		if d := distance(f, unit.Fold(w)); d < slips || d == slips && best == "" && d <= 1 {
			best, slips = w, d
		}
	}
	return best
}

// Meant words a suggestion, or nothing.
func Meant(word string) string {
	if word == "" {
		return ""
	}
	return "did you mean " + word + "?"
}

// MeantWord suggests one of some words: what a builder's word for it means, else what
// was probably meant.
func MeantWord(found string, words []string, means map[string]string) string {
	w := means[unit.Fold(found)]
	if !slices.Contains(words, w) {
		w = Nearest(found, words)
	}
	if w == "" {
		return ""
	}
	return Meant(`"` + w + `"`)
}

// SuggestKey finds what an unknown key of a table probably is: a slip, a
// builder's word, or a key of another table.
func (k *Table) SuggestKey(table, found, selected string) string {
	f := unit.Fold(found)
	var names []string
	for _, row := range k.Of(table) {
		if slices.Contains(row.Synonyms, f) && row.Belongs(selected) {
			return Meant(row.Name)
		}
		names = append(names, row.Name)
	}
	if n := Nearest(found, names); n != "" {
		return Meant(n)
	}
	for _, row := range k.Of(table) {
		if slices.Contains(row.Synonyms, f) {
			return Meant(row.Name)
		}
	}
	for i := range k.Keys {
		row := &k.Keys[i]
		if row.Table != table && row.Table != "" && (row.Name == f || slices.Contains(row.Synonyms, f)) {
			return row.Name + " belongs in [" + ShownTable(row.Table) + "]"
		}
	}
	return ""
}

// SuggestTable does the same for an unknown table or top-level key.
func (k *Table) SuggestTable(found string) string {
	f := unit.Fold(found)
	var names []string
	for i := range k.Tables {
		row := &k.Tables[i]
		if row.Name == "" {
			continue
		}
		if slices.Contains(row.Synonyms, f) {
			return Meant("[" + ShownTable(row.Name) + "]")
		}
		names = append(names, strings.TrimSuffix(row.Name, ".*"))
	}
	if n := Nearest(found, names); n != "" {
		return Meant("[" + n + "]")
	}
	return k.SuggestKey("", found, "")
}

// ShownTable writes a table's name for a reader.
func ShownTable(name string) string { return strings.ReplaceAll(name, "*", "NAME") }
