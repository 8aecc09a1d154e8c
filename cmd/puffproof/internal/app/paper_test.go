package app

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
)

// inFolder is a fresh folder, the current one until the test ends.
func inFolder(t *testing.T, files map[string]string) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	t.Chdir(dir)
}

func write(t *testing.T, name, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
}

// The exit status is that of the verdicts, and the file is written whatever it is.
func TestPapersAreWrittenWhateverTheVerdict(t *testing.T) {
	inFolder(t, map[string]string{"holds.toml": least(t), "fails.toml": least(t, `within = "20 s"`, `within = "1 s"`)})
	for _, c := range []struct {
		command, design, format string
		want                    status
	}{
		{"dossier", "holds", "html", statusOK}, {"dossier", "holds", "pdf", statusOK}, {"dossier", "fails", "md", statusNotHeld},
		{"card", "holds", "pdf", statusOK}, {"card", "fails", "html", statusNotHeld},
	} {
		name := c.command + c.design + "." + c.format
		st, out, errOut := puffproof(t, c.command, c.design+".toml", "--date", "2026-05-31", "-o", name)
		assert.Equal(t, c.want, st, "%s: %s", name, errOut)
		assert.Contains(t, out, "Wrote "+name)
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		begins := map[string]string{"pdf": "%PDF-", "html": "<!DOCTYPE html>", "md": "<!-- "}[c.format]
		assert.Equal(t, begins, string(data[:len(begins)]), name)
		assert.Greater(t, len(data), 500, name)
	}
	st, _, errOut := puffproof(t, "dossier", "holds.toml", "-o", "dossierholds.html")
	assert.Equal(t, statusInput, st)
	assert.Contains(t, errOut, "exists already and is kept; --force replaces it")
	st, _, _ = puffproof(t, "dossier", "holds.toml", "-o", "dossierholds.html", "--force")
	assert.Equal(t, statusOK, st)
	st, out, _ := puffproof(t, "card", "holds.toml", "-o", "-", "--format", "md", "--date", "2026-05-31")
	assert.Equal(t, statusOK, st)
	assert.Contains(t, out, "STOP")
	st, out, _ = puffproof(t, "card", "holds.toml", "--json")
	assert.Equal(t, statusOK, st)
	assert.Contains(t, out, `"written": "card.html"`)
	card, err := os.ReadFile("card.html")
	require.NoError(t, err)
	assert.Contains(t, string(card), "2026-05-31", "without --date it is of today")
}

// A paper never takes the place of what it is made from, whatever the name by
// which it is called and whether or not --force is given.
func TestNoOutputReplacesAnInput(t *testing.T) {
	text := least(t)
	inFolder(t, map[string]string{"own.toml": text, "other.toml": text})
	require.NoError(t, os.Mkdir("sub", 0o755))
	require.NoError(t, os.Symlink(filepath.Join("..", "own.toml"), filepath.Join("sub", "link")))
	require.NoError(t, os.Link("own.toml", "hard"))
	for _, command := range []string{"dossier", "card"} {
		for _, target := range []string{"own.toml", "./own.toml", "sub/../own.toml", "sub/link", "hard"} {
			for _, force := range []string{"--force", "--date=2026-05-31"} {
				st, out, errOut := puffproof(t, command, "own.toml", "--format", "md", "-o", target, force)
				assert.Equal(t, statusInput, st, "%s %s", command, target)
				assert.Empty(t, out)
				assert.Equal(t, "puffproof: "+target+": is the input own.toml of this run and is never overwritten; name another file\n", errOut)
			}
		}
		st, _, errOut := puffproof(t, command, "own.toml", "--format", "md", "-o", "other.toml", "--force")
		assert.Equal(t, statusOK, st, errOut)
	}
	data, err := os.ReadFile("own.toml")
	require.NoError(t, err)
	assert.Equal(t, text, string(data))
}

// What --format says and what the name says are never at odds in silence.
func TestFormatAndEndingAgree(t *testing.T) {
	reg := registry{Commands: []*Command{{Name: "card", Options: paperOptions("card"),
		Run: func(_ context.Context, call *Call) (status, error) {
			targets, err := call.paperTargets("card")
			for _, one := range targets {
				call.Out.WriteString(one.file + " of format " + one.format + ";")
			}
			return statusOK, err
		}}}}
	for _, c := range []struct {
		args string
		want status
		says string
	}{
		{"--format pdf -o x.html", statusInput, "-o x.html is the name of a file of format html, and --format says pdf; choose one"},
		{"--format html -o x.markdown", statusInput, "format md, and --format says html"},
		{"-o x.docx", statusInput, "the ending .docx names no format; there are .html, .pdf and .md, or say --format"},
		{"-o=", statusInput, "-o: the file name is empty"},
		{"-o - --json", statusInput, "would both write to standard output"},
		{"-o -", statusOK, "- of format html"},
		{"-o x.pdf", statusOK, "x.pdf of format pdf"},
		{"-o x.HTM", statusOK, "x.HTM of format html"},
		{"-o x", statusOK, "x of format html"},
		{"--format md -o x.txt", statusOK, "x.txt of format md"},
		{"--format md", statusOK, "card.md of format md"},
		{"", statusOK, "card.html of format html"},
		{"--format pdf,md", statusOK, "card.pdf of format pdf;card.md of format md;"},
		{"--format pdf --format md", statusOK, "card.pdf of format pdf;card.md of format md;"},
		{"-o x.pdf -o y.html", statusOK, "x.pdf of format pdf;y.html of format html;"},
		{"-o x -o y --format html,md", statusOK, "x of format html;y of format md;"},
		{"-o x,y.pdf", statusOK, "x,y.pdf of format pdf;"},
		{"-o x.html --format html,pdf", statusInput, "there are 1 -o and 2 formats; give one -o a format"},
		{"-o x.pdf -o ./x.pdf", statusInput, "./x.pdf would be written twice"},
		{"--format md,md", statusInput, "card.md would be written twice"},
		{"-o - -o x.pdf", statusInput, "-o - goes alone"},
		{"--format md,doc", statusInput, "--format is html or pdf or md, not \"doc\""},
		{"--date 2026-05-31 --date 2026-05-31", statusInput, "--date is given twice"},
	} {
		st, out, errOut := play(t, reg, "", append([]string{"card"}, strings.Fields(c.args)...)...)
		assert.Equal(t, c.want, st, "%s: %s", c.args, errOut)
		assert.Contains(t, out+errOut, c.says, c.args)
	}
	// The name alone does not tell: the format is said.
	inFolder(t, map[string]string{"d.toml": least(t)})
	st, out, errOut := puffproof(t, "card", "d.toml", "--format", "md", "-o", "x.txt")
	assert.Equal(t, statusOK, st, errOut)
	assert.Contains(t, out, "Wrote x.txt (md).\n")
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
	inFolder(t, map[string]string{"d.toml": least(t), "other.toml": least(t, `within = "20 s"`, `within = "1 s"`)})
	type row struct {
		args string
		want status
		says string
		anew bool // what the paper was made from is computed again, else remembered where it is the same
	}
	cache := []string{"XDG_CACHE_HOME=" + t.TempDir()}
	rows := []row{
		{"file.md d.toml --date 2026-05-30", statusNotHeld, "is dated 2026-05-31, AFTER 2026-05-30", false},
		{"altered.md d.toml --date 2026-06-01", statusNotHeld, "ALTERED", true},
		{"file.md d.toml --date 2026-06-01", statusOK, "The safety file still describes the design.", false},
		{"file.md d.toml --date 2027-06-01", statusNotHeld, "EXPIRED on 2027-05-31", false},
		{"file.md other.toml --date 2026-06-01", statusNotHeld, "NO LONGER DESCRIBES the design: 1 key changed", false},
		{"file.md --date soon", statusInput, "year-month-day", false},
		{"d.toml d.toml", statusInput, "has no puffproof archive in it", false},
		{"none d.toml", statusInput, "no such file", false},
	}
	made := []string{"dossier", "d.toml", "--date", "2026-05-31"}
	for _, format := range document.Formats() {
		made = append(made, "-o", "file."+format)
	}
	st, _, errOut := playIn(t, cache, newRegistry(), "", made...)
	require.Equal(t, statusOK, st, errOut)
	for _, format := range document.Formats() {
		file := "file." + format
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		write(t, "altered."+format, altered(t, string(data)))
		rows = append(rows, row{file + " --date 2026-06-01", statusOK, "own inputs give its answers again", true},
			row{"altered." + format + " --date 2026-06-01", statusNotHeld, "ALTERED", true},
			row{"longer." + format + " --date 2026-06-01", statusNotHeld, "was ALTERED: something follows its end;", true})
		write(t, "longer."+format, string(data)+"\nApproved by nobody.\n"+strings.Repeat("And so on.\n", 300))
	}
	for _, c := range rows {
		environ := cache
		if c.anew {
			environ = nil
		}
		st, out, errOut := playIn(t, environ, newRegistry(), "", append([]string{"verify"}, strings.Fields(c.args)...)...)
		assert.Equal(t, c.want, st, "%s: %s%s", c.args, out, errOut)
		assert.Contains(t, out+errOut, c.says, c.args)
		assert.NotContains(t, out+errOut, "CUT OFF", c.args)
	}
	st, _, errOut = puffproof(t, "card", "d.toml", "--date", "2026-05-31", "-o", "card.html")
	require.Equal(t, statusOK, st, errOut)
	st, out, _ := puffproof(t, "verify", "card.html", "d.toml", "--date", "2026-06-01")
	assert.Equal(t, statusOK, st, out)
	assert.Contains(t, out, "The card still describes the design.")
	st, out, _ = puffproof(t, "verify", "card.html", "other.toml", "--date", "2026-06-01")
	assert.Equal(t, statusNotHeld, st)
	assert.Contains(t, out, "Take the card off the launcher")
	assert.NotContains(t, out, "to be signed again", "nobody signs a card")
	st, out, _ = puffproof(t, "verify", "file.html", "other.toml", "--json", "--date", "2026-06-01")
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
	assert.Equal(t, "venting.within", doc.Verify.Changed[0].Key)
	assert.NotEmpty(t, doc.Verify.Signed)
	assert.False(t, doc.Verify.Good || doc.Verify.Describes)
}

// inArchive is a paper with a text of its archive replaced.
func inArchive(t *testing.T, paper, old, now string) string {
	t.Helper()
	return regexp.MustCompile(`puffproof-archive:\S+`).ReplaceAllStringFunc(paper, func(mark string) string {
		lead, letters, _ := strings.Cut(mark, ":")
		archive, err := base64.StdEncoding.DecodeString(letters)
		require.NoError(t, err)
		other := strings.Replace(string(archive), old, now, 1)
		require.NotEqual(t, string(archive), other)
		return lead + ":" + base64.StdEncoding.EncodeToString([]byte(other))
	})
}

// A file of another version that let pass what fails now is to be withdrawn, and the
// first line says so.
func TestVerifyWithdrawsWhatFailsNow(t *testing.T) {
	inFolder(t, map[string]string{"d.toml": least(t, `within = "20 s"`, `within = "1 s"`)})
	st, _, errOut := puffproof(t, "dossier", "d.toml", "--date", "2026-05-31", "-o", "file.md")
	require.Equal(t, statusNotHeld, st, errOut)
	data, err := os.ReadFile("file.md")
	require.NoError(t, err)
	older := inArchive(t, inArchive(t, string(data), program(), "v0.0.1"), `"status":"fail"`, `"status":"pass"`)
	write(t, "older.md", older)
	st, out, _ := puffproof(t, "verify", "--date", "2026-06-01", "older.md", "d.toml")
	assert.Equal(t, statusNotHeld, st)
	assert.Regexp(t, `^WITHDRAW IT: \S+ fails now, and did not in this safety\s+file\. `, out)
}

// A file of another version: where this program makes the same words of its
// inputs they are not altered; where it does not, that is not known, said, and
// no reason for status 0.
func TestVerifyOfAnotherVersion(t *testing.T) {
	inFolder(t, map[string]string{"d.toml": least(t)})
	st, _, errOut := puffproof(t, "dossier", "d.toml", "--date", "2026-05-31", "-o", "file.md")
	require.Equal(t, statusOK, st, errOut)
	data, err := os.ReadFile("file.md")
	require.NoError(t, err)
	renamed := inArchive(t, string(data), program(), "v9.9.9")
	write(t, "other-words.md", renamed)
	write(t, "same-words.md", strings.ReplaceAll(renamed, program(), "v9.9.9"))
	for _, c := range []struct {
		args string
		want status
		says string
	}{
		{"other-words.md d.toml", statusNotHeld, "whether its words were altered is NOT KNOWN"},
		{"other-words.md", statusNotHeld, "puffproof v9.9.9 made it, this is " + program()},
		{"other-words.md --json", statusNotHeld, `"altered": null,`},
		{"same-words.md", statusOK, "Another version of the program made it"},
	} {
		st, out, _ := puffproof(t, append([]string{"verify", "--date", "2026-06-01"}, strings.Fields(c.args)...)...)
		assert.Equal(t, c.want, st, out)
		assert.Contains(t, strings.Join(strings.Fields(out), " "), c.says, c.args)
		assert.NotContains(t, out, `"good": true`)
	}
}
