package page

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/limits/advise"
)

// answered is what a page hears of what it asked for. What it shows comes as events.
type answered struct {
	Error string `json:"error,omitempty"` // why nothing was done
	Said  string `json:"said,omitempty"`  // what was done; never beside an error
}

// do does what somebody asks for on the page.
func (s *server) do(w http.ResponseWriter, r *http.Request) {
	sh := s.sheetOf(r)
	if sh == nil {
		http.NotFound(w, r)
		return
	}
	if err := r.ParseForm(); err != nil {
		http.Error(w, "That is larger than a design or a file of readings.", http.StatusRequestEntityTooLarge)
		return
	}
	action := actions()[r.PathValue("what")]
	if action == nil {
		http.NotFound(w, r)
		return
	}
	var out answered
	said, err := action(sh, r)
	if err != nil {
		out.Error = err.Error()
	} else {
		out.Said = said
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	_ = json.NewEncoder(w).Encode(out)
}

// actions are what can be asked for. The words are what was done; the error says why nothing was.
func actions() map[string]func(sh *sheet, r *http.Request) (string, error) {
	return map[string]func(sh *sheet, r *http.Request) (string, error){
		"edit": (*sheet).doEdit,
		"text": (*sheet).doText,
		"undo": func(sh *sheet, _ *http.Request) (string, error) { return sh.back((*draft).undo, "Undone: ") },
		"redo": func(sh *sheet, _ *http.Request) (string, error) { return sh.back((*draft).redo, "Done again: ") },
		"save": func(sh *sheet, r *http.Request) (string, error) { return "Saved.", sh.save(r.Context()) },
		"drop": (*sheet).doDrop,
		"chose": func(sh *sheet, r *http.Request) (string, error) {
			return "", sh.choose(r.PostFormValue("choice"), r.PostFormValue("id"))
		},
		"apply": (*sheet).doApply,
		"rung":  (*sheet).doRung,
		"done":  (*sheet).doDone,
		"log":   (*sheet).doLog,
		"look":  (*sheet).doLook,
		"halt":  (*sheet).doHalt,
		"way":   (*sheet).doWay,
	}
}

// back undoes or redoes.
func (sh *sheet) back(step func(*draft) string, lead string) (string, error) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	what := step(sh.draft)
	if what == "" {
		return "", errors.New("there is nothing to go back to")
	}
	sh.note = ""
	sh.altered()
	return lead + what + ".", nil
}

// doEdit enters a value at a key.
func (sh *sheet) doEdit(r *http.Request) (string, error) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	key := r.PostFormValue("key")
	f := sh.field(key)
	if f == nil {
		return "", fmt.Errorf("the design has no key %s that can be changed here", key)
	}
	data, err := with(sh.draft.now, f, r.PostFormValue("value"))
	if err != nil {
		return "", err
	}
	sh.edit(data, "a change of "+key, r.PostFormValue("gesture"))
	return "", nil
}

// field is the field of a key; nil: there is none.
func (sh *sheet) field(key string) *design.Field {
	for i := range sh.tables {
		for j := range sh.tables[i].Fields {
			if f := &sh.tables[i].Fields[j]; f.Key == key {
				return f
			}
		}
	}
	return nil
}

// doText takes the text of the whole file: the way to mend one that is no TOML.
func (sh *sheet) doText(r *http.Request) (string, error) {
	text := r.PostFormValue("text")
	if !strings.Contains(sh.text(), "\r\n") { // forms send line ends as a network does
		text = strings.ReplaceAll(text, "\r\n", "\n")
	}
	sh.mu.Lock()
	defer sh.mu.Unlock()
	sh.edit([]byte(text), "a change of the file's text", "")
	return "", nil
}

// text is the draft.
func (sh *sheet) text() string {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	return string(sh.draft.now)
}

// doDrop makes the draft what the file says.
func (sh *sheet) doDrop(*http.Request) (string, error) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if !sh.draft.altered() {
		return "", errors.New("nothing differs from the file")
	}
	sh.edit(sh.draft.saved, "going back to the file", "")
	return "The draft is what the file says.", nil
}

// errOther is returned for advice on a draft that is no longer the one that is shown.
var errOther = errors.New("the design has changed since: its advice is being looked for anew")

// doApply applies advice that was tried.
func (sh *sheet) doApply(r *http.Request) (string, error) {
	n, err := strconv.Atoi(r.PostFormValue("proof"))
	if err != nil {
		return "", errOther
	}
	sh.mu.Lock()
	defer sh.mu.Unlock()
	full := sh.of(sh.draft.now).full
	if r.PostFormValue("generation") != strconv.Itoa(sh.generation) || full == nil || n < 0 || n >= len(full.Proofs) {
		return "", errOther
	}
	p := &full.Proofs[n]
	return sh.applied(p.Changes, "the advice for "+p.Verdict)
}

// applied makes changes that limits advises. The lock is held.
func (sh *sheet) applied(changes []advise.Change, what string) (string, error) {
	data, err := changed(sh.draft.now, changes)
	if err != nil {
		return "", err
	}
	sh.edit(data, what, "")
	return "Applied: " + what + ". Undo takes it back.", nil
}
