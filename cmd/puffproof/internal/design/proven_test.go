package design

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/limits"
	"puffproof/limits/advise"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/remedy"
	"puffproof/limits/vent"
)

// spoiling is a change that breaks a demo on purpose.
type spoiling struct{ name, demo, key, value string }

// spoiled are quick to judge; thoroughly needs every single fault run again for each piece of
// advice, some seconds for all.
var spoiled = []spoiling{
	{"a coarse gauge", "whale", "gauge.range", `"10 bar"`},
	{"drain pipe", "whale", "barrel.material", `"PVC drain pipe"`},
	{"a vent too narrow", "rocket", "venting.within", `"1 s"`},
}

var thoroughly = []spoiling{
	{"the tank on the barrel", "whale", "paths.fire.from", `"tank"`},
	{"no vent while loading", "whale", "paths.dump_dose.open_in", `["off"]`},
	{"filled too high", "whale", "pressure_switch.cut_out", `"0.9 bar ± 0.05 bar"`},
	{"a firing valve that opens without current", "whale", "paths.fire.unpowered", `"open"`},
	{"as it is", "soapbox", "", ""},
}

// Every change of a key that is advised, over the demos and over designs broken on purpose, can
// be read and does what its words say; nothing that has no effect is advised.
func TestEveryAdviceIsProven(t *testing.T) {
	ctx := lightly(t.Context(), 0.005)
	demo := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join("../../../../testdata/designs", name+".toml"))
		require.NoError(t, err)
		return data
	}
	const day = "2026-11-28"
	said, list := 0, spoiled
	if os.Getenv("PUFFPROOF_LONG") != "" {
		list = append(list, thoroughly...)
	}
	for _, s := range list {
		d, problems := Reader{}.Open(s.demo, demo(s.demo))
		require.Empty(t, problems)
		if s.key != "" {
			d = spoil(t, d, s.key, s.value)
		}
		report, err := limits.Check(ctx, d.Launcher(), assessment.Options{Day: day, Sheets: vent.SlowEndOnly})
		require.NoError(t, err)
		failing := slices.DeleteFunc(report.Verdicts, func(v finding.Verdict) bool { return v.Status != finding.Fail })
		assert.Equal(t, s.key != "", len(failing) > 0, "%s", s.name)
		proofs, err := remedy.Prove(ctx, d, nil, day, failing)
		require.NoError(t, err)
		remedy.Proven(failing, proofs)
		for _, v := range failing { // what only helps never stands before what mends
			if helps := strings.Index(v.Advice.String(), "comes nearer but"); helps >= 0 {
				assert.NotContains(t, v.Advice.String()[helps:], "it then holds", "%s: %s", s.name, v.ID)
			}
		}
		for _, p := range proofs {
			assert.Empty(t, p.Refused, "%s: %s is advised and refused", s.name, p.Say())
			for _, v := range failing {
				if v.ID == p.Verdict {
					assert.Equal(t, p.Helps(), strings.Contains(v.Advice.String(), p.Say().String()), "%s: %s", s.name, p.Say())
				}
			}
			if p.Helps() {
				said++
				assert.Equal(t, written(t, d, p.Changes), typed(t, d, p.Say().String()), "%s: %s", s.name, p.Say())
			}
		}
	}
	assert.GreaterOrEqual(t, said, 5)
}

// typed is a design with every line that a piece of advice has, typed as it is shown: of a part of many keys those
// that are told.
func typed(t *testing.T, d *Editable, said string) string {
	t.Helper()
	f, err := edit.Open(d.data)
	require.NoError(t, err)
	lines := regexp.MustCompile(`([a-z_0-9]+(?:\.[a-z_0-9]+)+) = ("[^"]*"|\[[^\]]*\]|[^ ,]+)`).FindAllStringSubmatch(said, -1)
	require.NotEmpty(t, lines, said)
	for _, line := range lines {
		require.NoError(t, f.Set(line[1], line[2]), "%s", line[0])
	}
	return string(f.Bytes())
}

// written is a design with changes, of a part of many keys with those alone that are told.
func written(t *testing.T, d *Editable, list []advise.Change) string {
	t.Helper()
	f, err := edit.Open(d.data)
	require.NoError(t, err)
	for _, c := range list {
		if p := (&remedy.Proof{Remedy: advise.Remedy{Changes: list}}); strings.Contains(p.Say().String(), c.Key+" = ") {
			require.NoError(t, f.Set(c.Key, c.To.Line()))
		}
	}
	return string(f.Bytes())
}

// spoil changes one key, as TOML.
func spoil(t *testing.T, d *Editable, key, value string) *Editable {
	t.Helper()
	f, err := edit.Open(d.data)
	require.NoError(t, err)
	require.NoError(t, f.Set(key, value))
	out, problems := Reader{}.Open(d.name, f.Bytes())
	require.Empty(t, problems, key)
	return out
}
