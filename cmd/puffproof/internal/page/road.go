package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"time"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/page/view"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/readings"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits/finding"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// doDone writes an answer of the checklist down, into the record and into the file, as items does: in the same order, and by the same
// judge. So it is one of the design as it is saved; the error says why nothing was written.
func (sh *sheet) doDone(r *http.Request) (string, error) {
	text := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	given := &proving.Reading{Step: text("item"), Value: text("value"), Who: text("who"), Date: text("date"), Failing: proving.Refused}
	switch _, err := time.Parse(time.DateOnly, given.Date); {
	case finding.Declared(given.Who) == "":
		return "", errors.New("it needs " + proving.WhoWanted(given.Who))
	case err != nil:
		return "", fmt.Errorf("the day is year-month-day, such as %s; found %q", sh.server.options.Today(), given.Date)
	case given.Date > sh.server.options.Today():
		return "", fmt.Errorf("%s is still to come: what is dated later counts as not done", given.Date)
	case !finding.IsItem(given.Step):
		return "", fmt.Errorf("no answer closes an item %q", given.Step)
	}
	sh.mu.Lock()
	defer sh.mu.Unlock()
	data := sh.draft.saved
	full := sh.of(data).full
	switch {
	case sh.before == nil:
		return "", errors.New("mend the mistakes of the design first")
	case sh.draft.altered():
		return "", errors.New("save the draft first: an answer is one of the design as its file says it")
	case full == nil:
		return "", errors.New("the design is still being judged: once more in a moment")
	}
	book, err := sh.book(data)
	if err != nil {
		return "", err
	}
	book.Judged(full.Way)
	if err := book.Compute(r.Context(), nil); err != nil {
		return "", err
	}
	if _, err := book.Take(r.Context(), given); err != nil {
		return "", err
	}
	sh.draft.put(book.File(), "the answer to "+given.Step, "")
	sh.draft.saved, sh.outside, sh.note = book.File(), nil, ""
	sh.record = proving.Mark(sh.name)
	sh.readBefore()
	sh.altered()
	return "Written into the record and into the file: " + given.Step + ".", nil
}

// book is the design as its file says it, with its record. The lock is held.
func (sh *sheet) book(data []byte) (*proving.Book, error) {
	o := &sh.server.options
	now := o.Now
	if now == nil {
		now = time.Now
	}
	host := proving.Host{Units: o.Units, Program: o.Program, Today: o.Today(), Now: now, Wrote: func(string) {}, Rewrite: sh.rewrite}
	return proving.Open(host, sh.name, data, func(beside *design.Proof) (*design.Editable, error) {
		d, problems := design.Reader{Units: o.Units, Proof: beside}.Open(sh.name, data)
		if len(problems) > 0 {
			return nil, errors.New(problems[0].String())
		}
		return d, nil
	})
}

// rewrite puts a file in the place of one that was read as was, unless somebody changed that meanwhile.
func (sh *sheet) rewrite(ctx context.Context, name string, was, now []byte) error {
	data, err := sh.server.readFile(name)
	switch {
	case err != nil:
		return usage.Errorf("%s: %v", name, err)
	case !bytes.Equal(data, was):
		return usage.Errorf("%s: was changed elsewhere meanwhile", name)
	}
	sh.server.disk.Lock()
	defer sh.server.disk.Unlock()
	if err := atomicfile.Write(ctx, name, now, atomicfile.Replace); err != nil {
		return usage.Errorf("%s: not written: %v", name, plain(err))
	}
	return nil
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
