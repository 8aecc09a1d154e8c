package app

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/cmd/puffproof/internal/waiting"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
)

// Host is what a run takes from the machine beside the files that its command
// line names. A test gives its own.
type Host struct {
	Stdin          io.Reader
	Stdout, Stderr io.Writer
	Environ        []string          // KEY=VALUE lines, as os.Environ gives them
	Now            func() time.Time  // the clock: what is past is past on its day
	Terminal       *waiting.Terminal // behind stderr; nil: there is none
	Interactive    bool              // somebody sits before stdin and stdout
}

// Call is one run of a command.
type Call struct {
	Host
	Out  *bytes.Buffer // reaches stdout when the command has ended without an error
	Args []string      // the operands

	flags  *cli.Context
	inputs []usedFile // every file that was or will be read
	wrote  []string   // every file that was written
	// designText is the design file that was read; nil: none was.
	designText []byte
	style      screen.Style
	json       bool
	quiet      bool

	waiting *waiting.Line  // shows what the run is at
	soFar   *waiting.SoFar // what an interrupt leaves of the run
}

// readGlobals takes over the flags that every command understands.
func (c *Call) readGlobals() {
	c.json = c.flags.Bool("json")
	c.quiet = c.flags.Bool("quiet")
	if c.flags.Bool("no-color") {
		c.style.Colour = false
	}
	if c.flags.String("units") == string(quantity.US) {
		c.style.Units = quantity.US
	}
}

// whether gives one of two values by a flag.
func whether[T any](c *Call, flag string, set, unset T) T {
	if c.flags.Bool(flag) {
		return set
	}
	return unset
}

// frame is what a screen of a design begins with.
func (c *Call) frame(id show.DesignID) screen.Frame {
	return screen.Frame{Style: c.style, Design: id, Detail: whether(c, "quiet", screen.FindingOnly, screen.Everything),
		DimensionOf: manual.DimensionOf}
}

// today is the day of the run, an ISO date.
func (c *Call) today() string { return c.Now().Format(time.DateOnly) }

// day is the date of the flag --date, without it today.
func (c *Call) day() (string, error) {
	date := c.flags.String("date")
	if date == "" {
		return c.today(), nil
	}
	if _, err := time.Parse(time.DateOnly, date); err != nil {
		return "", inputErrorf("--date is a date, year-month-day, such as 2026-05-31; found %q", date)
	}
	return date, nil
}

// terminalStyle finds out what stdout can show. Only a terminal gets colours,
// and not when NO_COLOR has any value that is not empty (no-color.org) or the
// terminal calls itself dumb. A pipe is 80 columns wide.
func terminalStyle(stdout io.Writer, environ []string) screen.Style {
	s := screen.Style{Width: screen.DefaultWidth}
	f, ok := stdout.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return s
	}
	s.Colour = lookup(environ, "NO_COLOR") == "" && lookup(environ, "TERM") != "dumb"
	if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
		s.Width = min(max(w, screen.MinWidth), screen.MaxWidth)
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

// words are the units of what is said beside a document in SI units: in a document, and of
// what is wrong with a file that it stands in for, they are metric whatever is asked.
func (c *Call) words() quantity.System {
	if c.json {
		return quantity.Metric
	}
	return c.style.Units
}

// quantityOf reads what a flag or a file gives, and says in the units asked what is wrong
// with it.
func (c *Call) quantityOf(text string, d unit.Dimension) (unit.Quantity, *unit.Error) {
	return unit.System(c.style.Units).Parse(text, d)
}

// understand makes a launcher of the text of a design file.
func (c *Call) understand(name string, text []byte, beside *design.Proof) (*launcher.Launcher, show.DesignID, error) {
	if name == "-" {
		name = "standard input"
	}
	l, problems := design.Reader{Units: c.words(), Proof: beside}.Read(name, text)
	if len(problems) > 0 {
		return nil, show.DesignID{}, refused(name, text, problems)
	}
	return l, idOf(l, text), nil
}

// editableOf is the design of a name, with the file as it is written.
func (c *Call) editableOf(ctx context.Context, name string) (*design.Editable, show.DesignID, error) {
	data, err := c.readFile(ctx, name)
	if err != nil {
		return nil, show.DesignID{}, err
	}
	return c.openDesign(name, data, proving.Beside(name))
}

// openDesign is a design file that can be changed; beside is its record (nil: there is none).
func (c *Call) openDesign(name string, data []byte, beside *design.Proof) (*design.Editable, show.DesignID, error) {
	if name == "-" {
		name = "standard input"
	}
	d, problems := design.Reader{Units: c.words(), Proof: beside}.Open(name, data)
	if len(problems) > 0 {
		return nil, show.DesignID{}, refused(name, data, problems)
	}
	return d, idOf(d.Launcher(), data), nil
}

// idOf names a design and the bytes of its file.
func idOf(l *launcher.Launcher, file []byte) show.DesignID {
	return show.DesignID{Name: l.Name, Revision: l.Revision, SHA256: fingerprintOf(file)}
}

// refused says what is wrong with a file that is no design: of a paper, a sheet or a record of this program what it is for.
func refused(name string, text []byte, problems []design.Problem) error {
	a, err := document.ReadArchive(text)
	switch {
	case errors.Is(err, document.ErrNoArchive):
		if other := inputfile.Instead(show.InShell(name), string(text)); other != "" {
			return inputErrorf("%s: %s", name, other)
		}
		return &fileError{problems}
	case err != nil:
		return inputErrorf("%s: is a paper that this program made, not a design; %v", name, err)
	}
	return inputErrorf("%s: is a %s that this program made, not a design; puffproof verify %s tells whether it is still true", name, a.Paper,
		name)
}

func fingerprintOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// written is a result as text.
type written interface{ Write(io.Writer) error }

// show prints a result: its JSON document with --json, else its screen. err is what
// was wrong with the document, which is made for the screen too: a figure that is no
// number withholds both.
func (c *Call) show(document any, err error, text written) error {
	switch {
	case err != nil:
		return err
	case c.json:
		return c.writeJSON(document)
	}
	return text.Write(c.Out)
}

// listProblems prints what is wrong inside of a file as the one document of a run
// with --json; it prints nothing where the error is another.
func (c *Call) listProblems(err error) error {
	var file *fileError
	if !c.json || !errors.As(err, &file) {
		return nil
	}
	return c.writeJSON(map[string]any{"problems": file.problems})
}

// writeJSON prints v as the one document of this run.
func (c *Call) writeJSON(v any) error {
	if err := show.WriteJSON(c.Out, v); err != nil {
		return fmt.Errorf("a figure is no number: %w", err)
	}
	return nil
}

// wait shows what a command is at, unless the line asks for quiet or for one JSON document.
func (c *Call) wait(ctx context.Context, command string) context.Context {
	if c.quiet || c.json {
		return ctx
	}
	units := c.style.Units
	return c.waiting.Begin(ctx, c.Stderr, c.Terminal, c.Now(), func(took time.Duration, r progress.Report, columns int) string {
		return show.WaitLine(units, command, took, r, columns)
	})
}
