package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/gob"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// program is one of the two builds.
type program struct {
	path, sha, version string
	fresh              bool // it is run even where its output is kept
}

func openProgram(ctx context.Context, path string) (program, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return program{}, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return program{}, err
	}
	said, err := exec.CommandContext(ctx, path, "--version").Output()
	if err != nil {
		return program{}, fmt.Errorf("%s --version: %w", path, err)
	}
	return program{path: path, sha: digest(data), version: strings.TrimPrefix(strings.TrimSpace(string(said)), "puffproof ")}, nil
}

// digest is a short fingerprint of some bytes.
func digest(parts ...[]byte) string {
	h := sha256.New()
	for _, p := range parts {
		fmt.Fprintf(h, "%d:", len(p))
		h.Write(p)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// outcome is what a command gave.
type outcome struct {
	Stdout, Stderr []byte
	Exit           int
	Files          map[string][]byte // that it wrote or changed
	TimedOut       bool
	Limit          time.Duration // of its processor time, where it ran out of it
	Computed       time.Duration // processor time
	Day            string        // on which it ran: some answers depend on it
}

// mostWaiting is how many times its processor time a command may take by the clock.
const mostWaiting = 60

// runner runs commands, each in a folder of its own, and keeps what they gave.
type runner struct {
	cache, strength, day string
	timeout              time.Duration
	slots                chan struct{} // one a command that may run at a time
}

// run gives the outcome of a command on some files, kept or fresh.
func (r *runner) run(ctx context.Context, p program, args []string, files map[string][]byte) (outcome, error) {
	key := r.key(p, args, files)
	if !p.fresh {
		if o, ok := r.kept(key); ok {
			return o, nil
		}
	}
	o, err := r.execute(ctx, p, args, files)
	if err != nil {
		return o, err
	}
	return o, r.keep(key, o)
}

func (r *runner) key(p program, args []string, files map[string][]byte) string {
	parts := [][]byte{[]byte(p.sha), []byte(r.strength), []byte(strings.Join(args, "\x00"))}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		parts = append(parts, []byte(name), files[name])
	}
	return digest(parts...)
}

func (r *runner) file(key string) string { return filepath.Join(r.cache, key[:2], key+".gob.gz") }

// kept gives an outcome of the cache. A command that ran out of time then gets another
// chance where it may run longer now.
func (r *runner) kept(key string) (o outcome, ok bool) {
	data, err := os.ReadFile(r.file(key))
	if err != nil {
		return o, false
	}
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return o, false
	}
	if err := gob.NewDecoder(z).Decode(&o); err != nil {
		return outcome{}, false
	}
	return o, !o.TimedOut || o.Limit >= r.timeout
}

// keep puts an outcome into the cache; the file appears whole or not at all.
func (r *runner) keep(key string, o outcome) error {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	if err := errors.Join(gob.NewEncoder(z).Encode(o), z.Close()); err != nil {
		return err
	}
	name := r.file(key)
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(name), "new-")
	if err != nil {
		return err
	}
	_, err = f.Write(b.Bytes())
	if err := errors.Join(err, f.Close()); err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return os.Rename(f.Name(), name)
}

// execute runs a command in a new folder that has the files.
func (r *runner) execute(ctx context.Context, p program, args []string, files map[string][]byte) (outcome, error) {
	select {
	case r.slots <- struct{}{}:
	case <-ctx.Done():
		return outcome{}, ctx.Err()
	}
	defer func() { <-r.slots }()
	dir, err := os.MkdirTemp("", "compare-")
	if err != nil {
		return outcome{}, err
	}
	defer os.RemoveAll(dir)
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			return outcome{}, err
		}
	}
	limited, cancel := context.WithTimeout(ctx, mostWaiting*r.timeout)
	defer cancel()
	var out, faults bytes.Buffer
	// The shell bounds the processor time, which a busy machine does not change. One core a
	// command: two commands at a time fill two cores better than one that splits its
	// searches, and the answers do not depend on it.
	seconds := fmt.Sprint(math.Ceil(r.timeout.Seconds()))
	command := exec.CommandContext(limited, "/bin/sh", append([]string{"-c", `ulimit -t "$0"; exec "$@"`, seconds, p.path}, args...)...)
	command.Dir, command.Stdout, command.Stderr = dir, &out, &faults
	command.Env = append(os.Environ(), "PUFFPROOF_STRENGTH="+r.strength, "GOMAXPROCS=1", "NO_COLOR=1", "COLUMNS=")
	err = command.Run()
	if ctx.Err() != nil {
		return outcome{}, ctx.Err()
	}
	if ended := (*exec.ExitError)(nil); err != nil && !errors.As(err, &ended) {
		return outcome{}, err
	}
	state := command.ProcessState
	computed := state.UserTime() + state.SystemTime()
	// The kernel counts in ticks and may kill a little early.
	if killed := state.ExitCode() < 0; killed && (limited.Err() != nil || computed >= r.timeout/2) {
		return outcome{TimedOut: true, Limit: r.timeout, Computed: computed, Day: r.day}, nil
	}
	o := outcome{Stdout: out.Bytes(), Stderr: faults.Bytes(), Exit: state.ExitCode(), Computed: computed, Day: r.day}
	o.Files, err = written(dir, files)
	return o, err
}

// written reads the files of a folder that were not there before, or not so.
func written(dir string, before map[string][]byte) (map[string][]byte, error) {
	out := map[string][]byte{}
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if was, there := before[name]; !there || !bytes.Equal(was, data) {
			out[name] = data
		}
		return err
	})
	return out, err
}
