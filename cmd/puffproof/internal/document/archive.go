package document

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"puffproof/limits"
)

// Archive is what a safety file carries of its own inputs and answers.
type Archive struct {
	Format   int              `json:"format"`
	Version  string           `json:"program_version"`
	Date     string           `json:"date"`
	Units    string           `json:"units"`
	SHA256   string           `json:"design_sha256"`
	Design   string           `json:"design"`
	Attached []Attached       `json:"attached"`
	Finding  string           `json:"finding"`
	Verdicts []ArchiveVerdict `json:"verdicts"`
	Items    []ArchiveItem    `json:"items"`
}

// ArchiveVerdict is a verdict as it was.
type ArchiveVerdict struct {
	ID     string        `json:"id"`
	Title  string        `json:"title"`
	Status limits.Status `json:"status"`
	Value  *float64      `json:"value"`
	Limit  *float64      `json:"limit"`
	Unit   string        `json:"unit"`
}

// ArchiveItem is an item of the checklist as it was.
type ArchiveItem struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	Verdict string `json:"verdict"`
	Done    bool   `json:"done"`
}

// archiveFormat is raised when the fields change their meaning.
const archiveFormat = 1

// archiveMark stands before the archive in every file that has one.
const archiveMark = "puffproof-archive:"

// mostArchive bounds an archive in bytes, encoded.
const mostArchive = 8 << 20

// ErrNoArchive is returned for a file that is no safety file, or one without
// its inputs.
var ErrNoArchive = errors.New("has no puffproof archive in it; verify reads the HTML or Markdown file that dossier wrote, not its PDF")

// archiveOf collects the archive of an input.
func archiveOf(in Input, finding string) *Archive {
	a := &Archive{Format: archiveFormat, Version: in.Version, Date: in.Date, Units: string(in.Units), SHA256: in.Design.SHA256,
		Design: in.Text, Attached: append([]Attached{}, in.Attached...), Finding: finding, Verdicts: VerdictsOf(in.Report), Items: itemsOf(in.Report)}
	return a
}

// VerdictsOf is a report's verdicts as an archive keeps them.
func VerdictsOf(r limits.Report) []ArchiveVerdict {
	out := []ArchiveVerdict{}
	for _, v := range r.Verdicts {
		out = append(out, ArchiveVerdict{v.ID, v.Title, v.Status, v.Value, v.Limit, string(v.Unit)})
	}
	return out
}

func itemsOf(r limits.Report) []ArchiveItem {
	out := []ArchiveItem{}
	for _, it := range r.Items {
		out = append(out, ArchiveItem{it.ID, it.Title, it.Verdict, it.Done != nil})
	}
	return out
}

// encode gives the archive as letters that are harmless in every format.
func (a *Archive) encode() (string, error) {
	data, err := json.Marshal(a)
	if err != nil {
		return "", fmt.Errorf("the archive: %w", err)
	}
	return archiveMark + base64.StdEncoding.EncodeToString(data), nil
}

// ReadArchive finds the archive in a file. The error matches ErrNoArchive where
// there is none, else says what is wrong with it.
func ReadArchive(file []byte) (*Archive, error) {
	_, rest, found := bytes.Cut(file, []byte(archiveMark))
	if !found {
		return nil, ErrNoArchive
	}
	end := bytes.IndexFunc(rest, func(r rune) bool { return !strings.ContainsRune(base64Letters, r) })
	if end < 0 {
		end = len(rest)
	}
	if end > mostArchive {
		return nil, errors.New("its archive is too large to be one")
	}
	data, err := base64.StdEncoding.DecodeString(string(rest[:end]))
	if err != nil {
		return nil, errors.New("its archive is damaged: the file was cut or changed")
	}
	var a Archive
	if err := json.Unmarshal(data, &a); err != nil {
		return nil, errors.New("its archive is damaged: the file was cut or changed")
	}
	if a.Format != archiveFormat {
		return nil, fmt.Errorf("its archive has format %d; this version of puffproof reads format %d", a.Format, archiveFormat)
	}
	sum := sha256.Sum256([]byte(a.Design))
	if hex.EncodeToString(sum[:]) != a.SHA256 {
		return nil, errors.New("its archive is damaged: the design in it does not have the fingerprint beside it")
	}
	return &a, nil
}

const base64Letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/="
