package app

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"puffproof/cmd/puffproof/internal/usage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// readmeCommand is a command that the README shows, and the screen below it.
type readmeCommand struct {
	args   []string // without the program's name
	before string   // the last line of the text before it
	screen string   // "": the README shows none
}

// readmeCommands takes the commands out of the README: indented lines, what stands
// behind two blanks being their explanation. A fenced block without a language is
// the screen of the last command above it.
func readmeCommands(text string) []readmeCommand {
	command := regexp.MustCompile(`^    (?:go run \./cmd/puffproof|\./puffproof) (.+)$`)
	var list []readmeCommand
	fenced, screen, words := false, false, ""
	for line := range strings.Lines(text) {
		switch m := command.FindStringSubmatch(strings.TrimRight(line, "\n")); {
		case strings.HasPrefix(line, "```"):
			fenced, screen = !fenced, line == "```\n"
		case fenced && screen && len(list) > 0:
			list[len(list)-1].screen += line
		case fenced:
		case m != nil:
			typed, _, _ := strings.Cut(m[1], "  ")
			list = append(list, readmeCommand{args: strings.Fields(typed), before: words})
		case strings.TrimSpace(line) != "":
			words = strings.TrimSpace(line)
		}
	}
	return list
}

// The screens in the README are what the program prints, figures and all: here
// the searches look as hard as they do for people.
func TestReadmeScreens(t *testing.T) {
	t.Chdir("../../../..")
	text, err := os.ReadFile("README.md")
	require.NoError(t, err)
	// The difference of two figures that are the same but for rounding is the processor's.
	rounding := regexp.MustCompile(`-?\d(\.\d+)?e-1[3-9]\b`)
	shown := 0
	for _, c := range readmeCommands(string(text)) {
		if c.screen == "" {
			continue
		}
		shown++
		var out, errOut bytes.Buffer
		host := Host{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &errOut, Now: time.Now}
		assert.Zero(t, Main(t.Context(), host, append([]string{"puffproof"}, c.args...)), "%s: %s", c.args, &errOut)
		want, got := rounding.ReplaceAllString(c.screen, "0"), rounding.ReplaceAllString(out.String(), "0")
		if strings.HasSuffix(c.before, "begins like this:") {
			got = got[:min(len(got), len(want))]
		}
		assert.Equal(t, want, got, "puffproof %s", strings.Join(c.args, " "))
	}
	assert.Equal(t, 2, shown, "screens in the README")
}

// Every command line in the README is one that the program understands, and the
// README shows every command but the shell's completion.
func TestReadmeCommands(t *testing.T) {
	text, err := os.ReadFile("../../../../README.md")
	require.NoError(t, err)
	reg := newRegistry()
	named := map[string]bool{"completion": true}
	for _, c := range readmeCommands(string(text)) {
		line, err := usage.Parse(reg, append([]string{"puffproof"}, c.args...))
		if assert.NoError(t, err, "%q", c.args) {
			named[line.Command.Name] = true
		}
	}
	for _, name := range reg.Names() {
		assert.True(t, named[name], "the README shows no puffproof %s", name)
	}
}
