package toml

import (
	"bytes"
	"errors"
	"regexp"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"puffproof/cmd/puffproof/internal/problem"
)

// This is the only file that touches the TOML library, its unstable parser
// included: the syntax tree is needed for the place of every fault.

// mostSyntax bounds the syntax errors that are reported of one file.
const mostSyntax = 10

// statement is what the start of a line looks like after which reading can go
// on behind a syntax error.
var statement = regexp.MustCompile(`(?m)^[ \t]*(?:\[|[A-Za-z0-9_"'.-]+[ \t]*=)`)

// parse makes the tree of the file. Behind a syntax error it goes on at the next
// line that looks like a statement.
func (f *File) parse() {
	data, current := f.data, f.Root
	start, syntax := 0, 0
	for {
		p := &unstable.Parser{}
		p.Reset(data[start:])
		for p.NextExpression() {
			current = f.expression(p, start, current)
		}
		if p.Error() == nil {
			break
		}
		at := start + errorOffset(p.Error(), data[start:])
		f.syntaxFault(at, p.Error())
		f.Partial = true
		next := nextStatement(data, at)
		if syntax++; syntax == mostSyntax || next < 0 {
			break
		}
		if f.lineText(at)[0] == '[' { // the keys below belong to nobody knows what
			current = newTable("?", at)
		}
		start = next
	}
	if !f.Partial && f.Sound() {
		f.strictDecode()
	}
}

// strictDecode lets the library's full decoder see the file too: it knows rules
// of TOML that the tree does not.
func (f *File) strictDecode() {
	var all map[string]any
	err := toml.Unmarshal(f.data, &all)
	if err == nil {
		return
	}
	f.Partial = true
	offset := 0
	var d *toml.DecodeError
	if errors.As(err, &d) {
		line, column := d.Position()
		offset = f.lines[min(max(line-1, 0), len(f.lines)-1)] + max(column-1, 0)
	}
	f.Fault(offset, problem.Problem{Message: "not valid TOML: " + plainMessage(err)})
}

// errorOffset gives the place of a syntax error: the parser's highlight is a
// slice of the data.
func errorOffset(err error, data []byte) int {
	var p *unstable.ParserError
	if errors.As(err, &p) {
		if at := cap(data) - cap(p.Highlight); at >= 0 && at <= len(data) {
			return at
		}
	}
	return len(data)
}

// nextStatement finds the first line after the offset where reading can go on,
// or -1.
func nextStatement(data []byte, at int) int {
	at = min(at, len(data))
	eol := bytes.IndexByte(data[at:], '\n')
	if eol < 0 {
		return -1
	}
	at += eol + 1
	loc := statement.FindIndex(data[at:])
	if loc == nil {
		return -1
	}
	return at + loc[0]
}

func plainMessage(err error) string {
	return strings.TrimPrefix(strings.TrimPrefix(err.Error(), "toml: "), "unstable: ")
}

// unquoted finds a quantity written without quotes.
var unquoted = regexp.MustCompile(`^\s*([A-Za-z0-9_.-]+)\s*=\s*([+-]?[0-9.,]+[^"'\n#]*[A-Za-z%][^"'\n#]*)`)

// syntaxFault reports a syntax error and guesses its commonest causes.
func (f *File) syntaxFault(offset int, err error) {
	p := problem.Problem{Message: "not valid TOML: " + plainMessage(err)}
	text := f.lineText(offset)
	switch {
	case unquoted.MatchString(text):
		m := unquoted.FindStringSubmatch(text)
		p.Want = "a quantity in quotes"
		p.Hint = "write " + m[1] + " = \"" + strings.TrimSpace(m[2]) + "\""
	case strings.ContainsAny(text, "“”„‘’"):
		p.Want = `straight quotes "`
		p.Hint = "curly quotes come from a word processor: use a plain text editor"
	case strings.Contains(text, ":") && !strings.Contains(text, "="):
		p.Hint = `write key = "value", not key: value`
	case strings.Contains(p.Message, "incomplete") || strings.Contains(p.Message, "not terminated") || strings.Count(text, `"`)%2 == 1:
		p.Hint = "a quote or a bracket is not closed"
	default:
		p.Want = `lines such as key = "value", and [table] headers`
	}
	f.Fault(offset, p)
}

// lineText gives the line of an offset, without blanks before it and with its
// end.
func (f *File) lineText(offset int) string {
	line := f.Line(offset)
	end := len(f.data)
	if line < len(f.lines) {
		end = f.lines[line]
	}
	return strings.TrimLeft(string(f.data[f.lines[line-1]:end]), " \t") + "\n"
}

// expression adds one top-level expression to the tree and gives the table that
// following keys belong to.
func (f *File) expression(p *unstable.Parser, base int, current *Table) *Table {
	n := p.Expression()
	switch n.Kind {
	case unstable.Table:
		if list := f.parts(n, base); list != nil {
			return f.header(list)
		}
		return newTable("?", base)
	case unstable.ArrayTable:
		if list := f.parts(n, base); list != nil {
			return f.arrayHeader(list)
		}
		return newTable("?", base)
	case unstable.KeyValue:
		f.keyValue(n, base, current)
	}
	return current
}

// mostParts bounds the parts of a dotted key; the design file needs four.
const mostParts = 8

// parts gives the parts of a dotted key; nil, with a fault, where there are too
// many.
func (f *File) parts(n *unstable.Node, base int) []part {
	var list []part
	for it := n.Key(); it.Next(); {
		k := it.Node()
		list = append(list, part{string(k.Data), base + int(k.Raw.Offset)})
		if len(list) > mostParts {
			f.Fault(list[0].offset, problem.Problem{Message: "a dotted name of more than 8 parts", Found: list[0].name,
				Want: "a key of the design file"})
			return nil
		}
	}
	return list
}

func (f *File) keyValue(n *unstable.Node, base int, t *Table) {
	list := f.parts(n, base)
	if list == nil {
		return
	}
	for _, p := range list[:len(list)-1] {
		if t = f.descend(t, p); t == nil {
			return
		}
	}
	last := list[len(list)-1]
	f.put(t, &Entry{last.name, last.offset, f.value(n.Value(), base, last.offset, t.dotted(last.name))})
}

// value turns a syntax node into a value; near is used as the place of a node
// that has none of its own, path for the tables inside.
func (f *File) value(n *unstable.Node, base, near int, path string) *Value {
	v := &Value{Offset: near, Text: string(n.Data)}
	if n.Raw.Length > 0 {
		v.Offset = base + int(n.Raw.Offset)
	}
	switch n.Kind {
	case unstable.String:
		v.Kind = IsString
		raw := f.data[v.Offset : v.Offset+int(n.Raw.Length)]
		v.Plain = len(raw) == len(v.Text)+2
	case unstable.Integer, unstable.Float:
		v.Kind = IsNumber
	case unstable.Bool:
		v.Kind = IsBool
	case unstable.Array:
		v.Kind = IsArray
		for it := n.Children(); it.Next(); {
			v.Items = append(v.Items, f.value(it.Node(), base, near, path))
		}
	case unstable.InlineTable:
		v.Kind = IsTable
		v.Table = newTable(path, v.Offset)
		for it := n.Children(); it.Next(); {
			f.keyValue(it.Node(), base, v.Table)
		}
		f.seal(v.Table)
	default:
		v.Kind = IsDate
	}
	return v
}

// seal closes an inline table against keys from elsewhere.
func (f *File) seal(t *Table) { t.defined, t.inline = true, true }
