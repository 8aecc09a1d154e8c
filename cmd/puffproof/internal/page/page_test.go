package page

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/trial"
)

// least is the least design that holds: quick enough to be judged often.
func least(t *testing.T) []byte {
	t.Helper()
	data, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	return data
}

// lightly serves one design file with searches at a fiftieth of their effort: these tests ask how answers go together.
func lightly(t *testing.T, data []byte) (name string, p *visitor) {
	t.Helper()
	name = filepath.Join(t.TempDir(), "launcher.toml")
	require.NoError(t, os.WriteFile(name, data, 0o644))
	return name, visit(t, beginIn(t, trial.Lightly(t.Context(), 0.00005), name))
}

// visitor asks as the page does.
type visitor struct {
	t         *testing.T
	base, key string
}

func visit(t *testing.T, link string) *visitor {
	t.Helper()
	u, err := url.Parse(link)
	require.NoError(t, err)
	return &visitor{t, "http://" + u.Host, u.Query().Get("key")}
}

// do asks for something to be done.
func (p *visitor) do(what string, values url.Values) answered {
	p.t.Helper()
	r, err := http.NewRequestWithContext(p.t.Context(), http.MethodPost, p.base+"/do/"+what, strings.NewReader(values.Encode()))
	require.NoError(p.t, err)
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("X-Puffproof-Key", p.key)
	resp, err := http.DefaultClient.Do(r)
	require.NoError(p.t, err)
	defer resp.Body.Close()
	var out answered
	require.Equal(p.t, http.StatusOK, resp.StatusCode)
	require.NoError(p.t, json.NewDecoder(resp.Body).Decode(&out))
	require.False(p.t, out.Error != "" && out.Said != "", "done and not done: %+v", out)
	return out
}

// enter enters a value and expects it to be taken.
func (p *visitor) enter(key, value string) {
	p.t.Helper()
	require.Empty(p.t, p.do("edit", url.Values{"key": {key}, "value": {value}}).Error)
}

// page is the whole page as it is.
func (p *visitor) page() string {
	p.t.Helper()
	resp, err := http.Get(p.base + "/?key=" + p.key)
	require.NoError(p.t, err)
	defer resp.Body.Close()
	data, err := io.ReadAll(resp.Body)
	require.NoError(p.t, err)
	return string(data)
}

// until waits until the page says something.
func (p *visitor) until(words string) {
	p.t.Helper()
	require.Eventually(p.t, func() bool { return strings.Contains(p.page(), words) }, time.Minute, 100*time.Millisecond, words)
}

// status asks for a path in a way and gives the status.
func (p *visitor) status(method, path string, change func(*http.Request)) int {
	p.t.Helper()
	r, err := http.NewRequestWithContext(p.t.Context(), method, p.base+path, nil)
	require.NoError(p.t, err)
	if change != nil {
		change(r)
	}
	resp, err := http.DefaultTransport.RoundTrip(r)
	require.NoError(p.t, err)
	defer resp.Body.Close()
	return resp.StatusCode
}

// Nothing is answered without the key, by another name than that of the link (DNS rebinding), or to another page (OWASP, Cross-Site
// Request Forgery Prevention: origin and fetch metadata).
func TestOnlyTheLinkIsAnswered(t *testing.T) {
	name, p := lightly(t, least(t))
	with := "/?key=" + p.key
	assert.Equal(t, 200, p.status("GET", with, nil))
	for what, path := range map[string]string{"no key": "/", "a wrong one": "/?key=" + p.key[:len(p.key)-1], "empty": "/?key=",
		"events": "/events", "a style": "/style.css", "a script": "/page.js"} {
		assert.Equal(t, 403, p.status("GET", path, nil), what)
	}
	assert.Equal(t, 403, p.status("GET", with, func(r *http.Request) { r.Host = "launcher.example" }), "a foreign name")
	_, port, _ := strings.Cut(strings.TrimPrefix(p.base, "http://"), ":")
	assert.Equal(t, 403, p.status("GET", with, func(r *http.Request) { r.Host = "127.0.0.1" }), "without the port")
	assert.Equal(t, 403, p.status("GET", with, func(r *http.Request) { r.Host = "localhost.example:" + port }), "a name that ends elsewhere")
	post := func(change func(*http.Request)) int {
		return p.status("POST", "/do/undo", func(r *http.Request) {
			r.Header.Set("X-Puffproof-Key", p.key)
			change(r)
		})
	}
	assert.Equal(t, 200, post(func(*http.Request) {}))
	assert.Equal(t, 200, post(func(r *http.Request) { r.Header.Set("Origin", p.base) }))
	assert.Equal(t, 403, post(func(r *http.Request) { r.Header.Set("Origin", "http://launcher.example") }))
	assert.Equal(t, 403, post(func(r *http.Request) { r.Header.Set("Origin", "null") }))
	assert.Equal(t, 403, post(func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }))
	assert.Equal(t, 403, p.status("POST", "/do/undo?key="+p.key, nil), "a form elsewhere could name a key in its address only")
	assert.Equal(t, 404, p.status("GET", "/launcher.toml?key="+p.key, nil))
	assert.Equal(t, 404, p.status("GET", "/etc/passwd?key="+p.key, nil))
	assert.Equal(t, 404, p.status("GET", "/?design=2&key="+p.key, nil))
	assert.Equal(t, 200, p.status("HEAD", with, nil), "HEAD asks what GET does")
	assert.Equal(t, 403, p.status("HEAD", "/", nil))
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, least(t), data)
}

// RFC 9110, 15.5.6: a method that a path does not have is answered 405, with those that it has in Allow; from elsewhere all the same 403.
func TestMethodsThatThereAreNot(t *testing.T) {
	_, p := lightly(t, least(t))
	ask := func(method, path string, change func(*http.Request)) (int, string) {
		r, err := http.NewRequestWithContext(t.Context(), method, p.base+path, nil)
		require.NoError(t, err)
		if change != nil {
			change(r)
		}
		resp, err := http.DefaultTransport.RoundTrip(r)
		require.NoError(t, err)
		defer resp.Body.Close()
		return resp.StatusCode, resp.Header.Get("Allow")
	}
	for path, want := range map[string]string{"/": "GET, HEAD", "/events": "GET, HEAD", "/paper/card": "GET, HEAD", "/do/save": "POST",
		"/do/undo": "POST", "/open/x": "GET"} {
		for _, method := range []string{"DELETE", "PUT", "PATCH", "OPTIONS", "BREW"} {
			for _, key := range []string{"", "?key=" + p.key} {
				status, allow := ask(method, path+key, nil)
				assert.Equal(t, 405, status, "%s %s", method, path+key)
				assert.Equal(t, want, allow, "%s %s", method, path+key)
			}
		}
	}
	status, allow := ask("GET", "/do/save?key="+p.key, nil)
	assert.Equal(t, 405, status)
	assert.Equal(t, "POST", allow)
	status, _ = ask("DELETE", "/?key="+p.key, func(r *http.Request) { r.Host = "launcher.example" })
	assert.Equal(t, 403, status, "a foreign name")
	status, _ = ask("DELETE", "/?key="+p.key, func(r *http.Request) { r.Header.Set("Origin", "http://launcher.example") })
	assert.Equal(t, 403, status, "another page")
	status, _ = ask("DELETE", "/launcher.toml?key="+p.key, func(r *http.Request) { r.Header.Set("X-Puffproof-Key", p.key) })
	assert.Equal(t, 404, status, "no such path")
}

// The policy allows no script and no style within the text, and nothing from elsewhere (CSP Level 3).
func TestThePolicyIsStrict(t *testing.T) {
	_, p := lightly(t, least(t))
	resp, err := http.Get(p.base + "/?key=" + p.key)
	require.NoError(t, err)
	resp.Body.Close()
	csp := resp.Header.Get("Content-Security-Policy")
	assert.Contains(t, csp, "default-src 'none'")
	assert.NotContains(t, csp, "unsafe")
	assert.NotContains(t, csp, "*")
	assert.NotContains(t, csp, "data:")
	assert.Equal(t, "no-referrer", resp.Header.Get("Referrer-Policy"), "the key stands in the address")
	assert.Equal(t, "no-store", resp.Header.Get("Cache-Control"))
	assert.Empty(t, resp.Cookies(), "another program on this address would get them")
}

// A request larger than a file of readings is refused, and the program goes on.
func TestBodiesAreBounded(t *testing.T) {
	_, p := lightly(t, least(t))
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, p.base+"/do/text",
		strings.NewReader("text="+strings.Repeat("a", mostBody)))
	require.NoError(t, err)
	r.Header.Set("X-Puffproof-Key", p.key)
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	resp, err := http.DefaultClient.Do(r)
	require.NoError(t, err)
	resp.Body.Close()
	assert.Equal(t, 413, resp.StatusCode)
	assert.Contains(t, p.page(), "As the file says.")
}

// The link that a browser is started with opens once: who reads it off the list of processes comes too late.
func TestTheLinkForTheBrowserOpensOnce(t *testing.T) {
	name := filepath.Join(t.TempDir(), "launcher.toml")
	require.NoError(t, os.WriteFile(name, least(t), 0o644))
	ctx, stop := context.WithCancel(trial.Lightly(t.Context(), 0.00005))
	once, done := make(chan [2]string, 1), make(chan error, 1)
	go func() {
		done <- Serve(ctx, Options{Names: []string{name}, Today: func() string { return "2026-05-31" },
			Read:  func(_ context.Context, name string) ([]byte, error) { return os.ReadFile(name) },
			Ready: func(link, o, _ string) error { once <- [2]string{link, o}; return nil }})
	}()
	links := <-once
	p := visit(t, links[0])
	path := strings.TrimPrefix(links[1], p.base)
	assert.Equal(t, 403, p.status("GET", path, func(r *http.Request) { r.Host = "launcher.example" }))
	assert.Equal(t, 303, p.status("GET", path, nil))
	assert.Equal(t, 403, p.status("GET", path, nil))
	assert.Equal(t, 403, p.status("GET", "/open/", func(r *http.Request) {}), "not with an empty one either")
	stop()
	select {
	case err := <-done:
		require.NoError(t, err)
	case <-time.After(5 * time.Second):
		t.Fatal("it goes on though it was ended")
	}
}

// An address that everyone reaches is served with a warning; one that cannot be checked is refused.
func TestAddresses(t *testing.T) {
	for address, words := range map[string]string{"0.0.0.0": "name the one address", "[::]:80": "name the one address",
		"launcher.example": "in figures", "198.51.100.7": "cannot be served"} { // of a network for documentation (RFC 5737): no machine has it
		_, _, err := listen(t.Context(), address)
		assert.ErrorContains(t, err, words, address)
	}
	l, warning, err := listen(t.Context(), "")
	require.NoError(t, err)
	defer l.Close()
	assert.Empty(t, warning)
	assert.True(t, loopback(netip.MustParseAddrPort(l.Addr().String()).Addr()))
	assert.True(t, loopback(netip.MustParseAddr("::ffff:127.0.0.1")))
	assert.False(t, loopback(netip.MustParseAddr("192.168.1.20")))
}

// Names and texts in a design that look like markup or script are text on the page, wherever they stand, in a design that is
// judged and in one whose mistakes are shown.
func TestHostileNamesRunNothing(t *testing.T) {
	const evil = `</title></textarea><script>alert(1)</script><img src=x onerror=alert(1)>'"`
	text := strings.Replace(string(least(t)), "name = ", "name = '''"+evil+"'''\n#", 1)
	text = strings.ReplaceAll(text, `material = "steel"`, "material = '''"+evil+"'''")
	parts := strings.ReplaceAll(strings.ReplaceAll(text, "[volumes.dose]", `[volumes."<img onerror=a>"]`), `"dose"`, `"<img onerror=a>"`)
	require.Contains(t, text, "<img src")
	require.Contains(t, parts, "<img onerror")
	for ends, design := range map[string]string{"Judged": text, "Mistakes in the design": parts} {
		_, p := lightly(t, []byte(design))
		p.until(ends)
		page := p.page()
		assert.Equal(t, 1, strings.Count(page, "<script"), "that of the page itself")
		assert.NotContains(t, page, "<img")
		assert.Contains(t, page, "&lt;img")
		assert.Equal(t, 1, strings.Count(page, "</title>"))
		for _, html := range partsOf(p) {
			assert.NotContains(t, html, "<img")
			assert.NotContains(t, html, "<script")
			assert.LessOrEqual(t, strings.Count(html, "</textarea>"), strings.Count(html, "<textarea"))
		}
	}
}

// partsOf are the parts that come first over the events.
func partsOf(p *visitor) (html []string) {
	p.t.Helper()
	ctx, stop := context.WithCancel(p.t.Context())
	defer stop()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, p.base+"/events?key="+p.key, nil)
	require.NoError(p.t, err)
	resp, err := http.DefaultClient.Do(r)
	require.NoError(p.t, err)
	defer resp.Body.Close()
	lines := bufio.NewScanner(resp.Body)
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		data, is := strings.CutPrefix(lines.Text(), "data: ")
		if !is {
			continue
		}
		var parts []sent
		require.NoError(p.t, json.Unmarshal([]byte(data), &parts))
		for _, one := range parts {
			html = append(html, one.HTML)
		}
		return html
	}
	p.t.Fatal("no parts came")
	return nil
}

// The finding is that of the latest draft however fast edits follow one another; what was begun before is given up.
func TestNoOldAnswerOverANewerDraft(t *testing.T) {
	_, p := lightly(t, least(t))
	for i := range 12 {
		p.enter("name", fmt.Sprint("Draft ", i))
		p.enter("projectile.mass", fmt.Sprintf("%d g", 5+i%3))
		if i == 5 {
			p.until("Judged")
		}
	}
	p.until("Judged")
	page := p.page()
	assert.Contains(t, page, "Draft 11")
	assert.NotContains(t, page, "Draft 10")
	for range 3 {
		p.do("undo", nil)
	}
	p.until("Judged")
	assert.NotContains(t, p.page(), "Draft 11")
}
