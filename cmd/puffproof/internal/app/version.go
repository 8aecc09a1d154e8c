package app

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"runtime"
	"runtime/debug"

	"puffproof/cmd/puffproof/internal/paper"
)

// version is the version of the module, or the revision it was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown version"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			return "revision " + s.Value
		}
	}
	return "development build"
}

// program names what makes a paper: version and processor. Kinds of processor
// round the last digit in different ways, and a paper holds such digits.
func program() string { return version() + " (" + runtime.GOARCH + ")" }

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
