package usage

import (
	"slices"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
)

// Line is a command line after it was understood: what urfave/cli cannot
// be trusted with (flags behind the file name, one-line errors, hints) is done.
type Line[R any] struct {
	Command       *Command[R] // nil: none is named
	Help, Version bool
	Man           bool // with Help, of no command: the manual page of all
	flags         []flagValue
	operands      []string
}

type flagValue struct{ name, value string }

// Canonical is the line as urfave/cli understands it without doubt: flags with
// "=" first, then "--", then operands.
func (l *Line[R]) Canonical() []string {
	out := []string{"puffproof", l.Command.Name}
	for _, f := range l.flags {
		out = append(out, "--"+f.name+"="+f.value)
	}
	return append(append(out, "--"), l.operands...)
}

// Units are those that the line asks for.
func (l *Line[R]) Units() quantity.System {
	if slices.Contains(l.flags, flagValue{"units", string(quantity.US)}) {
		return quantity.US
	}
	return quantity.Metric
}

// Parse understands args, args[0] being the program's name.
func Parse[R any](reg Registry[R], args []string) (*Line[R], error) {
	l := &Line[R]{}
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
	if l.Man && (!l.Help || l.Command != nil) {
		return nil, Errorf("--man goes with help, and has every command: puffproof help --man")
	}
	return l, l.checkFlags(reg)
}

// startsWithDash also sees the long dashes that word processors put in.
func startsWithDash(a string) bool {
	return strings.HasPrefix(a, "-") || strings.HasPrefix(a, "–") || strings.HasPrefix(a, "—")
}

// readFlag understands one flag and says how many of the arguments after it
// were its value.
func (l *Line[R]) readFlag(reg Registry[R], arg string, rest []string) (int, error) {
	if !strings.HasPrefix(arg, "-") {
		return 0, Errorf("%q begins with a long dash; type two hyphens", arg)
	}
	name, value, hasValue := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(arg, "-"), "-"), "=")
	switch name {
	case "h", "help":
		l.Help = true
		return 0, nil
	case "version":
		l.Version = true
		return 0, nil
	case "man":
		l.Man = true
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
			return 0, Errorf("%s takes no value, or true or false; found %q", typed(name), value)
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
			return 0, Errorf("%s is %s, not %q", typed(name), orList(o.Choices), v)
		}
		l.flags = append(l.flags, flagValue{name, v})
	}
	return used, nil
}

// nextValue takes a flag's value from the argument after it. A minus before a
// figure is a value; any other dash is more likely the next flag.
func nextValue(o Option, rest []string) (string, error) {
	if len(rest) == 0 || rest[0] == "--" {
		return "", Errorf("%s needs a value: %s=%s", typed(o.Name), typed(o.Name), o.Value)
	}
	v := rest[0]
	if startsWithDash(v) && v != "-" && !(len(v) > 1 && strings.ContainsRune(".0123456789", rune(v[1]))) {
		return "", Errorf("%s needs a value, found %q; if that is the value, write %s=%s", typed(o.Name), v, typed(o.Name), v)
	}
	return v, nil
}

// unknownFlag makes the error for a flag that no command has.
func unknownFlag[R any](reg Registry[R], arg, name string) error {
	if name != "" && strings.ContainsRune(".0123456789", rune(name[0])) {
		return Errorf("unknown flag %q; a value that begins with a minus is given with =, a file name after --", arg)
	}
	known := []string{"help", "version"}
	for _, c := range append([]*Command[R]{{Options: GlobalOptions()}}, reg.Commands...) {
		for _, o := range c.Options {
			known = append(known, o.Name)
		}
	}
	if near := Nearest(name, known, flagSynonyms()); near != "" {
		return Errorf("unknown flag %q; did you mean %s?", arg, typed(near))
	}
	return Errorf("unknown flag %q; puffproof help lists the flags", arg)
}

// readWords finds the command among the words that are no flags.
func (l *Line[R]) readWords(reg Registry[R], words []string) error {
	if l.Version || len(words) == 0 {
		return nil
	}
	name := words[0]
	l.operands = words[1:]
	if name == "help" {
		l.Help = true
		if len(l.operands) == 0 {
			return nil
		}
		name, l.operands = l.operands[0], nil
	}
	if l.Command = reg.find(name); l.Command == nil {
		return unknownCommand(reg, name)
	}
	return nil
}

// unknownCommand makes the error for a word that is no command.
func unknownCommand[R any](reg Registry[R], name string) error {
	if near := Nearest(name, append(reg.Names(), "help"), commandSynonyms()); near != "" {
		return Errorf("unknown command %q; did you mean %s?", name, near)
	}
	if strings.HasSuffix(strings.ToLower(name), ".toml") {
		return Errorf("%q is a file, not a command; to judge it: puffproof check %s", name, name)
	}
	return Errorf("unknown command %q; puffproof help lists the commands", name)
}

// checkFlags holds flags and operands against the command they came with.
func (l *Line[R]) checkFlags(reg Registry[R]) error {
	if l.Command == nil || l.Help || l.Version {
		return nil
	}
	c := l.Command
	for i, f := range l.flags {
		o, own := c.option(f.name)
		if !own && !isGlobal(f.name) {
			return Errorf("%s is no flag of %s; it belongs to %s", typed(f.name), c.Name, reg.owners(f.name))
		}
		given := func(g flagValue) bool { return g.name == f.name }
		if whole, _ := reg.option(f.name); whole.Value != "" && !o.Many && slices.ContainsFunc(l.flags[:i], given) {
			return Errorf("%s is given twice", typed(f.name))
		}
	}
	switch n := len(l.operands); {
	case n < c.Min:
		return Errorf("%s needs %s: puffproof %s %s", c.Name, countNoun(c.Min, c), c.Name, c.Operands)
	case n > c.Max && c.Max == 0:
		return Errorf("%s takes nothing after its name, found %q", c.Name, l.operands[0])
	case n > c.Max:
		return Errorf("%s takes %s, found %d: %q", c.Name, countNoun(c.Max, c), n, l.operands)
	}
	return nil
}

func isGlobal(name string) bool {
	return slices.ContainsFunc(GlobalOptions(), func(o Option) bool { return o.Name == name })
}

// owners names the commands that have an option.
func (r Registry[R]) owners(name string) string {
	var out []string
	for _, c := range r.Commands {
		if _, ok := c.option(name); ok {
			out = append(out, c.Name)
		}
	}
	return strings.Join(out, ", ")
}

// countNoun says "one file" or "one operand" in words.
func countNoun[R any](n int, c *Command[R]) string {
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
