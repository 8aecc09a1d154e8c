package usage

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What roff would read as its own is written so that it does not: a request at the start of a line, its escape, quotes of a macro's
// argument, hyphens that are typed, characters beyond ASCII (groff(7), Escape sequences).
func TestWhatRoffWouldReadAsItsOwn(t *testing.T) {
	reg := Registry[func()]{[]*Command[func()]{{Name: "x", Operands: `"A"`, Summary: "summary", Help: []string{".toml files", "'quoted'",
		`a\b ± 1-2`}}}}
	var b strings.Builder
	reg.WriteMan(&b, `v1 "beta"`)
	page := b.String()
	assert.Contains(t, page, "\n\\&.toml files\n")
	assert.Contains(t, page, "\n\\&'quoted'\n")
	assert.Contains(t, page, "\na\\eb \\[u00B1] 1\\-2\n")
	assert.Contains(t, page, "\n.SS \"x \\(dqA\\(dq\"\n")
	assert.True(t, strings.HasPrefix(page, ".TH PUFFPROOF 1 \"\" \"puffproof v1 beta\" \"User Commands\"\n"), page[:60])
}
