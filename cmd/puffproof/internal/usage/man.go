package usage

import (
	"fmt"
	"io"
	"strings"
)

// WriteMan prints the manual page of the program, out of the same words as its help: the macros of man(7), any system's, every
// character that is not plain ASCII as its code.
func (r Registry[R]) WriteMan(w io.Writer, version string) {
	p := roff{w}
	fmt.Fprintf(w, ".TH PUFFPROOF 1 \"\" \"%s\" \"User Commands\"\n", strings.ReplaceAll(escaped("puffproof "+version), `"`, ""))
	p.section("NAME")
	p.text("puffproof - " + strings.TrimSuffix(purpose, "."))
	p.section("SYNOPSIS")
	p.line(`.B puffproof`)
	p.line(`.I COMMAND`)
	p.text("[FLAGS] [FILE]")
	p.section("DESCRIPTION")
	p.text("Reads one design file of a low-pressure air launcher for foam and judges it. puffproof init writes one to fill in.")
	p.paragraph(voluntary)
	p.section("COMMANDS")
	for _, c := range r.Commands {
		writeManOf(p, c)
	}
	p.section("FLAGS OF EVERY COMMAND")
	p.options(everywhere())
	p.paragraph(anywhere)
	p.section("EXIT STATUS")
	for _, st := range exitStatuses() {
		p.entry(`\fB`+st[0]+`\fR`, st[1])
	}
	p.paragraph(interrupted)
}

// writeManOf writes the part of one command.
func writeManOf[R any](p roff, c *Command[R]) {
	p.line(".SS " + quoted(strings.TrimSpace(c.Name+" "+c.Operands)))
	p.text(upper(c.Summary) + ".")
	for _, text := range c.Help {
		p.paragraph(text)
	}
	p.options(c.Options)
	for _, e := range c.Examples {
		p.entry(`\fB`+escaped(e[0])+`\fR`, e[1])
	}
}

// roff writes the source of a manual page.
type roff struct{ w io.Writer }

func (p roff) line(s string) { fmt.Fprintln(p.w, s) }

func (p roff) section(name string) { p.line(".SH " + quoted(name)) }

// text writes a text of its own; one that begins like a request is none.
func (p roff) text(s string) {
	s = escaped(s)
	if strings.HasPrefix(s, ".") || strings.HasPrefix(s, "'") {
		s = `\&` + s
	}
	p.line(s)
}

func (p roff) paragraph(s string) {
	p.line(".PP")
	p.text(s)
}

// entry is a term, already as roff has it, and what it is.
func (p roff) entry(term, meaning string) {
	p.line(".TP")
	p.line(term)
	p.text(meaning)
}

func (p roff) options(all []Option) {
	for _, o := range all {
		term := `\fB` + escaped(typed(o.Name)) + `\fR`
		if o.Short != "" {
			term = `\fB` + escaped("-"+o.Short) + `\fR, ` + term
		}
		if o.Value != "" {
			term += ` \fI` + escaped(o.Value) + `\fR`
		}
		p.entry(term, o.Help)
	}
}

// escaped is a text as roff has it: a backslash is its escape, a hyphen what may break a word, and not what is typed.
func escaped(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\\':
			b.WriteString(`\e`)
		case r == '-':
			b.WriteString(`\-`)
		case r > '~':
			fmt.Fprintf(&b, `\[u%04X]`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// quoted is the argument of a macro.
func quoted(s string) string { return `"` + strings.ReplaceAll(escaped(s), `"`, `\(dq`) + `"` }

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
