package page

import (
	"context"
	"errors"
	"net/http"
	"strconv"
	"strings"
	"time"

	"puffproof/cmd/puffproof/internal/page/view"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/advise"
	"puffproof/limits/progress"
)

// doLook begins to look for changes with which the launcher flies and holds, as advise does.
func (sh *sheet) doLook(*http.Request) (string, error) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	switch {
	case sh.search.Running:
		return "", errors.New("it is being looked for already")
	case sh.opened == nil:
		return "", errors.New("mend the mistakes of the design first")
	}
	ctx, halt := context.WithCancel(sh.server.working)
	d, of := sh.opened, sh.draft.now
	sh.search, sh.halt = view.Search{Running: true}, halt
	sh.server.works.Go(func() {
		defer halt()
		var shown time.Time
		told := progress.With(ctx, func(r progress.Report) {
			sh.mu.Lock()
			defer sh.mu.Unlock()
			if sh.search.Running {
				sh.search.At = words(r)
				if time.Since(shown) >= aloud {
					shown = time.Now()
					sh.show()
				}
			}
		})
		found, err := advise.Find(told, advise.Input{Design: d, Day: sh.server.options.Today()})
		sh.mu.Lock()
		defer sh.mu.Unlock()
		sh.search = sh.searched(found, err)
		sh.ways, sh.waysOf = found.Ways, of
		sh.show()
	})
	sh.show()
	return "Looking for changes; that may take a minute.", nil
}

// searched is what came of a search, in words.
func (sh *sheet) searched(found advise.Answer, err error) view.Search {
	u := sh.server.options.Units
	switch {
	case errors.Is(err, context.Canceled):
		return view.Search{WhyNot: "Stopped."}
	case err != nil:
		return view.Search{WhyNot: err.Error()}
	case len(found.Ways) == 0:
		return view.Search{WhyNot: strings.TrimSpace(u.Text(found.WhyNot) + " " + u.Text(found.Instead))}
	}
	var out view.Search
	for i := range found.Ways {
		w := &found.Ways[i]
		one := view.Way{Name: w.Name, Judged: u.Worst(quantity.Energy, w.Judged) + " of " + u.Near(quantity.Energy, w.Limit)}
		for _, s := range w.Steps {
			one.Changes = append(one.Changes, view.WayChange{Key: s.Key, Old: s.Old, New: u.Text(s.To.Said()), Why: s.Why})
		}
		for _, s := range w.Declarations {
			one.Declare = append(one.Declare, view.WayChange{Key: s.Key, Old: s.Old, New: u.Text(s.To.Said()), Why: s.Why})
		}
		out.Found = append(out.Found, one)
	}
	return out
}

// doHalt ends the looking.
func (sh *sheet) doHalt(*http.Request) (string, error) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if !sh.search.Running {
		return "", errors.New("nothing is being looked for")
	}
	sh.halt()
	return "", nil
}

// doWay applies a way that was found. What only people can say is left to them.
func (sh *sheet) doWay(r *http.Request) (string, error) {
	n, err := strconv.Atoi(r.PostFormValue("way"))
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if err != nil || n < 0 || n >= len(sh.ways) || string(sh.waysOf) != string(sh.draft.now) {
		return "", errors.New("the design has changed since: look for a way anew")
	}
	var changes []advise.Change
	for _, s := range sh.ways[n].Steps {
		changes = append(changes, s.Change)
	}
	return sh.applied(changes, "the way that was found")
}
