package app

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/limits/launcher"
	"strings"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"
)

// Call is one run of a command.
type Call struct {
	Stdin    io.Reader
	Out      *bytes.Buffer // reaches stdout when the command has ended without an error
	Messages io.Writer     // stderr
	Args     []string      // the operands

	flags    *cli.Context
	inputs   []usedFile // every file that was read
	style    render.Style
	json     bool
	quiet    bool
	services services
}

// readGlobals takes over the flags that every command understands.
func (c *Call) readGlobals() error {
	c.json = c.flags.Bool("json")
	c.quiet = c.flags.Bool("quiet")
	if c.flags.Bool("no-color") {
		c.style.Colour = false
	}
	if c.flags.String("units") == "us" {
		c.style.Units = render.US
	}
	return nil
}

// terminalStyle finds out what stdout can show. Only a terminal gets colours,
// and not when NO_COLOR has any value that is not empty (no-color.org) or the
// terminal calls itself dumb. A pipe is 80 columns wide.
func terminalStyle(stdout io.Writer, environ []string) render.Style {
	s := render.Style{Width: render.DefaultWidth}
	f, ok := stdout.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return s
	}
	s.Colour = lookup(environ, "NO_COLOR") == "" && lookup(environ, "TERM") != "dumb"
	if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
		s.Width = min(max(w, render.MinWidth), render.MaxWidth)
	}
	return s
}

// lookup finds the last value of a variable, as a shell would.
func lookup(environ []string, key string) string {
	value := ""
	for _, kv := range environ {
		if k, v, ok := strings.Cut(kv, "="); ok && k == key {
			value = v
		}
	}
	return value
}

// maxDesignBytes is far above any design; more is a wrong file.
const maxDesignBytes = 1 << 20

// readDesign reads and understands the design file that the first operand names.
func (c *Call) readDesign() (*launcher.Launcher, render.DesignID, error) {
	name := c.Args[0]
	data, err := c.readFile(name)
	if err != nil {
		return nil, render.DesignID{}, err
	}
	if name == "-" {
		name = "standard input"
	}
	l, err := c.services.read(name, data)
	if err != nil {
		return nil, render.DesignID{}, &listedError{err}
	}
	sum := sha256.Sum256(data)
	return l, render.DesignID{Name: l.Name, Revision: l.Revision, SHA256: hex.EncodeToString(sum[:])}, nil
}

// readFile reads a file, or standard input for "-", and says in one line what
// is wrong where it cannot.
func (c *Call) readFile(name string) ([]byte, error) {
	var in io.Reader = c.Stdin
	switch {
	case name == "":
		return nil, inputErrorf("the file name is empty")
	case name == "-":
		if f, ok := c.Stdin.(*os.File); ok {
			c.used("standard input", f)
		}
	case name != "-":
		info, err := os.Stat(name)
		if err != nil {
			return nil, inputErrorf("%s: %s", name, cause(err))
		}
		if info.IsDir() {
			return nil, inputErrorf("%s: is a folder; give the design file in it", name)
		}
		f, err := os.Open(name)
		if err != nil {
			return nil, inputErrorf("%s: %s", name, cause(err))
		}
		defer f.Close()
		c.used(name, f)
		in = f
	}
	data, err := io.ReadAll(io.LimitReader(in, maxDesignBytes+1))
	switch {
	case err != nil:
		return nil, inputErrorf("%s: %s", name, cause(err))
	case len(data) > maxDesignBytes:
		return nil, inputErrorf("%s: is larger than 1 MiB and so no file of this program", name)
	}
	return data, nil
}

// writeJSON prints v as the one document of this run.
func (c *Call) writeJSON(v any) error {
	if err := render.WriteJSON(c.Out, v); err != nil {
		return fmt.Errorf("a figure is no number: %w", err)
	}
	return nil
}
