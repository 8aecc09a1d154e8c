package page

import (
	"context"
	"maps"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/page/view"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/trial"
	"puffproof/limits/launcher"
)

// An answer goes into the record and into the file at once, dated and signed, by the rules and in the order of commission; one that
// cannot be one is refused, and nothing is written.
func TestAnAnswerOfTheChecklistGoesIntoRecordAndFile(t *testing.T) {
	name, p := lightly(t, least(t))
	p.until("steps done")
	answer := url.Values{"item": {"label.ratings"}, "who": {"AB"}, "date": {"2026-05-30"},
		"value": {"dose and barrel 10 bar for air, photographed"}}
	with := func(key, value string) url.Values {
		out := maps.Clone(answer)
		out.Set(key, value)
		return out
	}
	for why, values := range map[string]url.Values{"initials": with("who", " "), "year-month-day": with("date", "30.5.2026"),
		"still to come": with("date", "2026-06-01"), "no answer closes": with("item", "no.such.item"),
		"has no figure in bar":        with("value", "fine"),
		"is less than the 10.000 bar": with("value", "0.01 bar"), "not yet: first": with("item", "vent.low")} {
		assert.Contains(t, p.do("done", values).Error, why)
	}
	assert.NoFileExists(t, name+".record")
	require.Empty(t, p.do("done", answer).Error)
	p.until("photographed (AB, 2026-05-30)")
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(data), strings.TrimRight(string(least(t)), "\n")), "what stood there stays")
	assert.Contains(t, string(data), `[checklist."label.ratings"]`)
	log, err := record.Load(name + ".record")
	require.NoError(t, err)
	require.Len(t, log.Readings(), 1)
	assert.Empty(t, log.Pending())
	assert.Contains(t, string(data), `record = "`+log.Readings()[0].Name()+`"`)
	p.enter("name", "Draft")
	assert.Contains(t, p.do("done", with("item", "age.retire")).Error, "save the draft first")
	require.Empty(t, p.do("save", nil).Error)
	require.NoError(t, os.Remove(name+".record"))
	p.enter("name", "Draft of mine")
	p.until("the record of this reading is missing")
}

// What somebody makes of the record while the page is open shows there by itself, without an edit: the file is gone, back, altered. What
// the page wrote itself is no such change.
func TestThePageWatchesTheRecord(t *testing.T) {
	name, p := lightly(t, least(t))
	p.until("steps done")
	require.Empty(t, p.do("done", url.Values{"item": {"label.ratings"}, "who": {"AB"}, "date": {"2026-05-30"},
		"value": {"dose and barrel 10 bar for air"}}).Error)
	p.until("1 of 37 steps done")
	time.Sleep(2 * looks)
	assert.NotContains(t, p.page(), "The record beside the file was changed elsewhere", "its own line is nobody else's")
	whole, err := os.ReadFile(name + ".record")
	require.NoError(t, err)
	require.NoError(t, os.Remove(name+".record"))
	p.until("the record of this reading is missing")
	p.until("The record beside the file was changed elsewhere")
	require.NoError(t, os.WriteFile(name+".record", whole, 0o644))
	p.until("1 of 37 steps done")
	spoiled := strings.Replace(string(whole), "barrel 10 bar", "barrel 90 bar", 1)
	require.NoError(t, os.WriteFile(name+".record", []byte(spoiled), 0o644))
	p.until("ALTERED")
	refused := p.do("done", url.Values{"item": {"label.ratings"}, "who": {"AB"}, "date": {"2026-05-30"},
		"value": {"dose and barrel 11 bar for air"}})
	assert.Contains(t, refused.Error, "first Clear up the record")
}

// Readings are judged, and what is wrong with them is said with its place.
func TestReadingsAreJudgedOnThePage(t *testing.T) {
	data, err := os.ReadFile("../../testdata/vented.toml")
	require.NoError(t, err)
	_, p := lightly(t, data)
	log := func(kind, text string) answered {
		return p.do("log", url.Values{"kind": {kind}, "name": {"log.csv"}, "text": {text}})
	}
	assert.Contains(t, log("vent", "time [s],pressure [bar]\n0,0.30\n1,0.24\n2,0.19\n3,0.15\n4,0.12\n5,0.09\n").Said, "Emptying: ")
	assert.Contains(t, log("leak", "time [s],pressure [bar]\n0,0.300\n60,0.300\n120,0.300\n240,0.300\n").Said, "Leak-down: ")
	assert.Contains(t, log("vent", "time [s],pressure [parsec]\n0,1\n").Said, "cannot be read")
	assert.Contains(t, p.page(), "line 1")
	assert.NotEmpty(t, log("weather", "time [s],pressure [bar]\n0,0.3\n1,0.2\n").Error)
}

// A rung that is moved past another takes that along by as much, as one step; one in other units stays.
func TestRungsPushEachOther(t *testing.T) {
	rungs := []view.Rung{{Key: "in"}, {Key: "out"}, {Key: "set"}, {Key: "full"}}
	texts := map[string]string{"in": "0.18 bar ± 0.04 bar", "out": "0.36 bar, measured", "set": "0.75 bar", "full": "14 psi"}
	push := func(key, text string) []view.Push {
		return view.Pushed(rungs, key, text, func(k string) string { return texts[k] })
	}
	assert.Empty(t, push("out", "0.50 bar"))
	assert.Equal(t, []view.Push{{Key: "set", Text: "1.19 bar"}}, push("out", "0.80 bar"))
	assert.Equal(t, []view.Push{{Key: "in", Text: "0.05 bar ± 0.04 bar"}}, push("out", "0.1 bar"), "0.18 x 0.1/0.36")
	assert.Empty(t, push("other", "1 bar"))
	assert.Empty(t, view.RungsOf(&launcher.Launcher{}))
}

// The ladder's fields are those of the design: the cut-out pushes the cut-in of the real file, and one undo takes both back.
func TestTheLadderChangesTheDraft(t *testing.T) {
	data, err := os.ReadFile("../../../../testdata/designs/whale.toml")
	require.NoError(t, err)
	_, p := lightly(t, data)
	require.Empty(t, p.do("rung", url.Values{"key": {"pressure_switch.cut_out"}, "value": {"0.16 bar ± 0.03 bar, measured"}}).Error)
	page := p.page()
	assert.Contains(t, page, "2 figures differ")
	require.Eventually(t, func() bool {
		return strings.Contains(strings.Join(partsOf(p), ""), `value="0.08 bar ± 0.04 bar, measured"`)
	},
		time.Minute, 50*time.Millisecond, "0.18 x 0.16/0.36")
	assert.NotEmpty(t, p.do("rung", url.Values{"key": {"no.such"}, "value": {"1 bar"}}).Error)
	require.Empty(t, p.do("undo", nil).Error)
	assert.Contains(t, p.page(), "As the file says.")
}

// A paper is of the file as it is saved; only the two kinds that there are, and with the key.
func TestPapersAreOfTheFile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "launcher.toml")
	require.NoError(t, os.WriteFile(name, least(t), 0o644))
	ctx, stop := context.WithCancel(trial.Lightly(t.Context(), 0.00005))
	defer stop()
	link := make(chan string, 1)
	var made []string
	done := make(chan error, 1)
	go func() {
		done <- Serve(ctx, Options{Names: []string{name}, Today: func() string { return "2026-05-31" },
			Read: func(_ context.Context, name string) ([]byte, error) { return os.ReadFile(name) },
			Paper: func(_ context.Context, kind, _ string, text []byte) ([]byte, error) {
				made = append(made, kind, string(text))
				return []byte("<p>paper"), nil
			},
			Ready: func(l, _, _ string) error { link <- l; return nil }})
	}()
	p := visit(t, <-link)
	assert.Equal(t, 403, p.status("GET", "/paper/card", nil))
	assert.Equal(t, 404, p.status("GET", "/paper/passwd?key="+p.key, nil))
	assert.Equal(t, 200, p.status("GET", "/paper/card?key="+p.key, nil))
	assert.Equal(t, []string{"card", string(least(t))}, made)
	p.enter("name", "Draft")
	assert.Equal(t, http.StatusConflict, p.status("GET", "/paper/card?key="+p.key, nil))
	assert.Len(t, made, 2)
	stop()
	require.NoError(t, <-done)
}

// Advice is of the draft that it was tried on: after another edit it is refused.
func TestAdviceOfAnotherDraftIsRefused(t *testing.T) {
	_, p := lightly(t, least(t))
	assert.NotEmpty(t, p.do("apply", url.Values{"proof": {"0"}, "generation": {"0"}}).Error)
	assert.NotEmpty(t, p.do("way", url.Values{"way": {"0"}}).Error)
	assert.NotEmpty(t, p.do("halt", nil).Error)
	require.Empty(t, p.do("look", nil).Error)
	assert.NotEmpty(t, p.do("look", nil).Error, "once at a time")
	require.Empty(t, p.do("halt", nil).Error)
	p.until("Stopped.")
}

// Two designs are put side by side as soon as both are judged, and each is a page of its own.
func TestTwoDesignsSideBySide(t *testing.T) {
	folder := t.TempDir()
	var names []string
	for _, title := range []string{"First", "Second"} {
		name := filepath.Join(folder, title+".toml")
		text := strings.Replace(string(least(t)), "Least launcher", title, 1)
		require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
		names = append(names, name)
	}
	p := visit(t, beginIn(t, trial.Lightly(t.Context(), 0.00005), names...))
	p.until("1 key is")
	page := p.page()
	assert.Contains(t, page, "Side by side")
	assert.Contains(t, page, ">First")
	assert.Equal(t, 200, p.status("GET", "/?design=2&key="+p.key, nil))
}
