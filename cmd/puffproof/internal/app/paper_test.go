package app

import (
	"bytes"
	"context"
	"encoding/base64"
	"encoding/json"
	"os"
	"path/filepath"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits/assessment"
	"puffproof/limits/launcher"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// paperRun runs the frame with an invented answer for papers, in a fresh folder.
func paperRun(t *testing.T) func(args ...string) (status, string, string) {
	t.Helper()
	t.Chdir(t.TempDir())
	s := framed()
	s.read = func(_ string, data []byte) (*launcher.Launcher, error) {
		return &launcher.Launcher{Name: strings.Trim(strings.TrimPrefix(string(data), "name = "), `"`), Volumes: []launcher.VolumeSpec{{Name: "tank"}}}, nil
	}
	s.papers = func(ctx context.Context, l *launcher.Launcher, in *document.Input) error {
		var err error
		in.Launcher = l
		in.Report, err = framedCheck(ctx, l, assessment.Options{})
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

// A paper never takes the place of what it is made from, whatever the name by
// which it is called and whether or not --force is given.
func TestNoOutputReplacesAnInput(t *testing.T) {
	run := paperRun(t)
	const text = `name = "holds"`
	write(t, "own.toml", text)
	write(t, "other.toml", text)
	require.NoError(t, os.Mkdir("sub", 0o755))
	require.NoError(t, os.Symlink(filepath.Join("..", "own.toml"), filepath.Join("sub", "link")))
	require.NoError(t, os.Link("own.toml", "hard"))
	for _, command := range []string{"dossier", "card"} {
		for _, target := range []string{"own.toml", "./own.toml", "sub/../own.toml", "sub/link", "hard"} {
			for _, force := range []string{"--force", "--date=2026-05-31"} {
				st, out, errOut := run(command, "own.toml", "--format", "md", "-o", target, force)
				assert.Equal(t, statusInput, st, "%s %s", command, target)
				assert.Empty(t, out)
				assert.Equal(t, "puffproof: "+target+": is the input own.toml of this run and is never overwritten; name another file\n", errOut)
			}
		}
		st, _, errOut := run(command, "own.toml", "--format", "md", "-o", "other.toml", "--force")
		assert.Equal(t, statusOK, st, errOut)
	}
	data, err := os.ReadFile("own.toml")
	require.NoError(t, err)
	assert.Equal(t, text, string(data))
}

// What --format says and what the name says are never at odds in silence.
func TestFormatAndEndingAgree(t *testing.T) {
	run := paperRun(t)
	write(t, "d.toml", `name = "holds"`)
	for _, c := range []struct {
		args string
		want status
		says string
	}{
		{"--format pdf -o x.html", statusInput, "-o x.html is the name of a file of format html, and --format says pdf; choose one"},
		{"--format html -o x.markdown", statusInput, "format md, and --format says html"},
		{"-o x.docx", statusInput, "the ending .docx names no format; there are .html, .pdf and .md, or say --format"},
		{"-o x.pdf", statusOK, "Wrote x.pdf.\n"},
		{"-o x.HTM", statusOK, "Wrote x.HTM (html).\n"},
		{"-o x", statusOK, "Wrote x (html).\n"},
		{"--format md -o x.txt", statusOK, "Wrote x.txt (md).\n"},
		{"--format md", statusOK, "Wrote card.md.\n"},
		{"-o y.md --json", statusOK, `"format": "md"`},
	} {
		st, out, errOut := run(append([]string{"card", "d.toml"}, strings.Fields(c.args)...)...)
		assert.Equal(t, c.want, st, "%s: %s", c.args, errOut)
		assert.Contains(t, out+errOut, c.says, c.args)
	}
	for name, begins := range map[string]string{"x.pdf": "%PDF-", "x.HTM": "<!DOCTYPE html>", "x": "<!DOCTYPE html>", "x.txt": "<!-- "} {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Equal(t, begins, string(data[:len(begins)]), name)
	}
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

// altered changes words of a paper: in a PDF, whose text is packed, the date at
// which it says it was made.
func altered(t *testing.T, paper string) string {
	t.Helper()
	out := strings.Replace(paper, "not to be used yet", "to be used", 1)
	if strings.HasPrefix(paper, "%PDF-") {
		out = strings.Replace(paper, "/CreationDate (D:20260531", "/CreationDate (D:20270531", 1)
	}
	require.NotEqual(t, paper, out)
	return out
}

func TestVerifySeesWhatHappened(t *testing.T) {
	run := paperRun(t)
	write(t, "d.toml", `name = "holds"`)
	write(t, "other.toml", `name = "fails"`)
	for _, format := range document.Formats() {
		file := "file." + format
		st, _, errOut := run("dossier", "d.toml", "--date", "2026-05-31", "-o", file)
		require.Equal(t, statusOK, st, errOut)
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		write(t, "altered."+format, altered(t, string(data)))
		for _, c := range []struct {
			args string
			want status
			says string
		}{
			{file + " d.toml --date 2026-05-30", statusNotHeld, "is dated 2026-05-31, AFTER 2026-05-30"},
			{"altered." + format + " d.toml --date 2026-06-01", statusNotHeld, "ALTERED"},
			{file + " d.toml --date 2026-06-01", statusOK, "The safety file still describes the design."},
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
	st, _, errOut := run("card", "d.toml", "--date", "2026-05-31", "-o", "card.html")
	require.Equal(t, statusOK, st, errOut)
	st, out, _ := run("verify", "card.html", "d.toml", "--date", "2026-06-01")
	assert.Equal(t, statusOK, st, out)
	assert.Contains(t, out, "The card still describes the design.")
	st, out, _ = run("verify", "card.html", "other.toml", "--date", "2026-06-01")
	assert.Equal(t, statusNotHeld, st)
	assert.Contains(t, out, "Take the card off the launcher")
	assert.NotContains(t, out, "to be signed again", "nobody signs a card")
	st, out, _ = run("verify", "file.html", "other.toml", "--json", "--date", "2026-06-01")
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

// A file of another version: where this program makes the same words of its
// inputs they are not altered; where it does not, that is not known, said, and
// no reason for status 0.
func TestVerifyOfAnotherVersion(t *testing.T) {
	run := paperRun(t)
	write(t, "d.toml", `name = "holds"`)
	st, _, errOut := run("dossier", "d.toml", "--date", "2026-05-31", "-o", "file.md")
	require.Equal(t, statusOK, st, errOut)
	data, err := os.ReadFile("file.md")
	require.NoError(t, err)
	code := regexp.MustCompile(`puffproof-archive:\S+`)
	renamed := code.ReplaceAllStringFunc(string(data), func(mark string) string {
		lead, letters, _ := strings.Cut(mark, ":")
		archive, err := base64.StdEncoding.DecodeString(letters)
		require.NoError(t, err)
		other := strings.Replace(string(archive), program(), "v9.9.9", 1)
		require.NotEqual(t, string(archive), other)
		return lead + ":" + base64.StdEncoding.EncodeToString([]byte(other))
	})
	write(t, "other-words.md", renamed)
	write(t, "same-words.md", strings.ReplaceAll(renamed, program(), "v9.9.9"))
	for _, design := range []string{"", "d.toml"} {
		args := strings.Fields("verify other-words.md " + design + " --date 2026-06-01")
		st, out, _ := run(args...)
		assert.Equal(t, statusNotHeld, st, out)
		assert.Contains(t, strings.Join(strings.Fields(out), " "), "whether its words were altered is NOT KNOWN")
		assert.Contains(t, out, "puffproof v9.9.9 made it, this is\n  "+program())
		st, out, _ = run(append(args, "--json")...)
		assert.Equal(t, statusNotHeld, st)
		assert.Contains(t, out, `"altered": null`)
		assert.Contains(t, out, `"good": false`)
		args[1] = "same-words.md"
		st, out, _ = run(args...)
		assert.Equal(t, statusOK, st, out)
		assert.Contains(t, out, "Another version of the program made it")
	}
}
