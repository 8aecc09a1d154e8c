package page

import (
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/page/answer"
	"puffproof/cmd/puffproof/internal/page/view"
	"puffproof/limits"
)

// beside puts two designs side by side, where the page has two and both are judged.
func (sh *sheet) beside() {
	all := sh.server.sheets
	if len(all) != 2 {
		return
	}
	first, full := all[0].judged()
	second, other := all[1].judged()
	if full == nil || other == nil {
		return
	}
	c := view.Compared{A: all[0].name, B: all[1].name, Keys: design.Differences(first, second),
		Results: limits.ComparisonOf(full.Assessment, other.Assessment), Ready: true}
	sh.server.compared.Store(&c)
	for _, one := range all {
		one.show()
	}
}

// judged is the draft with its whole judgement; nil: it has none yet.
func (sh *sheet) judged() (*design.Editable, *answer.Full) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if sh.opened == nil {
		return nil, nil
	}
	return sh.opened, sh.of(sh.draft.now).full
}
