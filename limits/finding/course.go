package finding

import (
	"regexp"
	"strconv"
)

// Tight is the word for a leak-down whose readings showed no leak; limits/vent judges them.
const Tight = "tight"

// Course is what the checklist keeps of a course of readings on a leak-down, as words: it was judged when it was read, and the record has
// its readings.
type Course struct {
	Judged     string // what came of it, in a word: Tight or another one
	Start, End Shown  // [Pa gauge]
	Count      int    // of the readings
	Length     Shown  // how long they took [s]
}

// Text is the course as it is kept; CourseIn reads its beginning again.
func (c Course) Text() Text {
	return Say("%s, from %s to %s, %d readings over %s", c.Judged, c.Start, c.End, c.Count, c.Length)
}

// kept finds a course in the words that Text writes.
var kept = regexp.MustCompile(`^([a-z ]+), from (-?[\d.]+) bar to (-?[\d.]+) bar, (\d+) readings over \S`)

// CourseIn reads what is kept of a course: what came of it, and of how many readings; false: the words are none.
func CourseIn(words string) (judged string, count int, is bool) {
	m := kept.FindStringSubmatch(words)
	if m == nil {
		return "", 0, false
	}
	count, err := strconv.Atoi(m[4])
	return m[1], count, err == nil
}
