package page

import (
	"errors"
	"fmt"
	"net/http"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/page/view"
)

// doRung sets one pressure of the ladder. Where it would pass another one that one goes along, by as much: the rungs push each
// other. All is one step.
func (sh *sheet) doRung(r *http.Request) (string, error) {
	key, gesture := r.PostFormValue("key"), r.PostFormValue("gesture")
	sh.mu.Lock()
	defer sh.mu.Unlock()
	f := sh.field(key)
	if f == nil {
		return "", fmt.Errorf("the design has no key %s that can be changed here", key)
	}
	if sh.opened == nil {
		return "", errors.New("mend the mistakes of the design first")
	}
	rungs := view.RungsOf(sh.opened.Launcher())
	data, err := with(sh.draft.now, f, r.PostFormValue("value"))
	if err != nil {
		return "", err
	}
	for _, push := range view.Pushed(rungs, key, r.PostFormValue("value"), sh.textOf) {
		file, err := edit.Open(data)
		if err != nil {
			return "", err
		}
		other := sh.field(push.Key)
		if other == nil {
			continue
		}
		text, err := other.TOML(push.Text)
		if err != nil {
			return "", err
		}
		if err := setOne(file, push.Key, text); err != nil {
			return "", err
		}
		data = file.Bytes()
	}
	sh.edit(data, "a change of "+key, gesture)
	return "", nil
}

// textOf is what the draft says at a key.
func (sh *sheet) textOf(key string) string {
	if f := sh.field(key); f != nil {
		return f.Text
	}
	return ""
}
