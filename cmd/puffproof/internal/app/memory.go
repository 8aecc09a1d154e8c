package app

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
	"puffproof/limits/search"
)

// memory is what this program has computed of papers on this machine, so that verify
// need not do it again. It is found by a fingerprint of the whole paper (its design, its
// measurements and every word are in it) and of the program, its rules with it: a letter
// that differs in either finds nothing. It lies in the user's cache, and not in the paper,
// where whoever alters a word could make a fingerprint that fits. A nil memory knows
// nothing and keeps nothing.
type memory struct {
	folder  string
	program string // tells it from every other program
}

// answers are what the inputs of a paper give, where its words are what they should be.
type answers struct {
	Holds     bool   `json:"holds"`
	Confirmed bool   `json:"confirmed"`
	OpenItems int    `json:"open_items"`
	Finding   string `json:"finding"`
}

func answersOf(in paper.Input) answers {
	return answers{in.Report.Holds, in.Report.Confirmed, in.Report.OpenItems, in.Finding()}
}

// memory is that of the user whose environment this is.
func (c *Call) memory(ctx context.Context) *memory {
	folder := cacheFolder(c.Environ)
	program, err := programIdentity()
	if folder == "" || err != nil {
		return nil
	}
	// How hard the searches look is part of what was computed.
	return &memory{filepath.Join(folder, "puffproof", "papers"), fmt.Sprintf("%s, strength %v", program, search.Strength(ctx))}
}

// cacheFolder is where programs keep what can be made again (XDG Base Directory
// Specification, XDG_CACHE_HOME; common practice elsewhere, no source); "" none is known.
func cacheFolder(environ []string) string {
	for _, at := range []string{lookup(environ, "XDG_CACHE_HOME"), lookup(environ, "LocalAppData")} {
		if filepath.IsAbs(at) {
			return at
		}
	}
	home := lookup(environ, "HOME")
	switch {
	case !filepath.IsAbs(home):
		return ""
	case runtime.GOOS == "darwin":
		return filepath.Join(home, "Library", "Caches")
	}
	return filepath.Join(home, ".cache")
}

// programIdentity is the program's version, and the fingerprint of the file that it runs
// from where many builds share that version.
func programIdentity() (string, error) {
	if !paper.UnnamedVersion(version()) {
		return program(), nil
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
	return program() + " " + hex.EncodeToString(sum.Sum(nil)), nil
}

// place is the file that holds what is known of a paper.
func (m *memory) place(data []byte) string {
	return filepath.Join(m.folder, fingerprintOf([]byte(m.program+"\n"+fingerprintOf(data)))+".json")
}

// recall gives the answers of a paper, if they are known.
func (m *memory) recall(data []byte) (a answers, known bool) {
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

// keep remembers the answers of a paper whose words were just made from its inputs, or
// held against them. Where that cannot be kept, verify computes again.
func (m *memory) keep(ctx context.Context, data []byte, a answers) {
	if m == nil {
		return
	}
	text, err := json.Marshal(a)
	if err == nil && os.MkdirAll(m.folder, 0o700) == nil {
		_ = atomicfile.Write(ctx, m.place(data), text, atomicfile.Replace)
	}
}
