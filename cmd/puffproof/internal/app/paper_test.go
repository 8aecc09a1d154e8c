package app

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits"
)

// paperRun runs the frame with an invented answer for papers, in a fresh folder.
func paperRun(t *testing.T) func(args ...string) (status, string, string) {
	t.Helper()
	t.Chdir(t.TempDir())
	s := framed()
	s.read = func(_ string, data []byte) (*limits.Launcher, error) {
		return &limits.Launcher{Name: strings.Trim(strings.TrimPrefix(string(data), "name = "), `"`), Volumes: []limits.VolumeSpec{{Name: "tank"}}}, nil
	}
	s.papers = func(ctx context.Context, l *limits.Launcher, in *document.Input) error {
		var err error
		in.Launcher = l
		in.Report, err = framedCheck(ctx, l, limits.Options{})
		return err
	}
	return func(args ...string) (status, string, string) {
		var out, errOut bytes.Buffer
		st := runWith(t.Context(), s, append([]string{"puffproof"}, args...), strings.NewReader(""), &out, &errOut, nil)
		return st, out.String(), errOut.String()
	}
}

func write(t *testing.T, name, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
}

// A design with one vessel and hardly anything else makes a paper too; the exit status is that
// of its verdicts, and the file is written in both cases.
func TestPapersAreWrittenWhateverTheVerdict(t *testing.T) {
	run := paperRun(t)
	write(t, "holds.toml", `name = "holds"`)
	write(t, "fails.toml", `name = "fails"`)
	for _, command := range []string{"dossier", "card"} {
		for _, format := range document.Formats() {
			for design, want := range map[string]status{"holds": statusOK, "fails": statusNotHeld} {
				name := command + design + "." + format
				st, out, errOut := run(command, design+".toml", "--date", "2026-05-31", "-o", name)
				assert.Equal(t, want, st, "%s: %s", name, errOut)
				assert.Contains(t, out, "Wrote "+name)
				info, err := os.Stat(name)
				require.NoError(t, err)
				assert.Greater(t, info.Size(), int64(500), name)
			}
		}
	}
	st, _, errOut := run("dossier", "holds.toml", "-o", "dossierholds.html")
	assert.Equal(t, statusInput, st)
	assert.Contains(t, errOut, "exists already and is kept; --force replaces it")
	st, _, _ = run("dossier", "holds.toml", "-o", "dossierholds.html", "--force")
	assert.Equal(t, statusOK, st)
	st, out, _ := run("card", "holds.toml", "-o", "-", "--format", "md", "--date", "2026-05-31")
	assert.Equal(t, statusOK, st)
	assert.Contains(t, out, "STOP")
	st, out, _ = run("card", "holds.toml", "--json", "--date", "2026-05-31")
	assert.Equal(t, statusOK, st)
	assert.Contains(t, out, `"written": "card.html"`)
	_, err := os.Stat(filepath.Join("card.html"))
	assert.NoError(t, err)
}

// Nothing is left behind where the result is withheld.
func TestWithheldPaperIsNotWritten(t *testing.T) {
	run := paperRun(t)
	write(t, "d.toml", `name = "withheld"`)
	st, _, errOut := run("dossier", "d.toml", "-o", "file.html")
	assert.Equal(t, statusWithheld, st)
	assert.Contains(t, errOut, "withheld")
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	assert.Len(t, entries, 1)
}

func TestVerifySeesWhatHappened(t *testing.T) {
	run := paperRun(t)
	write(t, "d.toml", `name = "holds"`)
	write(t, "other.toml", `name = "fails"`)
	for _, format := range []string{"html", "md"} {
		file := "file." + format
		st, _, errOut := run("dossier", "d.toml", "--date", "2026-05-31", "-o", file)
		require.Equal(t, statusOK, st, errOut)
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		write(t, "altered."+format, strings.Replace(string(data), "not to be used yet", "to be used", 1))
		for _, c := range []struct {
			args string
			want status
			says string
		}{
			{file + " d.toml --date 2026-06-01", statusOK, "The file still describes the design."},
			{file + " d.toml --date 2027-06-01", statusNotHeld, "EXPIRED on 2027-05-31"},
			{file + " other.toml --date 2026-06-01", statusNotHeld, "NO LONGER DESCRIBES the design: 1 key changed"},
			{file + " --date 2026-06-01", statusOK, "own inputs give its answers again"},
			{"altered." + format + " --date 2026-06-01", statusNotHeld, "ALTERED"},
			{file + " --date soon", statusInput, "year-month-day"},
			{"d.toml d.toml", statusInput, "has no puffproof archive in it"},
			{"none d.toml", statusInput, "no such file"},
		} {
			st, out, errOut := run(append([]string{"verify"}, strings.Fields(c.args)...)...)
			assert.Equal(t, c.want, st, "%s: %s%s", c.args, out, errOut)
			assert.Contains(t, out+errOut, c.says, c.args)
		}
	}
	st, out, _ := run("verify", "file.html", "other.toml", "--json", "--date", "2026-06-01")
	assert.Equal(t, statusNotHeld, st)
	var doc struct {
		Verify struct {
			Good, Describes bool
			Changed         []struct{ Key, Before, After string }
			Signed          []string `json:"void_signatures"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &doc))
	require.Len(t, doc.Verify.Changed, 1)
	assert.Equal(t, "name", doc.Verify.Changed[0].Key)
	assert.NotEmpty(t, doc.Verify.Signed)
	assert.False(t, doc.Verify.Good || doc.Verify.Describes)
}
