package page

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net/http"
	"net/netip"
)

// keyBytes are the random bytes of a key: as many as nobody guesses.
const keyBytes = 24

// newKey makes the key of a link.
func newKey() string {
	b := make([]byte, keyBytes)
	_, _ = rand.Read(b) // never fails: it ends the program instead
	return base64.RawURLEncoding.EncodeToString(b)
}

// mostBody is the most bytes of a request: a file of readings, as the command line takes it.
const mostBody = 1<<20 + 1<<12

// policy is the content policy of every answer: nothing from elsewhere, no script and no style within the text.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; form-action 'none'; " +
	"base-uri 'none'; frame-ancestors 'none'"

// guard lets through only what was asked with the key, at the address that is served, by the page itself.
//
// The key is no cookie: a browser sends those to whatever else listens on another port of the same address. The name of the host
// is held against that of the link, so that no other name that leads to this machine serves a foreign page (DNS rebinding);
// what a page from elsewhere sends says so in Origin or Sec-Fetch-Site (Fetch Standard; Fetch Metadata Request Headers).
//
// A method that a path does not have is told so before the key is asked for (RFC 9110, 15.5.6: 405 with Allow): it does nothing.
func (s *server) guard(next *http.ServeMux) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		why := s.foreign(r)
		if allow := methods(next, r); why == "" && allow != "" {
			h.Set("Allow", allow)
			http.Error(w, "This is asked with "+allow+" only.", http.StatusMethodNotAllowed)
			return
		}
		if why == "" {
			why = s.keyless(r)
		}
		if why != "" {
			http.Error(w, why, http.StatusForbidden)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		next.ServeHTTP(w, r)
	})
}

// methods are those that a path has, where the request's is none of them; "" it is one, or there is no such path.
func methods(mux *http.ServeMux, r *http.Request) string {
	if _, found := mux.Handler(r); found != "" {
		return ""
	}
	for method, allow := range map[string]string{http.MethodGet: "GET, HEAD", http.MethodPost: "POST"} {
		if _, found := mux.Handler(&http.Request{Method: method, Host: r.Host, URL: r.URL}); found != "" {
			return allow
		}
	}
	return ""
}

// reads tells whether a method only reads: GET, and HEAD, which asks the same without the text (RFC 9110, 9.3.2).
func reads(method string) bool { return method == http.MethodGet || method == http.MethodHead }

// foreign says why a request is not one of this page's; "" it is.
func (s *server) foreign(r *http.Request) string {
	switch origin := r.Header.Get("Origin"); {
	case r.Host != s.host:
		return "This address is not the one that is served here."
	case origin != "" && origin != "http://"+s.host:
		return "This came from another page."
	}
	switch r.Header.Get("Sec-Fetch-Site") {
	case "", "same-origin", "none":
	default:
		// A link on another page may open this one, but only with the key, which no other page has.
		if !reads(r.Method) || r.URL.Path != "/" {
			return "This came from another page."
		}
	}
	return ""
}

// keyless says that a request has not the key; "" it has.
func (s *server) keyless(r *http.Request) string {
	given := r.Header.Get("X-Puffproof-Key")
	if given == "" && reads(r.Method) {
		given = r.URL.Query().Get("key")
	}
	if subtle.ConstantTimeCompare([]byte(given), []byte(s.key)) != 1 {
		return "The link of this page has a key. Open it as puffproof page prints it, whole."
	}
	return ""
}

// loopback tells whether only this machine can reach an address.
func loopback(a netip.Addr) bool { return a.Unmap().IsLoopback() }
