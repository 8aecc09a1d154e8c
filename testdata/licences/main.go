// Command licences lists the modules that are linked into puffproof, as built for Linux,
// with their licences by the short names of SPDX: the table of DEVELOPERS.md. A licence
// that it does not know is an error, for somebody has to read it.
package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

func main() {
	modules, err := linked()
	if err != nil {
		fmt.Fprintln(os.Stderr, "licences:", err)
		os.Exit(1)
	}
	fmt.Print("| module | version | licence |\n|---|---|---|\n")
	for _, m := range modules {
		names, err := m.licences()
		if err != nil {
			fmt.Fprintf(os.Stderr, "licences: %s: %v\n", m.path, err)
			os.Exit(1)
		}
		fmt.Printf("| %s | %s | %s |\n", m.path, m.version, strings.Join(names, "; "))
	}
}

// module is one linked module and where its files lie.
type module struct{ path, version, folder string }

// linked asks the go command.
func linked() ([]module, error) {
	list := exec.Command("go", "list", "-deps", "-f",
		"{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}", "./cmd/puffproof")
	list.Env = append(os.Environ(), "GOOS=linux", "GOARCH=amd64", "CGO_ENABLED=0")
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		return nil, err
	}
	lines := strings.Fields(strings.ReplaceAll(string(out), "\t", "\x00"))
	slices.Sort(lines)
	var modules []module
	for _, line := range slices.Compact(lines) {
		part := strings.Split(line, "\x00")
		modules = append(modules, module{part[0], part[1], part[2]})
	}
	return modules, nil
}

// licences names those of the files at the root of the module that state one.
func (m module) licences() ([]string, error) {
	files, err := filepath.Glob(filepath.Join(m.folder, "LICENSE*"))
	if err != nil {
		return nil, err
	}
	var names []string
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		name := named(text)
		if name == "" {
			return nil, fmt.Errorf("%s is a licence that this command does not know", filepath.Base(file))
		}
		names = append(names, name)
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("no file LICENSE in %s", m.folder)
	}
	slices.Sort(names)
	return slices.Compact(names), nil
}

// named recognises a licence by the words that only it has; "" for none.
func named(text []byte) string {
	plain := bytes.Join(bytes.Fields(bytes.ReplaceAll(text, []byte(">"), nil)), []byte(" "))
	has := func(words string) bool { return bytes.Contains(bytes.ToLower(plain), []byte(words)) }
	switch {
	case has("choice of exactly one of the following") && has("freetype license") && has("gnu general public license"):
		return "FTL or GPL-2.0-or-later, by choice"
	case has("sil open font license"):
		return "OFL-1.1"
	case has("creative commons attribution 4.0"):
		return "CC-BY-4.0"
	case has("permission is hereby granted, free of charge"):
		return "MIT"
	case has("redistribution and use in source and binary forms") && has("endorse or promote"):
		return "BSD-3-Clause"
	case has("redistribution and use in source and binary forms"):
		return "BSD-2-Clause"
	}
	return ""
}
