// Package memory keeps what the program has computed of papers on this machine, in the cache
// of the user, so that verify need not compute it again. Where nothing can be kept or read, it
// knows nothing. Start reading at Papers.
package memory

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/paper"
)

// Papers is what this program has computed of papers on this machine, so that verify
// need not do it again. It is found by a fingerprint of the whole paper (its design, its
// measurements and every word are in it) and of the program, its rules with it: a letter
// that differs in either finds nothing. It lies in the user's cache, and not in the paper,
// where whoever alters a word could make a fingerprint that fits. A nil one knows
// nothing and keeps nothing.
type Papers struct {
	folder  string
	program string // tells it from every other program
}

// Answers are what the inputs of a paper give, where its words are what they should be.
type Answers struct {
	Holds     bool   `json:"holds"`
	Confirmed bool   `json:"confirmed"`
	OpenItems int    `json:"open_items"`
	Finding   string `json:"finding"`
}

// AnswersOf are the answers of what a paper was made from.
func AnswersOf(in paper.Input) Answers {
	return Answers{in.Report.Holds, in.Report.Confirmed, in.Report.OpenItems, in.Finding()}
}

// Of is what the program has computed on this machine for the user whose environment get tells,
// at one strength of the searches, which is part of what was computed; nil where nothing can be kept.
func Of(get func(key string) string, program, version string, strength float64) *Papers {
	folder := folderOf(get)
	if folder == "" {
		return nil
	}
	program, err := identity(program, version)
	if err != nil {
		return nil
	}
	return &Papers{filepath.Join(folder, "puffproof", "papers"), fmt.Sprintf("%s, strength %v", program, strength)}
}

// folderOf is where programs keep what can be made again (XDG Base Directory
// Specification, XDG_CACHE_HOME; common practice elsewhere, no source); "" none is known.
func folderOf(get func(key string) string) string {
	for _, at := range []string{get("XDG_CACHE_HOME"), get("LocalAppData")} {
		if filepath.IsAbs(at) {
			return at
		}
	}
	home := get("HOME")
	switch {
	case !filepath.IsAbs(home):
		return ""
	case runtime.GOOS == "darwin":
		return filepath.Join(home, "Library", "Caches")
	}
	return filepath.Join(home, ".cache")
}

// identity tells a program from every other: its name and version, and the fingerprint of the file that it runs
// from where many builds share that version.
func identity(program, version string) (string, error) {
	if !paper.UnnamedVersion(version) {
		return program, nil
	}
	path, err := os.Executable()
	if err != nil {
		return "", err
	}
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, f); err != nil {
		return "", err
	}
	return program + " " + hex.EncodeToString(sum.Sum(nil)), nil
}

// place is the file that holds what is known of a paper.
func (m *Papers) place(data []byte) string {
	return filepath.Join(m.folder, m.fingerprint(data)+".json")
}

// Recall gives the answers of a paper, if they are known.
func (m *Papers) Recall(data []byte) (a Answers, known bool) {
	if m == nil {
		return a, false
	}
	text, err := os.ReadFile(m.place(data))
	if err != nil {
		return a, false
	}
	strict := json.NewDecoder(strings.NewReader(string(text)))
	strict.DisallowUnknownFields()
	return a, strict.Decode(&a) == nil && a.Finding != ""
}

// Keep remembers the answers of a paper whose words were just made from its inputs, or
// held against them. Where that cannot be kept, verify computes again.
func (m *Papers) Keep(ctx context.Context, data []byte, a Answers) {
	if m == nil {
		return
	}
	text, err := json.Marshal(a)
	if err == nil && os.MkdirAll(m.folder, 0o700) == nil {
		_ = atomicfile.Write(ctx, m.place(data), text, atomicfile.Replace)
	}
}

// fingerprint is that of a paper as this program knows it.
func (m *Papers) fingerprint(data []byte) string {
	paper := sha256.Sum256(data)
	both := sha256.Sum256([]byte(m.program + "\n" + hex.EncodeToString(paper[:])))
	return hex.EncodeToString(both[:])
}
