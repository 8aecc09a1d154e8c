package main

import (
	"bytes"
	"cmp"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"

	"puffproof/testdata/compare/random"
)

// design is a design file under comparison.
type design struct {
	name string
	text []byte
	// lot is a number by which designs share the dear commands out, or everyLot.
	lot int
}

// everyLot is the lot of a design on which all commands are run.
const everyLot = -1

// general is no design: commands that need none run once on it.
const general = "(none)"

// gather lists the designs that the flags ask for.
func (c config) gather() ([]design, error) {
	all := []design{{name: general, lot: everyLot}}
	if c.repoFiles {
		shipped, err := filesOf(filepath.Join(c.root, "testdata", "designs"), "")
		if err != nil {
			return nil, err
		}
		scripted, err := scriptDesigns(filepath.Join(c.root, "cmd", "puffproof", "testdata", "script"))
		if err != nil {
			return nil, err
		}
		broken, err := filesOf(filepath.Join(c.root, "testdata", "broken"), "broken-")
		if err != nil {
			return nil, err
		}
		all = slices.Concat(all, shipped, scripted, broken)
	}
	for i := range c.designs {
		seed := c.seed + uint64(i)
		all = append(all, design{fmt.Sprintf("random-%d", seed), random.Design(seed), i})
	}
	if c.only != "" {
		all = slices.DeleteFunc(all, func(d design) bool { return !anyMatch(c.only, d.name) })
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("no design is named %s", c.only)
	}
	return all, nil
}

// anyMatch tells whether a name is one of a comma-separated list of names, in which *
// and ? may stand.
func anyMatch(list, name string) bool {
	for _, pattern := range strings.Split(list, ",") {
		if ok, err := path.Match(strings.TrimSpace(pattern), name); ok && err == nil {
			return true
		}
	}
	return false
}

// filesOf reads the design files of a folder.
func filesOf(dir, prefix string) ([]design, error) {
	names, err := filepath.Glob(filepath.Join(dir, "*.toml"))
	if err != nil || len(names) == 0 {
		return nil, cmp.Or(err, fmt.Errorf("no design files in %s; -root names the top folder of the repository", dir))
	}
	var out []design
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		out = append(out, design{prefix + strings.TrimSuffix(filepath.Base(name), ".toml"), text, everyLot})
	}
	return out, nil
}

// scriptDesigns takes the design files out of the scripts of the whole-program test. A
// file without a barrel is a part that a script appends to its first design.
func scriptDesigns(dir string) ([]design, error) {
	names, err := filepath.Glob(filepath.Join(dir, "*.txtar"))
	if err != nil {
		return nil, err
	}
	var out []design
	for _, name := range names {
		archive, err := txtar.ParseFile(name)
		if err != nil {
			return nil, err
		}
		script := strings.TrimSuffix(filepath.Base(name), ".txtar")
		var first []byte
		for _, file := range archive.Files {
			if filepath.Ext(file.Name) != ".toml" {
				continue
			}
			text := file.Data
			if !bytes.Contains(text, []byte("[barrel]")) {
				text = slices.Concat(first, text)
			} else if first == nil {
				first = text
			}
			out = append(out, design{script + "-" + strings.TrimSuffix(file.Name, ".toml"), text, len(out)})
		}
	}
	return out, nil
}

// writeDesigns writes the design files into a folder.
func writeDesigns(dir string, designs []design) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, d := range designs {
		if d.name == general {
			continue
		}
		if err := os.WriteFile(filepath.Join(dir, d.name+".toml"), d.text, 0o644); err != nil {
			return err
		}
	}
	return nil
}
