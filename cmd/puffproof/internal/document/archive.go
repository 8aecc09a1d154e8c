package document

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// Archive is what a paper carries of its own inputs and answers.
type Archive struct {
	Format   int              `json:"format"`
	Paper    Paper            `json:"paper"` // "" in an old file: the safety file
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

// Paper is the kind of a paper.
type Paper string

const (
	SafetyFile Paper = "safety file"
	CardPaper  Paper = "card"
)

// ArchiveVerdict is a verdict as it was.
type ArchiveVerdict struct {
	ID     string         `json:"id"`
	Title  string         `json:"title"`
	Status finding.Status `json:"status"`
	Value  *float64       `json:"value"`
	Limit  *float64       `json:"limit"`
	Unit   string         `json:"unit"`
	Margin *float64       `json:"margin,omitempty"` // its sign tells a lower limit from an upper one; nil in an old file
}

// ArchiveItem is an item of the checklist as it was.
type ArchiveItem struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	Verdict string `json:"verdict"`
	Done    bool   `json:"done"`
}

// Lower tells whether the limit is one to stay above.
func (v *ArchiveVerdict) Lower() bool {
	return show.IsLower(finding.Verdict{Value: v.Value, Limit: v.Limit, Margin: v.Margin})
}

// ArchiveFormat is raised when the fields change their meaning.
const ArchiveFormat = 1

// ArchiveMark stands before the archive in every file that has one.
const ArchiveMark = "puffproof-archive:"

// mostArchive bounds an archive in bytes, encoded.
const mostArchive = 8 << 20

// ErrNoArchive is returned for a file that is no paper of this program, or one
// without its inputs.
var ErrNoArchive = errors.New("has no puffproof archive in it; verify reads the files that dossier and card wrote")

var errDamaged = errors.New("its archive is damaged: the file was cut or changed")

// Encode gives the archive as letters that are harmless in every format.
func (a *Archive) Encode() (string, error) {
	data, err := json.Marshal(a)
	if err != nil {
		return "", fmt.Errorf("the archive: %w", err)
	}
	return ArchiveMark + base64.StdEncoding.EncodeToString(data), nil
}

// ReadArchive finds the archive in a file of any format. The error matches
// ErrNoArchive where there is none, else says what is wrong with it.
func ReadArchive(file []byte) (*Archive, error) {
	data, err := archiveText(file)
	if err != nil {
		return nil, err
	}
	var a Archive
	if err := json.Unmarshal(data, &a); err != nil {
		return nil, errDamaged
	}
	if a.Format != ArchiveFormat {
		return nil, fmt.Errorf("its archive has format %d; this version of puffproof reads format %d", a.Format, ArchiveFormat)
	}
	sum := sha256.Sum256([]byte(a.Design))
	if hex.EncodeToString(sum[:]) != a.SHA256 {
		return nil, errors.New("its archive is damaged: the design in it does not have the fingerprint beside it")
	}
	if a.Paper == "" {
		a.Paper = SafetyFile
	}
	if a.Paper != SafetyFile && a.Paper != CardPaper {
		return nil, fmt.Errorf("its archive is of an unknown kind of paper, %q", a.Paper)
	}
	if _, err := time.Parse(time.DateOnly, a.Date); err != nil {
		return nil, errors.New("its archive is damaged: its date is none")
	}
	return &a, nil
}

// archiveText takes the archive's text out of a file.
func archiveText(file []byte) ([]byte, error) {
	if FormatOfFile(file) == "pdf" {
		return attachedArchive(file)
	}
	_, rest, found := bytes.Cut(file, []byte(ArchiveMark))
	if !found {
		return nil, ErrNoArchive
	}
	end := bytes.IndexFunc(rest, func(r rune) bool { return !strings.ContainsRune(Base64Letters, r) })
	if end < 0 {
		end = len(rest)
	}
	if end > mostArchive {
		return nil, errors.New("its archive is too large to be one")
	}
	data, err := base64.StdEncoding.DecodeString(string(rest[:end]))
	if err != nil {
		return nil, errDamaged
	}
	return data, nil
}

// attachedArchive finds the archive among the files that are attached to a PDF of
// this program. It knows the form in which they are written here and no other.
func attachedArchive(file []byte) ([]byte, error) {
	for rest, found := file, true; ; {
		if _, rest, found = bytes.Cut(rest, []byte("/Type /EmbeddedFile ")); !found {
			return nil, ErrNoArchive
		}
		if _, rest, found = bytes.Cut(rest, []byte("stream\n")); !found {
			return nil, errDamaged
		}
		unpacked, err := zlib.NewReader(bytes.NewReader(rest))
		if err != nil {
			return nil, errDamaged
		}
		data, err := io.ReadAll(io.LimitReader(unpacked, mostArchive))
		if err != nil {
			return nil, errDamaged
		}
		if bytes.HasPrefix(data, []byte(`{"format":`)) {
			return data, nil
		}
	}
}

const Base64Letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/="

// Attached is a file that was read beside the design.
type Attached struct {
	Role   string `json:"role"` // ShotsRole, VentLogRole or LeakLogRole
	Name   string `json:"name"` // of the file, without its folder
	SHA256 string `json:"sha256"`
	Text   string `json:"text"`
}
