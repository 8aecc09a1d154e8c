package page

import (
	"bytes"
	"context"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/trial"
)

// Edits of values that stand in a file change their bytes and no other: what is between them, comments, order and line ends, stays;
// undoing all of them gives the file.
func TestAnEditChangesTheBytesOfItsValueOnly(t *testing.T) {
	files, err := filepath.Glob("../../../../testdata/designs/*.toml")
	require.NoError(t, err)
	forms := design.NewForms(quantity.Metric)
	rapid.Check(t, func(t *rapid.T) {
		data, err := os.ReadFile(rapid.SampledFrom(files).Draw(t, "file"))
		require.NoError(t, err)
		if rapid.Bool().Draw(t, "other line ends") {
			data = bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))
		}
		d := newDraft(data)
		for range rapid.IntRange(1, 4).Draw(t, "edits") {
			tables, err := forms.Tables(d.now)
			require.NoError(t, err)
			var fields []design.Field
			for _, table := range tables {
				for _, f := range table.Fields {
					if f.Stated && f.Holds != design.AsWritten && f.Text != "" {
						fields = append(fields, f)
					}
				}
			}
			f := rapid.SampledFrom(fields).Draw(t, "field")
			value := rapid.StringMatching(`[a-z0-9 ."'\\±%#\[\]=]{1,20}`).Draw(t, "value")
			if strings.TrimSpace(value) == "" {
				continue
			}
			now, err := with(d.now, &f, value)
			require.NoError(t, err, "%s = %q", f.Key, value)
			start := commonStart(d.now, now)
			end := commonEnd(d.now[start:], now[start:])
			gone := string(d.now[start : len(d.now)-end])
			assert.NotContains(t, gone, "\n", "one value in one line was changed")
			assert.NotContains(t, gone, " = ")
			d.put(now, f.Key, "")
		}
		for d.undo() != "" {
		}
		assert.Equal(t, string(data), string(d.now))
	})
}

func commonStart(a, b []byte) (n int) {
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

func commonEnd(a, b []byte) (n int) {
	for n < len(a) && n < len(b) && a[len(a)-1-n] == b[len(b)-1-n] {
		n++
	}
	return n
}

// What is entered at one key cannot write another.
func TestAValueIsOneValue(t *testing.T) {
	data := []byte("[paths.fire]\nopen_in = [\"firing\"] # when\nkind = \"valve\"\n")
	raw := design.Field{Key: "paths.fire.open_in", Holds: design.AsWritten}
	for _, entered := range []string{"[]\nkind = \"relief\"", "[\"off\"] # more\n[volumes.x]", "[] , []", "[\"off\"", "}", "[]\n[a]\nb = 1",
		"[]\ndrive = \"direct\"", "[] # more"} {
		_, err := with(data, &raw, entered)
		assert.Error(t, err, entered)
	}
	now, err := with(data, &raw, "[\"off\",\n  \"firing\"]")
	require.NoError(t, err)
	assert.Equal(t, "[paths.fire]\nopen_in = [\"off\",\n  \"firing\"] # when\nkind = \"valve\"\n", string(now))
	text := design.Field{Key: "paths.fire.kind", Holds: design.OneWord}
	now, err = with(data, &text, `valve" # "x`)
	require.NoError(t, err)
	assert.Contains(t, string(now), `kind = "valve\" # \"x"`)
	_, err = with(data, &text, "valve\nx = 1")
	assert.Error(t, err)
	now, err = with(data, &text, " ")
	require.NoError(t, err)
	assert.NotContains(t, string(now), "kind", "nothing entered takes the key away")
}

// What comes of one move of a slider is one step back, and a step forward is lost by a new one.
func TestUndoAndRedo(t *testing.T) {
	d := newDraft([]byte("0"))
	for _, s := range []string{"1", "2", "3"} {
		d.put([]byte(s), "a move", "slide 1")
	}
	d.put([]byte("4"), "another", "slide 2")
	assert.Equal(t, "another", d.undo())
	assert.Equal(t, "3", string(d.now))
	assert.Equal(t, "a move", d.undo())
	assert.Equal(t, "0", string(d.now))
	assert.Empty(t, d.undo())
	assert.Equal(t, "a move", d.redo())
	d.put([]byte("5"), "a third", "slide 2")
	assert.Empty(t, d.redo())
	assert.Equal(t, "a third", d.undo())
	assert.Equal(t, "3", string(d.now))
}

// Saving writes the draft, and the bytes that nobody changed as they were.
func TestSavingWritesTheDraft(t *testing.T) {
	name, p := lightly(t, least(t))
	p.enter("barrel.dead_volume", "22 mL ± 0")
	assert.Contains(t, p.page(), "1 figure differs")
	before, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, least(t), before, "nothing is written before")
	require.Equal(t, answered{Said: "Saved."}, p.do("save", nil))
	after, err := os.ReadFile(name)
	require.NoError(t, err)
	was, _, _ := strings.Cut(after2(string(before), "dead_volume = \""), "\"")
	assert.Equal(t, strings.Replace(string(before), "dead_volume = \""+was, "dead_volume = \"22 mL ± 0", 1), string(after))
	p.until("Saved.")
}

func after2(s, lead string) string {
	_, rest, _ := strings.Cut(s, lead)
	return rest
}

// A draft with mistakes is shown with them at its fields, is not judged, and is not written.
func TestAMistakeIsShownAndNotWritten(t *testing.T) {
	name, p := lightly(t, least(t))
	p.enter("projectile.mass", "12 mm")
	p.until("Not judged")
	page := p.page()
	assert.Contains(t, page, "Mistakes in the design")
	require.Eventually(t, func() bool { return strings.Contains(strings.Join(partsOf(p), ""), "aria-invalid") }, time.Minute,
		50*time.Millisecond, "at its field")
	assert.Contains(t, p.do("save", nil).Error, "not saved: the draft has 1 mistake;")
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, least(t), data)
	require.Empty(t, p.do("undo", nil).Error)
	p.until("Judged")
}

// A file that is no TOML at all is shown with its place and mended as text.
func TestABrokenFileIsMendedOnThePage(t *testing.T) {
	good := string(least(t))
	name, p := lightly(t, []byte(strings.Replace(good, "\"steel\"", "\"steel", 1)))
	p.until("Not judged")
	assert.Contains(t, p.page(), "line ")
	require.Empty(t, p.do("text", url.Values{"text": {strings.ReplaceAll(good, "\n", "\r\n")}}).Error)
	p.until("Judged")
	require.Empty(t, p.do("save", nil).Error)
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, good, string(data), "a form sends other line ends than the file has")
}

// What an editor writes is taken over where nothing was changed on the page, and can be undone there.
func TestAnEditorsChangeIsTakenOver(t *testing.T) {
	name, p := lightly(t, least(t))
	p.until("Judged")
	require.NoError(t, os.WriteFile(name, bytes.Replace(least(t), []byte("Least launcher\""), []byte("Edited\""), 1), 0o644))
	p.until("Edited")
	p.until("this is what it says now")
	require.Empty(t, p.do("undo", nil).Error)
	assert.NotContains(t, p.page(), "<span class=\"title\">Edited")
}

// Where both have changed the file somebody chooses; saving writes nothing until then. All three choices.
func TestAChangeOnBothSidesIsChosen(t *testing.T) {
	theirs := bytes.Replace(least(t), []byte("Least launcher\""), []byte("Edited\""), 1)
	for choice, want := range map[string][2]bool{"mine": {false, true}, "theirs": {true, false}, "both": {true, true}} {
		name, p := lightly(t, least(t))
		p.enter("barrel.dead_volume", "22 mL ± 0")
		require.NoError(t, os.WriteFile(name, theirs, 0o644))
		p.until("The file was changed elsewhere")
		assert.Contains(t, p.do("save", nil).Error, "not saved")
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Equal(t, theirs, data)
		assert.NotEmpty(t, p.do("chose", url.Values{"choice": {choice}, "id": {"another"}}).Error, "a choice is of what was shown")
		require.Empty(t, p.do("chose", url.Values{"choice": {choice}, "id": {fingerprint(theirs)}}).Error)
		if answer := p.do("save", nil); choice != "theirs" {
			require.Empty(t, answer.Error)
		}
		data, err = os.ReadFile(name)
		require.NoError(t, err)
		assert.Equal(t, want, [2]bool{bytes.Contains(data, []byte("Edited")), bytes.Contains(data, []byte("22 mL"))}, choice)
	}
}

// A file that is gone, one that cannot be written and one that stands in the way lose nothing: the draft stays.
func TestNothingIsLostWhereNothingCanBeWritten(t *testing.T) {
	name, p := lightly(t, least(t))
	p.enter("name", "Kept draft")
	require.NoError(t, os.Remove(name))
	p.until("The file is gone")
	require.NoError(t, os.Mkdir(name, 0o755))
	assert.NotEmpty(t, p.do("save", nil).Error)
	assert.Contains(t, p.page(), "Kept draft")
	require.NoError(t, os.Remove(name))
	require.Empty(t, p.do("save", nil).Error)
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Contains(t, string(data), "Kept draft")
	require.NoError(t, os.Chmod(name, 0o444))
	p.enter("name", "Second draft")
	assert.Contains(t, p.do("save", nil).Error, "read-only")
	assert.Contains(t, p.page(), "Second draft")
}

// The program ends by itself when its pages are closed, but not over a draft that is not saved.
func TestItEndsByItselfUnlessADraftWouldBeLost(t *testing.T) {
	name := filepath.Join(t.TempDir(), "launcher.toml")
	require.NoError(t, os.WriteFile(name, least(t), 0o644))
	ended := make(chan struct{}, 2)
	ctx, stop := context.WithCancel(trial.Lightly(t.Context(), 0.00005))
	s := &server{options: Options{Today: func() string { return "2026-05-31" }}, forms: design.NewForms(quantity.Metric), working: ctx,
		searching: make(chan struct{}, 1), end: func() { ended <- struct{}{} }}
	s.sheets = []*sheet{newSheet(s, 1, name, least(t))}
	sh := s.sheets[0]
	sh.mu.Lock()
	sh.edit([]byte("x = 1"), "a change", "")
	sh.mu.Unlock()
	s.endUnlessAltered()
	assert.Empty(t, ended)
	sh.mu.Lock()
	sh.edit(sh.draft.saved, "back", "")
	sh.mu.Unlock()
	s.endUnlessAltered()
	assert.Len(t, ended, 1)
	closed := s.opened()
	closed()
	assert.NotNil(t, s.closed, "a page was closed: the time runs")
	second := s.opened()
	assert.Nil(t, s.closed, "another one is open")
	second()
	s.closed.Stop()
	stop()
	done := make(chan struct{})
	go func() { s.works.Wait(); close(done) }()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		t.Fatal("work goes on behind the end")
	}
}

// What the page saves while it looks whether somebody else has changed the file is no change of somebody else's: the look that began
// before the saving must not end behind it with what it read.
func TestALookAtTheFileDoesNotMeetASave(t *testing.T) {
	name := filepath.Join(t.TempDir(), "launcher.toml")
	require.NoError(t, os.WriteFile(name, least(t), 0o644))
	var wait atomic.Bool
	looking, goOn := make(chan struct{}), make(chan struct{})
	read := func(_ context.Context, name string) ([]byte, error) {
		data, err := os.ReadFile(name)
		if wait.CompareAndSwap(true, false) {
			close(looking)
			<-goOn
		}
		return data, err
	}
	p := visit(t, beginReading(t, trial.Lightly(t.Context(), 0.00005), "2026-05-31", read, name))
	p.until("Judged")
	p.enter("name", "Saved meanwhile")
	wait.Store(true)
	require.NoError(t, os.Chtimes(name, time.Time{}, time.Now().Add(time.Second))) // somebody touches it: the page looks
	<-looking
	saved := make(chan answered)
	go func() { saved <- p.do("save", nil) }()
	time.Sleep(300 * time.Millisecond) // for the saving to begin
	close(goOn)
	require.Empty(t, (<-saved).Error)
	time.Sleep(300 * time.Millisecond) // for the look to end; the next one comes later
	assert.NotContains(t, p.page(), "was changed elsewhere")
	assert.Contains(t, p.page(), "Saved meanwhile")
}
