package app

import (
	"slices"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
)

// commandLine is a command line after it was understood: what urfave/cli cannot
// be trusted with (flags behind the file name, one-line errors, hints) is done.
type commandLine struct {
	command       *Command
	help, version bool
	flags         []flagValue
	operands      []string
}

type flagValue struct{ name, value string }

// canonical is the line as urfave/cli understands it without doubt: flags with
// "=" first, then "--", then operands.
func (l *commandLine) canonical() []string {
	out := []string{"puffproof", l.command.Name}
	for _, f := range l.flags {
		out = append(out, "--"+f.name+"="+f.value)
	}
	return append(append(out, "--"), l.operands...)
}

// units are those that the line asks for.
func (l *commandLine) units() quantity.System {
	if slices.Contains(l.flags, flagValue{"units", string(quantity.US)}) {
		return quantity.US
	}
	return quantity.Metric
}

// parseLine understands args, args[0] being the program's name.
func parseLine(reg registry, args []string) (*commandLine, error) {
	l := &commandLine{}
	var words []string
	if len(args) > 0 {
		args = args[1:]
	}
	for i := 0; i < len(args); i++ {
		a := args[i]
		if a == "--" {
			words = append(words, args[i+1:]...)
			break
		}
		if a == "-" || !startsWithDash(a) {
			words = append(words, a)
			continue
		}
		used, err := l.readFlag(reg, a, args[i+1:])
		if err != nil {
			return nil, err
		}
		i += used
	}
	if err := l.readWords(reg, words); err != nil {
		return nil, err
	}
	return l, l.checkFlags(reg)
}

// startsWithDash also sees the long dashes that word processors put in.
func startsWithDash(a string) bool {
	return strings.HasPrefix(a, "-") || strings.HasPrefix(a, "–") || strings.HasPrefix(a, "—")
}

// readFlag understands one flag and says how many of the arguments after it
// were its value.
func (l *commandLine) readFlag(reg registry, arg string, rest []string) (int, error) {
	if !strings.HasPrefix(arg, "-") {
		return 0, inputErrorf("%q begins with a long dash; type two hyphens", arg)
	}
	name, value, hasValue := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(arg, "-"), "-"), "=")
	switch name {
	case "h", "help":
		l.help = true
		return 0, nil
	case "version":
		l.version = true
		return 0, nil
	}
	o, ok := reg.option(name)
	if !ok {
		return 0, unknownFlag(reg, arg, name)
	}
	name = o.Name
	used := 0
	switch {
	case o.Value == "" && !hasValue:
		value = "true"
	case o.Value == "":
		if _, err := strconv.ParseBool(value); err != nil {
			return 0, inputErrorf("--%s takes no value, or true or false; found %q", name, value)
		}
	case !hasValue:
		var err error
		if value, err = nextValue(o, rest); err != nil {
			return 0, err
		}
		used = 1
	}
	values := []string{value}
	if o.Many && len(o.Choices) > 0 {
		values = strings.Split(value, ",")
	}
	for _, v := range values {
		if len(o.Choices) > 0 && !slices.Contains(o.Choices, v) {
			return 0, inputErrorf("--%s is %s, not %q", name, orList(o.Choices), v)
		}
		l.flags = append(l.flags, flagValue{name, v})
	}
	return used, nil
}

// nextValue takes a flag's value from the argument after it. A minus before a
// figure is a value; any other dash is more likely the next flag.
func nextValue(o Option, rest []string) (string, error) {
	if len(rest) == 0 || rest[0] == "--" {
		return "", inputErrorf("--%s needs a value: --%s=%s", o.Name, o.Name, o.Value)
	}
	v := rest[0]
	if startsWithDash(v) && v != "-" && !(len(v) > 1 && strings.ContainsRune(".0123456789", rune(v[1]))) {
		return "", inputErrorf("--%s needs a value, found %q; if that is the value, write --%s=%s", o.Name, v, o.Name, v)
	}
	return v, nil
}

// unknownFlag makes the error for a flag that no command has.
func unknownFlag(reg registry, arg, name string) error {
	if name != "" && strings.ContainsRune(".0123456789", rune(name[0])) {
		return inputErrorf("unknown flag %q; a value that begins with a minus is given with =, a file name after --", arg)
	}
	known := []string{"help", "version"}
	for _, c := range append([]*Command{{Options: globalOptions()}}, reg.commands...) {
		for _, o := range c.Options {
			known = append(known, o.Name)
		}
	}
	if near := nearest(name, known, flagSynonyms()); near != "" {
		return inputErrorf("unknown flag %q; did you mean --%s?", arg, near)
	}
	return inputErrorf("unknown flag %q; puffproof help lists the flags", arg)
}

// readWords finds the command among the words that are no flags.
func (l *commandLine) readWords(reg registry, words []string) error {
	if l.version || len(words) == 0 {
		return nil
	}
	name := words[0]
	l.operands = words[1:]
	if name == "help" {
		l.help = true
		if len(l.operands) == 0 {
			return nil
		}
		name, l.operands = l.operands[0], nil
	}
	if l.command = reg.find(name); l.command == nil {
		return unknownCommand(reg, name)
	}
	return nil
}

// unknownCommand makes the error for a word that is no command.
func unknownCommand(reg registry, name string) error {
	if near := nearest(name, append(reg.names(), "help"), commandSynonyms()); near != "" {
		return inputErrorf("unknown command %q; did you mean %s?", name, near)
	}
	if strings.HasSuffix(strings.ToLower(name), ".toml") {
		return inputErrorf("%q is a file, not a command; to judge it: puffproof check %s", name, name)
	}
	return inputErrorf("unknown command %q; puffproof help lists the commands", name)
}

// checkFlags holds flags and operands against the command they came with.
func (l *commandLine) checkFlags(reg registry) error {
	if l.command == nil || l.help || l.version {
		return nil
	}
	c := l.command
	for i, f := range l.flags {
		o, own := c.option(f.name)
		if !own && !isGlobal(f.name) {
			return inputErrorf("--%s is no flag of %s; it belongs to %s", f.name, c.Name, reg.owners(f.name))
		}
		given := func(g flagValue) bool { return g.name == f.name }
		if whole, _ := reg.option(f.name); whole.Value != "" && !o.Many && slices.ContainsFunc(l.flags[:i], given) {
			return inputErrorf("--%s is given twice", f.name)
		}
	}
	switch n := len(l.operands); {
	case n < c.Min:
		return inputErrorf("%s needs %s: puffproof %s %s", c.Name, countNoun(c.Min, c), c.Name, c.Operands)
	case n > c.Max && c.Max == 0:
		return inputErrorf("%s takes nothing after its name, found %q", c.Name, l.operands[0])
	case n > c.Max:
		return inputErrorf("%s takes %s, found %d: %q", c.Name, countNoun(c.Max, c), n, l.operands)
	}
	return nil
}

func isGlobal(name string) bool {
	return slices.ContainsFunc(globalOptions(), func(o Option) bool { return o.Name == name })
}

// owners names the commands that have an option.
func (r registry) owners(name string) string {
	var out []string
	for _, c := range r.commands {
		if _, ok := c.option(name); ok {
			out = append(out, c.Name)
		}
	}
	return strings.Join(out, ", ")
}

// countNoun says "one file" or "one operand" in words.
func countNoun(n int, c *Command) string {
	noun := "word"
	if c.Files {
		noun = "file"
	}
	if n == 1 {
		return "one " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// orList joins words as "a or b".
func orList(words []string) string { return strings.Join(words, " or ") }
