package page

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"runtime/debug"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/page/view"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/quantity"
)

// Options are what a page is made of.
type Options struct {
	Names  []string // of one design file, or of two
	Listen string   // address, with or without a port; "": the loopback address, any port
	Units  quantity.System
	Today  func() string // an ISO date
	Stay   Staying
	// Read reads a file, at most so many bytes as a design may have.
	Read func(ctx context.Context, name string) ([]byte, error)
	// Paper makes a paper of a design's bytes, as an HTML file that needs nothing else.
	Paper func(ctx context.Context, kind, name string, design []byte) ([]byte, error)
	// Program is who writes into the record beside a design; Now is the clock, nil: the machine's.
	Program string
	Now     func() time.Time
	// Ready is told the link as soon as it is served, and one that a browser may be started with: that one opens once.
	Ready func(link, once string, warning string) error
}

// Staying says what happens when no page is open any more.
type Staying uint8

// It ends after a while, or not.
const (
	EndsAlone Staying = iota
	Stays
)

// alone is how long a program without a page waits for one to be opened again: a reload takes a moment, a phone that sleeps
// longer.
const alone = 2 * time.Minute

// server serves one page.
type server struct {
	options Options
	host    string // address and port, as in the link
	key     string
	once    string // opens the page once, for the browser that is started: others on this machine may read its command line
	forms   *design.Forms
	sheets  []*sheet

	working   context.Context // of all work; ends with the server
	works     sync.WaitGroup
	searching chan struct{}                 // taken while a search runs
	compared  atomic.Pointer[view.Compared] // of two designs, as both now are; nil: not yet
	ended     chan struct{}                 // closed when the server ends
	disk      sync.Mutex                    // of reading and writing files

	mu     sync.Mutex
	open   int // pages
	closed *time.Timer
	end    func()
}

// reader reads a design in the units of the page, held against its record as that now is.
func (s *server) reader(name string) design.Reader {
	return design.Reader{Units: s.options.Units, Proof: proving.Beside(name)}
}

// Serve serves the page until the context ends, or until no page has been open for a while. The error is about the address, or a
// file that cannot be read; a design with problems is shown with them.
func Serve(ctx context.Context, o Options) error {
	// A move of a slider leaves megabytes of text behind and little that stays: tidied up less often, the page answers sooner.
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	listener, warning, err := listen(ctx, o.Listen)
	if err != nil {
		return err
	}
	ctx, end := context.WithCancel(ctx)
	defer end()
	s := &server{options: o, host: listener.Addr().String(), key: newKey(), once: newKey(), forms: design.NewForms(o.Units), working: ctx,
		searching: make(chan struct{}, 1), ended: make(chan struct{}), end: end}
	for i, name := range o.Names {
		data, err := s.readFile(name)
		if err != nil {
			_ = listener.Close()
			return err
		}
		s.sheets = append(s.sheets, newSheet(s, i+1, name, data))
	}
	for _, sh := range s.sheets {
		s.works.Go(func() { sh.paint(ctx) })
	}
	s.works.Go(func() { s.watch(ctx) })
	h := &http.Server{Handler: s.handler(), ReadHeaderTimeout: 10 * time.Second, MaxHeaderBytes: 1 << 15,
		BaseContext: func(net.Listener) context.Context { return ctx }}
	served := make(chan error, 1)
	go func() { served <- h.Serve(listener) }()
	base := "http://" + s.host
	if err := o.Ready(base+"/?key="+s.key, base+"/open/"+s.once, warning); err != nil {
		_ = h.Close()
		return err
	}
	select {
	case err = <-served:
	case <-ctx.Done():
		close(s.ended)
		err = h.Close()
	}
	end()
	return ignoreClosed(err)
}

// ignoreClosed is nil for a server that was closed.
func ignoreClosed(err error) error {
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// AddressError is an address that cannot be served.
type AddressError struct{ Text string }

// Error says why.
func (e *AddressError) Error() string { return e.Text }

// listen opens the address; the warning is for one that others can reach.
func listen(ctx context.Context, address string) (_ net.Listener, warning string, err error) {
	at := netip.AddrPortFrom(netip.AddrFrom4([4]byte{127, 0, 0, 1}), 0)
	if address != "" {
		if at, err = netip.ParseAddrPort(address); err != nil {
			one, alone := netip.ParseAddr(strings.Trim(address, "[]"))
			if alone != nil {
				return nil, "", &AddressError{fmt.Sprintf("--listen is an address of this machine in figures, with or without a port, such as "+
					"192.168.1.20:8080; found %q", address)}
			}
			at = netip.AddrPortFrom(one, 0)
		}
	}
	switch {
	case at.Addr().IsUnspecified():
		return nil, "", &AddressError{"--listen " + address + ": name the one address that the other device reaches this machine at: " +
			"the page checks that it was asked by that"}
	case !loopback(at.Addr()):
		warning = "Whoever has the link, and everyone who can read along on this network, sees the page and can change the design: it is " +
			"not encrypted."
	}
	var config net.ListenConfig
	l, err := config.Listen(ctx, "tcp", at.String())
	if err != nil {
		var op *net.OpError
		if errors.As(err, &op) {
			err = op.Err
		}
		return nil, "", &AddressError{fmt.Sprintf("%s cannot be served: %v", at, err)}
	}
	return l, warning, nil
}

// handler answers what a page asks.
func (s *server) handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.page)
	mux.HandleFunc("GET /events", s.events)
	mux.HandleFunc("GET /style.css", s.asset("style.css", "text/css; charset=utf-8"))
	mux.HandleFunc("GET /page.js", s.asset("page.js", "text/javascript; charset=utf-8"))
	mux.HandleFunc("GET /icon.svg", s.asset("icon.svg", "image/svg+xml"))
	mux.HandleFunc("GET /paper/{kind}", s.paper)
	mux.HandleFunc("POST /do/{what}", s.do)
	outer := http.NewServeMux()
	outer.Handle("/", s.guard(mux))
	outer.HandleFunc("/open/{once}", s.openOnce)
	return outer
}

// openOnce leads the browser that was started to the page, the first time.
func (s *server) openOnce(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet {
		w.Header().Set("Allow", http.MethodGet)
		http.Error(w, "This link is opened with GET only.", http.StatusMethodNotAllowed)
		return
	}
	s.mu.Lock()
	good := s.once != "" && r.PathValue("once") == s.once && r.Host == s.host
	if good {
		s.once = ""
	}
	s.mu.Unlock()
	if !good {
		http.Error(w, "This link opens once. Take the one that puffproof page prints.", http.StatusForbidden)
		return
	}
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Referrer-Policy", "no-referrer")
	http.Redirect(w, r, "/?key="+s.key, http.StatusSeeOther)
}

// page sends the whole page of a design.
func (s *server) page(w http.ResponseWriter, r *http.Request) {
	sh := s.sheetOf(r)
	if sh == nil {
		http.NotFound(w, r)
		return
	}
	out, err := view.Page(sh.state(), s.key)
	if err != nil {
		http.Error(w, "The page could not be written: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(out)
}

// asset sends a file that is built in.
func (s *server) asset(name, kind string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", kind)
		_, _ = w.Write(view.Asset(name))
	}
}

// sheetOf is the design that a request is about; nil: there is no such.
func (s *server) sheetOf(r *http.Request) *sheet {
	number := r.URL.Query().Get("design")
	if number == "" {
		number = "1"
	}
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > len(s.sheets) {
		return nil
	}
	return s.sheets[n-1]
}

// opened counts a page that is open, until it is closed. When the last one is closed for a while the program ends.
func (s *server) opened() (closed func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.open++
	if s.closed != nil {
		s.closed.Stop()
		s.closed = nil
	}
	return func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		if s.open--; s.open == 0 && s.options.Stay == EndsAlone {
			s.closed = time.AfterFunc(alone, s.endUnlessAltered)
		}
	}
}

// endUnlessAltered ends the program, unless a draft would be lost by it.
func (s *server) endUnlessAltered() {
	for _, sh := range s.sheets {
		if sh.unsaved() {
			return
		}
	}
	s.end()
}
