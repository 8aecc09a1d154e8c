package edit

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/testdata/compare/random"
)

// demos are the demo designs, and random ones, which write lists, inline tables and hoses.
func demos(t *testing.T) map[string][]byte {
	files, err := filepath.Glob("../../../../testdata/designs/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out := map[string][]byte{}
	for _, name := range files {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		out[filepath.Base(name)] = data
	}
	out["of Windows"] = bytes.ReplaceAll(out["whale.toml"], []byte("\n"), []byte("\r\n"))
	for seed := range uint64(3) {
		out["random "+string('a'+rune(seed))] = random.Design(seed)
	}
	return out
}

// keysOf lists the dotted keys of a table that hold a value.
func (f *File) keysOf(t *toml.Table, prefix string) (out []string) {
	for _, e := range t.Entries {
		name := prefix + written(e.Name)
		switch {
		case e.Value.Kind == toml.IsTables:
			for i, item := range e.Value.Items {
				out = append(out, f.keysOf(item.Table, name+"["+string('1'+rune(i))+"].")...)
			}
		case e.Value.Kind == toml.IsTable:
			out = append(out, f.keysOf(e.Value.Table, name+".")...)
		default:
			out = append(out, name)
		}
	}
	return out
}

// Setting a key to its own value changes nothing; setting it to another and back neither, and in
// between that value stands there and every other byte is as it was.
func TestOnlyTheBytesOfTheValueChange(t *testing.T) {
	const other = `"another # value"`
	for name, data := range demos(t) {
		f, err := Open(data)
		require.NoError(t, err, name)
		keys := f.keysOf(f.root, "")
		require.Greater(t, len(keys), 30, name)
		for _, key := range keys {
			old, stands := f.Value(key)
			require.True(t, stands, key)
			require.NoError(t, f.Set(key, old))
			require.Equal(t, string(data), string(f.Bytes()), key)
			require.NoError(t, f.Set(key, other))
			got, _ := f.Value(key)
			require.Equal(t, other, got, key)
			changed := string(f.Bytes())
			at := strings.Index(changed, other)
			require.Equal(t, string(data), changed[:at]+old+changed[at+len(other):], key)
			require.NoError(t, f.Set(key, old))
		}
		assert.Equal(t, string(data), string(f.Bytes()), name)
	}
}

// A key that is added can be read back, and without its line the file is as it was.
func TestAddedKeys(t *testing.T) {
	for name, data := range demos(t) {
		for _, key := range []string{"new", "barrel.new", "projectile.new", "supply.new", "new_table.new", "volumes.new.volume",
			"paths.new.hose.bore"} {
			f, err := Open(data)
			require.NoError(t, err, name)
			if strings.HasPrefix(key, "supply.") && f.root.Get("supply") == nil {
				continue
			}
			before := f.keysOf(f.root, "")
			values := map[string]string{}
			for _, k := range before {
				values[k], _ = f.Value(k)
			}
			require.NoError(t, f.Set(key, `"1 mm"`), "%s: %s", name, key)
			got, stands := f.Value(key)
			require.True(t, stands, "%s: %s", name, key)
			require.Equal(t, `"1 mm"`, got)
			require.Len(t, f.keysOf(f.root, ""), len(before)+1)
			for k, v := range values {
				now, _ := f.Value(k)
				require.Equal(t, v, now, "%s: %s moved %s", name, key, k)
			}
			if n := len(Split(key)); n < 3 && key != "new_table.new" {
				require.NoError(t, f.Remove(key))
				require.Equal(t, string(data), string(f.Bytes()), "%s: %s", name, key)
			}
		}
	}
}

// The forms of TOML 1.0.0 in which a table can stand. What must come out was written by hand.
func TestEveryFormOfATable(t *testing.T) {
	for _, c := range []struct{ file, key, value, want string }{
		{"a = 1\n[b]\nc = 2 # two\n\n[d]\n", "b.e", "3", "a = 1\n[b]\nc = 2 # two\ne = 3\n\n[d]\n"},
		{"[b]\n\n[d]\n", "b.e", "3", "[b]\ne = 3\n\n[d]\n"},
		{"b = { c = 2 }\n", "b.e", "3", "b = { c = 2, e = 3 }\n"},
		{"b = {}\n", "b.e", "3", "b = {e = 3 }\n"},
		{"b.c = 2\n", "b.e", "3", "b.c = 2\nb.e = 3\n"},
		{"  b.c = 2", "b.e", "3", "  b.c = 2\n  b.e = 3\n"},
		{"# head\n\n[b]\nc = 2\n", "a", "1", "# head\n\na = 1\n[b]\nc = 2\n"},
		{"[p.x]\na = 1\n\n# about q\n[q]\nb = 1\n", "p.y.a", "2", "[p.x]\na = 1\n\n[p.y]\na = 2\n\n# about q\n[q]\nb = 1\n"},
		{"p = { x = { a = 1 } }\n", "p.y.a", "2", "p = { x = { a = 1 }, y = { a = 2 } }\n"},
		{"p.x.a = 1\n", "p.y.a", "2", "p.x.a = 1\n\n[p.y]\na = 2\n"},
		{"[[g]]\na = 1\n[[g]]\na = 2\n", "g[2].a", "3", "[[g]]\na = 1\n[[g]]\na = 3\n"},
		{"[[g]]\na = 1\n[[g]]\na = 2\n", "g[1].b", "3", "[[g]]\na = 1\nb = 3\n[[g]]\na = 2\n"},
		{"a = [\n 1, # ]\n \"]\",\n] # end\n", "a", "[]", "a = [] # end\n"},
		{"\"a b\" = '''x'''' # c\n", `"a b"`, "2", "\"a b\" = 2 # c\n"},
		{"a = \"x\\\"\" #c", "a", "2", "a = 2 #c"},
	} {
		f, err := Open([]byte(c.file))
		require.NoError(t, err, c.file)
		require.NoError(t, f.Set(c.key, c.value), c.file)
		assert.Equal(t, c.want, string(f.Bytes()), "%q", c.file)
	}
}

func TestWhatWouldBreakTheFileIsRefused(t *testing.T) {
	const file = "\xef\xbb\xbfa = 1\n[b]\nc = 2 # two\n"
	f, err := Open([]byte(file))
	require.NoError(t, err)
	assert.Error(t, f.Set("a", `"open`))
	assert.Error(t, f.Set("b", "1"), "a table is no value")
	assert.Equal(t, file, string(f.Bytes()), "with its byte order mark")
	_, err = Open([]byte("a = \n"))
	assert.Error(t, err)
}
