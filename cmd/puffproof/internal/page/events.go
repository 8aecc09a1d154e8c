package page

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"sync"
	"time"
)

// parts are the parts of a page as they were last written, each with the number of its last change. Whoever shows them waits for
// the next number: one who is slow misses what lies between, never the last.
type parts struct {
	mu     sync.Mutex
	now    map[string]part
	order  []string
	number int
	wake   chan struct{} // closed at the next change
}

// part is one part of the page.
type part struct {
	html   string
	number int
}

func newParts() *parts { return &parts{now: map[string]part{}, wake: make(chan struct{})} }

// set takes over parts by their ids, and tells whoever waits where one of them has changed.
func (p *parts) set(order []string, html map[string]string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	altered := false
	for _, id := range order {
		if old, is := p.now[id]; is && old.html == html[id] {
			continue
		}
		p.number++
		p.now[id] = part{html[id], p.number}
		altered = true
		if !slices.Contains(p.order, id) {
			p.order = append(p.order, id)
		}
	}
	if altered {
		close(p.wake)
		p.wake = make(chan struct{})
	}
}

// sent is a part as it goes to a page.
type sent struct {
	ID   string `json:"id"`
	HTML string `json:"html"`
}

// since lists the parts that changed after a number, the number reached, and what is closed at the next change.
func (p *parts) since(number int) ([]sent, int, <-chan struct{}) {
	p.mu.Lock()
	defer p.mu.Unlock()
	var out []sent
	for _, id := range p.order {
		if one := p.now[id]; one.number > number {
			out = append(out, sent{id, one.html})
		}
	}
	return out, p.number, p.wake
}

// heartbeat is how often a page hears that the program still runs.
const heartbeat = 5 * time.Second

// events sends the parts of a page, and then whatever changes, until the page is closed or the program ends.
func (s *server) events(w http.ResponseWriter, r *http.Request) {
	sheet := s.sheetOf(r)
	if sheet == nil {
		http.NotFound(w, r)
		return
	}
	flush, can := w.(http.Flusher)
	if !can {
		http.Error(w, "no events over this connection", http.StatusNotImplemented)
		return
	}
	defer s.opened()()
	w.Header().Set("Content-Type", "text/event-stream; charset=utf-8")
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	number := 0
	for {
		changed, reached, wake := sheet.parts.since(number)
		if len(changed) > 0 {
			data, err := json.Marshal(changed)
			if err != nil {
				return
			}
			if _, err := fmt.Fprintf(w, "event: parts\ndata: %s\n\n", data); err != nil {
				return
			}
			flush.Flush()
			number = reached
		}
		select {
		case <-wake:
		case <-beat.C:
			if _, err := fmt.Fprint(w, "event: alive\ndata: 1\n\n"); err != nil {
				return
			}
			flush.Flush()
		case <-r.Context().Done():
			return
		case <-s.ended:
			return
		}
	}
}
