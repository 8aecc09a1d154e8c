package design

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/quantity"
)

// Every key that an example design states is a field with the text of the file, and what a form enters for it is read as it
// stood: the launcher stays the same.
func TestFieldsOfEveryDesignSayWhatTheFileSays(t *testing.T) {
	files, err := filepath.Glob("../../../../testdata/designs/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		tables, err := NewForms(quantity.Metric).Tables(data)
		require.NoError(t, err)
		f, err := edit.Open(data)
		require.NoError(t, err)
		fields := map[string]Field{}
		for _, table := range tables {
			for _, field := range table.Fields {
				fields[field.Key] = field
			}
		}
		for _, s := range f.All() {
			field, is := fields[s.Key]
			require.True(t, is, "%s: %s has no field", name, s.Key)
			assert.Equal(t, s.Value, field.Text)
			text, err := field.TOML(field.Text)
			require.NoError(t, err)
			require.NoError(t, f.Set(s.Key, text))
		}
		was, problems := Read(name, data)
		require.Empty(t, problems)
		now, problems := Read(name, f.Bytes())
		require.Empty(t, problems, name)
		assert.Equal(t, was, now, name)
	}
}

// Only keys that belong to the kind of a part are asked for, each with what it may hold.
func TestFieldsBelongToTheKindOfTheirPart(t *testing.T) {
	tables, err := NewForms(quantity.Metric).Tables([]byte("[paths.fire]\nkind = \"relief\"\n[volumes.tank]\nvolume = \"2 L\"\n"))
	require.NoError(t, err)
	all := map[string]Field{}
	stated := map[string]bool{}
	for _, table := range tables {
		stated[table.Name] = table.Stated
		for _, f := range table.Fields {
			all[f.Key] = f
		}
	}
	assert.Contains(t, all, "paths.fire.set_pressure")
	assert.NotContains(t, all, "paths.fire.opening_time", "a relief valve has none")
	assert.Equal(t, OneWord, all["paths.fire.kind"].Holds)
	assert.Equal(t, AFigure, all["volumes.tank.volume"].Holds)
	assert.Equal(t, YesOrNo, all["volumes.tank.rated_for_gas"].Holds)
	assert.Equal(t, ADay, all["volumes.tank.made_on"].Holds)
	assert.True(t, all["volumes.tank.volume"].Needed)
	assert.True(t, stated["volumes.tank"])
	assert.False(t, stated["venting"], "a table that is missing can be filled in")
	assert.Contains(t, all, "venting.within")
	_, err = all["venting.within"].entered("1 s\nname = 2")
	assert.Error(t, err)
}

func (f Field) entered(entered string) (string, error) { return f.TOML(entered) }
