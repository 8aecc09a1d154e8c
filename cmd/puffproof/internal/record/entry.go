package record

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
)

// Kind is what an entry tells.
type Kind string

// The kinds of entries.
const (
	Design  Kind = "design"  // what the design file said, before the readings that follow
	Reading Kind = "reading" // of one step
	Written Kind = "written" // the answers of readings stand in the design
	Torn    Kind = "torn"    // the bytes before this line are what a crash left of one
)

// Passed and Failed are the results of a reading.
const (
	Passed = "passed"
	Failed = "failed"
)

// Entry is one line. Fields that its kind does not have are zero.
type Entry struct {
	N       int    `json:"n"` // from 1
	Kind    Kind   `json:"kind"`
	At      string `json:"at"`      // when it was written, RFC 3339
	Program string `json:"program"` // version

	File string            `json:"file,omitempty"` // SHA-256 of the design file as it then stood
	Keys map[string]string `json:"keys,omitempty"` // of Design: every key with its value, the checklist left out

	Step    string       `json:"step,omitempty"`
	Title   string       `json:"title,omitempty"`
	Expect  string       `json:"expect,omitempty"`
	Reading string       `json:"reading,omitempty"` // as it was given
	Series  [][2]float64 `json:"series,omitempty"`  // of a file of readings: time [s], gauge [Pa]
	Source  string       `json:"source,omitempty"`  // name and SHA-256 of that file
	Who     string       `json:"who,omitempty"`
	Date    string       `json:"date,omitempty"`   // the day of the reading, ISO
	Result  string       `json:"result,omitempty"` // Passed or Failed
	Says    string       `json:"says,omitempty"`   // why
	Value   string       `json:"value,omitempty"`  // what the design's checklist gets
	Build   string       `json:"build,omitempty"`  // fingerprint of the keys that the step rests on

	// Takes is of a reading that was written down sooner after the one before than its step takes: how long that is at least [s].
	Takes float64 `json:"takes_s,omitempty"`

	Of []int `json:"of,omitempty"` // of Written: the readings

	Bytes  int    `json:"bytes,omitempty"`  // of Torn: how many
	SHA256 string `json:"sha256,omitempty"` // of Torn: their fingerprint

	Chain   string `json:"-"` // of the line
	Line    int    `json:"-"` // in the file, from 1
	Altered bool   `json:"-"` // it is not as it was written, or not where
}

// nameLength is how many letters of its chain name a reading: enough that no two readings have the same name.
const nameLength = 16

// Name is what an answer of the design names a reading by: the beginning of its chain, on which it and all before it bear.
func (e *Entry) Name() string { return e.Chain[:min(nameLength, len(e.Chain))] }

// chained is an entry as its line, without the end of the line.
func (e *Entry) chained(before string) ([]byte, string, error) {
	body, err := json.Marshal(e)
	if err != nil {
		return nil, "", fmt.Errorf("record: %w", err)
	}
	chain := chainOf(before, body)
	return append(append(append(body[:len(body)-1:len(body)-1], chainKey...), chain...), '"', '}'), chain, nil
}

// chainKey stands between an entry and its chain.
var chainKey = []byte(`,"chain":"`)

// chainOf is the chain of an entry behind another one.
func chainOf(before string, body []byte) string {
	h := sha256.New()
	h.Write([]byte(before + "\n"))
	h.Write(body)
	return hex.EncodeToString(h.Sum(nil))
}
