package design

import (
	"bytes"
	"errors"
	"regexp"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
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
func (r *reader) parse(data []byte) *table {
	root := newTable("", 0)
	current := root
	start, syntax := 0, 0
	for {
		p := &unstable.Parser{}
		p.Reset(data[start:])
		for p.NextExpression() {
			current = r.expression(p, start, root, current)
		}
		if p.Error() == nil {
			break
		}
		at := start + errorOffset(p.Error(), data[start:])
		r.syntaxFault(at, p.Error())
		r.partial = true
		next := nextStatement(data, at)
		if syntax++; syntax == mostSyntax || next < 0 {
			break
		}
		if r.lineText(at)[0] == '[' { // the keys below belong to nobody knows what
			current = newTable("?", at)
		}
		start = next
	}
	if !r.partial && len(r.problems) == 0 {
		r.strictDecode(data)
	}
	return root
}

// strictDecode lets the library's full decoder see the file too: it knows rules
// of TOML that the tree does not.
func (r *reader) strictDecode(data []byte) {
	var all map[string]any
	err := toml.Unmarshal(data, &all)
	if err == nil {
		return
	}
	r.partial = true
	offset := 0
	var d *toml.DecodeError
	if errors.As(err, &d) {
		line, column := d.Position()
		offset = r.lines[min(max(line-1, 0), len(r.lines)-1)] + max(column-1, 0)
	}
	r.fault(offset, Problem{Message: "not valid TOML: " + plainMessage(err)})
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
func (r *reader) syntaxFault(offset int, err error) {
	p := Problem{Message: "not valid TOML: " + plainMessage(err)}
	text := r.lineText(offset)
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
	r.fault(offset, p)
}

// lineText gives the line of an offset, without blanks before it and with its
// end.
func (r *reader) lineText(offset int) string {
	line := r.line(offset)
	end := len(r.data)
	if line < len(r.lines) {
		end = r.lines[line]
	}
	return strings.TrimLeft(string(r.data[r.lines[line-1]:end]), " \t") + "\n"
}

// expression adds one top-level expression to the tree and gives the table that
// following keys belong to.
func (r *reader) expression(p *unstable.Parser, base int, root, current *table) *table {
	n := p.Expression()
	switch n.Kind {
	case unstable.Table:
		if list := r.parts(n, base); list != nil {
			return r.header(root, list)
		}
		return newTable("?", base)
	case unstable.ArrayTable:
		if list := r.parts(n, base); list != nil {
			return r.arrayHeader(root, list)
		}
		return newTable("?", base)
	case unstable.KeyValue:
		r.keyValue(n, base, current)
	}
	return current
}

// mostParts bounds the parts of a dotted key; the design file needs four.
const mostParts = 8

// parts gives the parts of a dotted key; nil, with a fault, where there are too
// many.
func (r *reader) parts(n *unstable.Node, base int) []part {
	var list []part
	for it := n.Key(); it.Next(); {
		k := it.Node()
		list = append(list, part{string(k.Data), base + int(k.Raw.Offset)})
		if len(list) > mostParts {
			r.fault(list[0].offset, Problem{Message: "a dotted name of more than 8 parts", Found: list[0].name, Want: "a key of the design file"})
			return nil
		}
	}
	return list
}

func (r *reader) keyValue(n *unstable.Node, base int, t *table) {
	list := r.parts(n, base)
	if list == nil {
		return
	}
	for _, p := range list[:len(list)-1] {
		if t = r.descend(t, p); t == nil {
			return
		}
	}
	last := list[len(list)-1]
	r.put(t, &entry{last.name, last.offset, r.value(n.Value(), base, last.offset, t.dotted(last.name))})
}

// value turns a syntax node into a value; near is used as the place of a node
// that has none of its own, path for the tables inside.
func (r *reader) value(n *unstable.Node, base, near int, path string) *value {
	v := &value{offset: near, text: string(n.Data)}
	if n.Raw.Length > 0 {
		v.offset = base + int(n.Raw.Offset)
	}
	switch n.Kind {
	case unstable.String:
		v.kind = isString
		raw := r.data[v.offset : v.offset+int(n.Raw.Length)]
		v.plain = len(raw) == len(v.text)+2
	case unstable.Integer, unstable.Float:
		v.kind = isNumber
	case unstable.Bool:
		v.kind = isBool
	case unstable.Array:
		v.kind = isArray
		for it := n.Children(); it.Next(); {
			v.items = append(v.items, r.value(it.Node(), base, near, path))
		}
	case unstable.InlineTable:
		v.kind = isTable
		v.table = newTable(path, v.offset)
		for it := n.Children(); it.Next(); {
			r.keyValue(it.Node(), base, v.table)
		}
		r.seal(v.table)
	default:
		v.kind = isDate
	}
	return v
}

// seal closes an inline table against keys from elsewhere.
func (r *reader) seal(t *table) {
	t.defined, t.inline = true, true
}
