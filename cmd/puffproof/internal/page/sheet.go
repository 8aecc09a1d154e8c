package page

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"sync"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/page/answer"
	"puffproof/cmd/puffproof/internal/page/view"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/limits/advise"
	"puffproof/limits/finding"
)

// sheet is one design of the page: its file, its draft, what was found of it, and its parts as they were last shown.
type sheet struct {
	server *server
	number int
	name   string
	parts  *parts
	dirty  chan struct{} // holds one word while something is to be shown
	asking chan struct{} // likewise while the line of what is looked at is

	mu         sync.Mutex
	draft      *draft
	generation int
	stop       context.CancelFunc // of the work on the draft
	tables     []design.FieldTable
	noTOML     string
	problems   []problem.Problem
	opened     *design.Editable // the draft; nil: it has problems
	before     *design.Editable // the file; nil likewise
	outside    *outside
	note       string
	found      map[string]*found // by the fingerprint of a draft
	recent     []string          // fingerprints, the latest last
	record     string            // what the record beside the file was told by when it was last read
	older      *answer.Full      // what was judged last, with another record; nil: nothing was
	looking    finding.Text
	withheld   string
	search     view.Search
	halt       context.CancelFunc // ends it
	ways       []advise.Way       // that it found
	waysOf     []byte             // of this draft
	logs       []view.LogAnswer
}

// found is what was found of one draft.
type found struct {
	quick    *answer.Quick
	first    *answer.First
	full     *answer.Full
	settings *answer.Settings
}

// outside is what somebody else made of the file; data nil: it is gone.
type outside struct{ data []byte }

func fingerprint(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// newSheet begins with what stands in a file.
func newSheet(s *server, number int, name string, data []byte) *sheet {
	sh := &sheet{server: s, number: number, name: name, parts: newParts(), dirty: make(chan struct{}, 1), asking: make(chan struct{}, 1),
		draft: newDraft(data), found: map[string]*found{}, stop: func() {}}
	sh.mu.Lock()
	defer sh.mu.Unlock()
	sh.record = proving.Mark(name)
	sh.readBefore()
	sh.altered()
	return sh
}

// readBefore understands the file as it is.
func (sh *sheet) readBefore() {
	sh.before, _ = sh.server.reader(sh.name).Open(sh.name, sh.draft.saved)
}

// altered understands the draft as it now is, ends the work on the one before and begins that on this one. The lock is held.
func (sh *sheet) altered() {
	sh.stop()
	sh.generation++
	sh.looking, sh.withheld, sh.noTOML = nil, "", ""
	if sh.server.compared.Swap(nil) != nil {
		for _, other := range sh.server.sheets {
			other.show()
		}
	}
	tables, err := sh.server.forms.Tables(sh.draft.now)
	if sh.tables = tables; err != nil {
		sh.noTOML = err.Error()
	}
	sh.opened, sh.problems = sh.server.reader(sh.name).Open(sh.name, sh.draft.now)
	ctx, stop := context.WithCancel(sh.server.working)
	sh.stop = stop
	if opened, before, generation := sh.opened, sh.before, sh.generation; opened != nil {
		sh.server.works.Go(func() { sh.work(ctx, generation, opened, before) })
	}
	sh.show()
}

// show asks for the page to be shown as it now is.
func (sh *sheet) show() {
	select {
	case sh.dirty <- struct{}{}:
	default:
	}
}

// mostFound is how many drafts' answers are kept, so that going back is at once.
const mostFound = 12

// of gives what was found of a draft, to be added to. The lock is held.
func (sh *sheet) of(data []byte) *found {
	id := fingerprint(data)
	f := sh.found[id]
	if f == nil {
		f = &found{}
		sh.found[id] = f
		sh.recent = append(sh.recent, id)
		for i := 0; len(sh.recent) > mostFound && i < len(sh.recent); {
			if old := sh.recent[i]; old == id || old == fingerprint(sh.draft.saved) {
				i++
				continue
			}
			delete(sh.found, sh.recent[i])
			sh.recent = append(sh.recent[:i:i], sh.recent[i+1:]...)
		}
	}
	return f
}

// paint shows the page again and again as it changes, until the context ends.
func (sh *sheet) paint(ctx context.Context) {
	var memo view.Memo
	for {
		select {
		case <-ctx.Done():
			return
		case <-sh.asking:
			order, html := view.Asking(sh.state())
			sh.parts.set(order, html)
		case <-sh.dirty:
			order, html := view.Parts(sh.state(), &memo)
			sh.parts.set(order, html)
		}
	}
}

// state is what the page is to show now.
func (sh *sheet) state() *view.State {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	d := sh.draft
	st := &view.State{Units: sh.server.options.Units, Number: sh.number, Generation: sh.generation, File: sh.name, Text: string(d.now),
		Tables: sh.tables, NoTOML: sh.noTOML, Problems: sh.problems, Undo: nextStep(d.past), Redo: nextStep(d.future), Note: sh.note,
		Looking: sh.looking, Withheld: sh.withheld, Search: sh.search, Logs: sh.logs,
		Compare: sh.server.compared.Load(), Key: sh.server.key, Day: sh.server.options.Today(), Altered: d.altered()}
	for _, other := range sh.server.sheets {
		st.Others = append(st.Others, view.Other{Number: other.number, File: other.name, This: other == sh})
	}
	if len(sh.server.sheets) == 0 { // it is the first, and being made
		st.Others = []view.Other{{Number: sh.number, File: sh.name, This: true}}
	}
	st.Changed, _ = design.DifferencesOf(d.saved, d.now)
	if sh.opened != nil {
		st.Launcher = sh.opened.Launcher()
		f := sh.of(d.now)
		st.Quick, st.First, st.Full, st.Settings = f.quick, f.first, f.full, f.settings
	}
	if sh.before != nil && d.altered() {
		st.Before = sh.before.Launcher()
		if f := sh.found[fingerprint(d.saved)]; f != nil {
			st.QuickBefore, st.FullBefore = f.quick, f.full
		}
	}
	if o := sh.outside; o != nil {
		st.Outside = &view.Outside{Gone: o.data == nil, ID: fingerprint(o.data)}
		var err error
		if st.Outside.Differs, err = design.DifferencesOf(d.now, o.data); err != nil {
			st.Outside.NoTOML = err.Error()
		}
	}
	return st
}

// edit makes data the draft. The lock is held.
func (sh *sheet) edit(data []byte, what, gesture string) {
	was := sh.draft.now
	sh.draft.put(data, what, gesture)
	sh.note = ""
	if !bytes.Equal(was, sh.draft.now) {
		sh.altered()
		return
	}
	sh.show()
}

// unsaved tells that the draft is not what the file says.
func (sh *sheet) unsaved() bool {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	return sh.draft.altered()
}
