package finding

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every identifier that the program gives an item is one that a design may answer: one
// that is missing in the list would refuse right answers.
func TestEveryItemCanBeAnswered(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "ids.go", nil, 0)
	require.NoError(t, err)
	found := 0
	ast.Inspect(file, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok || !strings.HasPrefix(spec.Names[0].Name, "Item") {
			return true
		}
		id, err := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
		require.NoError(t, err)
		assert.True(t, IsItem(id), id)
		found++
		return true
	})
	assert.Len(t, ItemIDs(), found+1, "one more of the controls of what gets in")
	assert.True(t, IsItem("object-control.12"))
	for _, id := range []string{"confirm.shot", "", "object-control.", "object-control.0", "object-control.01", "object-control.x",
		"date-ahead.projectile.made_on"} {
		assert.False(t, IsItem(id), id)
	}
}
