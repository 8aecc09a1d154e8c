package page

import (
	"errors"
	"fmt"
	"net/http"
	"strings"
	"time"

	"puffproof/cmd/puffproof/internal/page/view"
	"puffproof/cmd/puffproof/internal/readings"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// doDone writes an answer of the checklist into the draft. Whether it closes its item is said there, by the rules of items: what
// does not can be undone, or written over.
func (sh *sheet) doDone(r *http.Request) (string, error) {
	text := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	item, who, day := text("item"), text("who"), text("date")
	switch _, err := time.Parse(time.DateOnly, day); {
	case finding.Declared(who) == "":
		return "", errors.New("it needs the initials of who did it and of who watched")
	case err != nil:
		return "", fmt.Errorf("the day is year-month-day, such as %s; found %q", sh.server.options.Today(), day)
	case day > sh.server.options.Today():
		return "", fmt.Errorf("%s is still to come: what is dated later counts as not done", day)
	case !finding.IsItem(item):
		return "", fmt.Errorf("no answer closes an item %q", item)
	}
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if sh.opened == nil {
		return "", errors.New("mend the mistakes of the design first")
	}
	with, err := sh.opened.Answered(item, who, day, text("value"))
	if err != nil {
		return "", err
	}
	sh.edit(with.Bytes(), "the answer to "+item, "")
	return "Written into the draft: " + item + ". Save writes it into the file.", nil
}

// doLog judges a file of readings of the real launcher: of an emptying, or of a leak-down. Nothing of it is kept but on the page.
func (sh *sheet) doLog(r *http.Request) (string, error) {
	sh.mu.Lock()
	opened := sh.opened
	sh.mu.Unlock()
	if opened == nil {
		return "", errors.New("mend the mistakes of the design first")
	}
	l, name := opened.Launcher(), r.PostFormValue("name")
	if name == "" {
		name = "readings"
	}
	out := view.LogAnswer{Name: show.Clean(name)}
	log, problems := readings.Read(name, []byte(r.PostFormValue("text")), l.Ambient.Pressure.Nominal)
	out.Problems = problems
	units := sh.server.options.Units
	switch kind := r.PostFormValue("kind"); {
	case len(problems) > 0:
		out.Title = "These readings cannot be read"
	case kind == "vent":
		a, err := stopwatch.Judge(l, log, sh.server.options.Today())
		if err != nil {
			return "", err
		}
		out.Title, out.Good = "Emptying: "+string(a.Status), a.Status == stopwatch.Agrees
		out.Lines = []string{units.Text(a.Says)}
	case kind == "leak":
		a, err := vent.JudgeLeakDown(l, log)
		if err != nil {
			return "", err
		}
		out.Title, out.Good = "Leak-down: "+string(a.Status), a.Status == vent.LeakTight
		out.Lines = []string{units.Text(a.Says)}
	default:
		return "", fmt.Errorf("readings of what? %q", kind)
	}
	const most = 5
	sh.mu.Lock()
	defer sh.mu.Unlock()
	sh.logs = append([]view.LogAnswer{out}, sh.logs[:min(len(sh.logs), most-1)]...)
	sh.show()
	return out.Title, nil
}

// paper makes a paper of the file as it is saved, for the browser to keep.
func (s *server) paper(w http.ResponseWriter, r *http.Request) {
	sh := s.sheetOf(r)
	kind := r.PathValue("kind")
	if sh == nil || s.options.Paper == nil || kind != "safety-file" && kind != "card" {
		http.NotFound(w, r)
		return
	}
	sh.mu.Lock()
	data, unsaved, faulty := sh.draft.saved, sh.draft.altered(), sh.before == nil
	sh.mu.Unlock()
	if unsaved || faulty {
		http.Error(w, "A paper is of the file: save the draft first, without mistakes.", http.StatusConflict)
		return
	}
	release := s.turn(r.Context())
	if release == nil {
		return
	}
	defer release()
	out, err := s.options.Paper(r.Context(), kind, sh.name, data)
	if err != nil {
		http.Error(w, "The paper could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	// Kept as a file: it has styles of its own, which this page's policy forbids.
	w.Header().Set("Content-Disposition", `attachment; filename="`+kind+`.html"`)
	_, _ = w.Write(out)
}
