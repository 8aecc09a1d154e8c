package main

import (
	"bytes"
	"context"
	"encoding/base64"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// differences lists what a stream's two texts differ in, as "path: old -> new".
func differences(was, now string) []string {
	w := &differ{command: "check", design: "d"}
	w.stream("", []byte(was), []byte(now))
	var out []string
	for _, d := range w.found {
		out = append(out, d.kind+" | "+d.String())
	}
	return out
}

func TestJSONIsComparedByPath(t *testing.T) {
	cases := map[string]struct {
		was, now string
		want     []string
	}{
		"a figure of a verdict": {`{"verdicts":[{"id":"a","value":1.0},{"id":"b","value":2}]}`,
			`{"verdicts":[{"id":"a","value":1.5},{"id":"b","value":2}]}`,
			[]string{"verdicts[a].value | check verdicts[a].value: 1.0 -> 1.5"}},
		"the last digit": {`{"x":0.10000000000000001}`, `{"x":0.1}`, []string{"x | check x: 0.10000000000000001 -> 0.1"}},
		"a key more and one less": {`{"x":{"y":1}}`, `{"x":{"z":1}}`,
			[]string{"x.y | check x.y: 1 -> (no such key)", "x.z | check x.z: (no such key) -> 1"}},
		"faults are told apart, but are of one kind": {`{"faults":[{"id":"f","s":1}]}`, `{"faults":[{"id":"f","s":2}]}`,
			[]string{"faults[].s | check faults[f].s: 1 -> 2"}},
		"another order": {`{"v":[{"id":"a"},{"id":"b"}]}`, `{"v":[{"id":"b"},{"id":"a"}]}`,
			[]string{"v[] (order) | check v[]: a b -> b a"}},
		"a member more":  {`{"v":[{"id":"a"}]}`, `{"v":[{"id":"a"},{"id":"b"}]}`, []string{`v[] | check v[b]: (none) -> {"id":"b"}`}},
		"a shorter list": {`{"v":[1,2]}`, `{"v":[3]}`, []string{"v[] (length) | check v[]: 2 -> 1", "v[] | check v[0]: 1 -> 3"}},
		"another type":   {`{"v":[1]}`, `{"v":null}`, []string{"v | check v: [1] -> null"}},
		"other layout":   {`{"v":1}`, "{\"v\": 1}\n", []string{"(layout) | check (layout): the same values -> written in another way"}},
		"the same":       {`{"v":1}`, `{"v":1}`, nil},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, differences(c.was, c.now)) })
	}
}

func TestTextIsComparedByLine(t *testing.T) {
	require.Equal(t, []string{"line energy # J | check line: energy 0.5 J -> energy 0.6 J"},
		differences("head\nenergy 0.5 J\ntail\n", "head\nenergy 0.6 J\ntail\n"))
	require.Equal(t, []string{"line + more | check line: (no line) -> more"}, differences("head\ntail\n", "head\nmore\ntail\n"))
	require.Equal(t, []string{"line <b>x | check line: <b>x -> <b>y"},
		differences("<html><p>q</p><b>x</b></html>", "<html><p>q</p><b>y</b></html>"))
	require.Equal(t, []string{"(bytes) | check (bytes): 2 bytes -> 3 bytes"}, differences("\xff1", "\xff12"))
}

func TestTheArchiveOfAPaperIsRead(t *testing.T) {
	paper := func(value int) []byte {
		inside := fmt.Sprintf(`{"a":%d,"version":"1.%d"}`, value, value)
		return fmt.Appendf(nil, "made by 1.%d\npuffproof-archive:%s\n", value, base64.StdEncoding.EncodeToString([]byte(inside)))
	}
	require.Contains(t, string(neutral(paper(3), "1.3", true)), "made by VERSION\n")
	require.Contains(t, string(neutral(paper(3), "1.3", true)), "\"a\": 3,\n \"version\": \"VERSION\"")
	require.Contains(t, string(neutral(paper(3), "1.3", false)), "\"version\": \"1.3\"")
}

func TestAllowedDifferences(t *testing.T) {
	file := filepath.Join(t.TempDir(), "allow")
	write := func(text string) { require.NoError(t, os.WriteFile(file, []byte(text), 0o644)) }
	d := difference{command: "check", design: "whale", path: "verdicts[dates.past].items[0].done",
		kind: "verdicts[dates.past].items[].done",
		old:  "true", new: "false"}
	for pattern, want := range map[string]bool{
		"verdicts[dates.past].items[0].done": true, "verdicts[dates.past].items[].done": true,
		"check verdicts[dates.past].items[].done": true,
		"vent verdicts[dates.past].items[].done":  false, "verdicts[dates.past]": false,
		`/^check verdicts\[dates\.past\].*true -> false$/`: true, `/^vent /`: false,
	} {
		write("# mended\n\n" + pattern + " :: a date to come is no confirmation\n")
		list, err := readAllowed(file)
		require.NoError(t, err)
		require.Len(t, list, 1)
		require.Equal(t, want, list[0].covers(d), pattern)
	}
	for _, text := range []string{"verdicts[a].value\n", "verdicts[a].value :: \n", "/(/ :: unclosed\n"} {
		write(text)
		_, err := readAllowed(file)
		require.ErrorContains(t, err, file+":1: ")
	}
}

func TestShotsAndLogsAreMadeOfTheOldAnswers(t *testing.T) {
	shots, ok := shotsOf([]byte(`{"start":{"gauge_Pa":{"tank":36000,"dose":20000}},"shot":{"muzzle_speed_m_s":10}}`),
		[]byte("[a]\nmass = \"1 g\"\n\n[projectile]\n# its\nlot = \"7\"\nmass = \"4.0 g ± 10 %\"\n"))
	require.True(t, ok)
	require.Contains(t, string(shots), ",temperature [degC],projectile_mass [g]\n")
	require.Contains(t, string(shots), "\n0.3600,9.700,0.30,B,18,4.0\n")
	_, ok = shotsOf([]byte(`{"start":{"gauge_Pa":{"tank":36000}},"shot":{"muzzle_speed_m_s":null}}`), nil)
	require.False(t, ok, "a projectile that does not leave has no speed")

	const head = "volume,scenario,time [s],lowest [Pa gauge],expected [Pa gauge],highest [Pa gauge],read [Pa]\n"
	sheet := head + "tank,power lost,0,1,100,3,\ndose,power lost,0,1,200,3,\ntank,\"leak-down, armed\",0,1,300,3,\n"
	log, ok := logOf([]byte(sheet), false, 1)
	require.True(t, ok)
	require.Equal(t, head+"tank,power lost,0,1,100,3,100\n", string(log))
	log, ok = logOf([]byte(sheet), true, 1.25)
	require.True(t, ok)
	require.Equal(t, head+"tank,\"leak-down, armed\",0,1,300,3,375\n", string(log))
	_, ok = logOf([]byte(head), false, 1)
	require.False(t, ok, "nothing is expected of a launcher that does not empty")
}

// fake writes a program whose check gives a verdict of that value, and which notes each
// of its runs in a file.
func fake(t *testing.T, value string) (program, runs string) {
	dir := t.TempDir()
	program, runs = filepath.Join(dir, "program"), filepath.Join(dir, "runs")
	script := "#!/bin/sh\nif [ \"$1\" = --version ]; then echo puffproof 1; exit; fi\necho \"$@\" >>" + runs +
		"\necho '{\"verdicts\":[{\"id\":\"energy.total\",\"value\":" + value + "}]}'\n"
	require.NoError(t, os.WriteFile(program, []byte(script), 0o755))
	return program, runs
}

func TestTwoProgramsAreCompared(t *testing.T) {
	old, oldRuns := fake(t, "1")
	now, nowRuns := fake(t, "2")
	allow := filepath.Join(t.TempDir(), "allow")
	require.NoError(t, os.WriteFile(allow, []byte("verdicts[energy.total].value :: mended\nnever :: gone\n"), 0o644))
	common := []string{"-files=false", "-designs", "3", "-commands", "check", "-cache", t.TempDir(), "-old", old}
	call := func(more ...string) (int, string) {
		var out, faults bytes.Buffer
		status := run(context.Background(), append(common, more...), &out, &faults)
		require.Empty(t, faults.String())
		return status, out.String()
	}

	status, out := call("-new", old)
	require.Equal(t, 0, status, out)
	status, out = call("-new", now)
	require.Equal(t, 1, status, out)
	require.Regexp(t, `(?m)^check +3 +0 +3 +0 +0 `, out)
	require.Contains(t, out, "3 x check verdicts[energy.total].value, 3 designs\n"+
		"    random-0: verdicts[energy.total].value\n    - 1\n    + 2\n")
	status, out = call("-new", now, "-allow", allow)
	require.Equal(t, 0, status, out)
	require.Regexp(t, `(?m)^check +3 +0 +0 +3 +0 `, out)
	require.Contains(t, out, "expected: mended")
	require.Contains(t, out, "Never met: never (gone)")
	status, out = call("-new", now, "-only", "random-[02]", "-reuse")
	require.Equal(t, 1, status, out)

	count := func(name string) int {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		return strings.Count(string(data), "\n")
	}
	require.Equal(t, 6, count(oldRuns), "each design once as the old program, kept, and once as the new one")
	require.Equal(t, 6, count(nowRuns), "each design afresh, twice; none with -reuse")
}

// A kept answer of another day may be out of date: the old program is asked again before
// a difference counts. One that cannot be run is an error, not a difference.
func TestAnswersOfAnotherDay(t *testing.T) {
	program, _ := fake(t, "1")
	was, err := openProgram(context.Background(), program)
	require.NoError(t, err)
	r := &runner{cache: t.TempDir(), timeout: time.Minute, slots: make(chan struct{}, 1), day: "2026-01-01"}
	check := stepNamed("check")
	d := design{name: "d", text: []byte("x")}
	scene := func() *scene {
		now := was
		now.fresh = true
		return &scene{ctx: context.Background(), runner: r, design: d, was: was, now: now, memo: map[string]outcome{}}
	}
	key := r.key(was, []string{"check", "--json", designFile}, map[string][]byte{designFile: d.text})
	require.NoError(t, r.keep(key, outcome{Stdout: []byte("{}"), Day: "2025-12-31"}))
	require.Empty(t, scene().compare(check).differences, "of another day")
	require.NoError(t, r.keep(key, outcome{Stdout: []byte("{}"), Day: "2026-01-01"}))
	require.NotEmpty(t, scene().compare(check).differences, "of the same day")

	r.cache = filepath.Join(program, "no-folder")
	s := scene()
	require.Nil(t, s.compare(check))
	require.Error(t, s.err)
}

// A hung program is no difference where the old one hung, and one where only the new one
// does.
func TestTimeouts(t *testing.T) {
	quick, _ := fake(t, "1")
	hung := filepath.Join(t.TempDir(), "hung")
	require.NoError(t, os.WriteFile(hung, []byte("#!/bin/sh\n[ \"$1\" = --version ] || while :; do :; done\n"), 0o755))
	call := func(old, now string) (int, string) {
		var out, faults bytes.Buffer
		args := []string{"-files=false", "-designs", "1", "-commands", "check", "-cache", t.TempDir(), "-timeout", "1s",
			"-old", old, "-new", now}
		status := run(context.Background(), args, &out, &faults)
		return status, out.String() + faults.String()
	}
	status, out := call(hung, hung)
	require.Equal(t, 0, status, out)
	require.Regexp(t, `(?m)^check +1 +0 +0 +0 +1 `, out)
	status, out = call(quick, hung)
	require.Equal(t, 1, status, out)
	require.Contains(t, out, "(out of time)")
}

func TestDesignsOfTheRepository(t *testing.T) {
	designs, err := config{root: "../..", designs: 2, seed: 7, repoFiles: true}.gather()
	require.NoError(t, err)
	names := map[string]string{}
	for _, d := range designs {
		names[d.name] = string(d.text)
	}
	require.Len(t, names, len(designs), "names are told apart")
	for _, name := range []string{general, "whale", "broken-bare-number", "setpoint-pond", "random-7", "random-8"} {
		require.Contains(t, names, name)
	}
	require.Contains(t, names["setpoint-bench"], "[barrel]", "a part stands behind its script's design")
	require.Contains(t, names["setpoint-bench"], "[bench]")
	_, err = config{root: "../..", only: "no-such", repoFiles: true}.gather()
	require.ErrorContains(t, err, "no-such")
}
