package design

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Read reads a design file in metric words.
func Read(name string, data []byte) (*launcher.Launcher, []Problem) { return Reader{}.Read(name, data) }

// read reads a design that must have no problems.
func read(t *testing.T, data []byte) *launcher.Launcher {
	t.Helper()
	l, problems := Read("test.toml", data)
	require.Empty(t, problems, list(problems))
	require.NotNil(t, l)
	return l
}

func demo(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(testdata, "designs", name))
	require.NoError(t, err)
	return data
}

func TestDemosRead(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(testdata, "designs", "*.toml"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 4)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		read(t, data)
		require.Contains(t, strings.ToLower(string(data)), "invented data", file)
	}
}

// Expected values are the file's own figures, converted by hand.
func TestWhaleFillsTheLauncher(t *testing.T) {
	l := read(t, demo(t, "whale.toml"))
	require.Equal(t, "Whale float blowhole", l.Name)
	require.Equal(t, "air", l.Gas)
	require.Len(t, l.Volumes, 2)
	require.InEpsilon(t, 1.0e-3, l.Volumes[1].Volume.Nominal, 1e-12)
	require.InEpsilon(t, 0.97e-3, l.Volumes[1].Volume.Low, 1e-12)
	require.Equal(t, launcher.Measured, l.Volumes[1].Volume.Origin)
	require.Equal(t, "volumes.dose.volume", l.Volumes[1].Volume.Key)
	require.Equal(t, 24, l.Volumes[1].Volume.Line)
	require.Len(t, l.Paths, 6)
	fire := l.Paths[1]
	require.Equal(t, pneumatics.Valve, fire.Kind)
	require.Equal(t, launcher.FlowCv, fire.Flow.Form)
	require.Equal(t, "paths.fire.Cv", fire.Flow.Value.Key)
	require.Equal(t, pneumatics.SetOf(pneumatics.Firing), fire.OpenIn)
	require.Equal(t, pneumatics.Closed, fire.Unpowered)
	dump := l.Paths[3]
	require.Equal(t, pneumatics.SetOf(pneumatics.Off, pneumatics.Loading), dump.OpenIn)
	require.Equal(t, pneumatics.Open, dump.Unpowered)
	require.Equal(t, "away", dump.Points)
	require.InDelta(t, 0.016e5, l.Switch.GaugeError.High, 1e-9, "class 1.0 of 1.6 bar")
	require.InDelta(t, -0.016e5, l.Switch.GaugeError.Low, 1e-9)
	require.Equal(t, 1.0, l.Gauges[0].Class)
	require.InEpsilon(t, 273.15+40, l.Ambient.Hottest.Nominal, 1e-12)
	require.InEpsilon(t, 4*365.25*86400, l.Event.Youngest.Nominal, 1e-12)
	require.Equal(t, launcher.No, l.Projectile.Cup)
}

func TestRocketFillsTheLauncher(t *testing.T) {
	l := read(t, demo(t, "rocket.toml"))
	require.Equal(t, pneumatics.OverTube, l.Barrel.Fit)
	require.InEpsilon(t, 0.035, l.Barrel.Engagement.Nominal, 1e-12)
	require.False(t, l.Barrel.Travel.Set)
	require.Nil(t, l.Switch)
	require.InEpsilon(t, 0.65, l.Paths[1].Flow.DischargeCoefficient.Nominal, 1e-12)
	require.InEpsilon(t, 0.55, l.Paths[1].Flow.DischargeCoefficient.Low, 1e-12)
	require.InEpsilon(t, 0.90, l.Paths[1].Flow.DischargeCoefficient.High, 1e-12)
}

// minimal is the shortest design: what is left out is assumed or unknown.
const minimal = `name = "Minimal"
volumes.dose = { volume = "1 L" }
paths.fire = { from = "dose", to = "barrel", kind = "valve", seat_bore = "8 mm", open_in = ["firing"], unpowered = "closed" }
barrel = { fit = "in bore", bore = "40 mm", travel = "100 mm", dead_volume = "40 mL" }
projectile = { mass = "5 g", diameter = "40 mm" }
`

// The bands that are assumed where a design states nothing (common practice or from
// memory, each with its reason).
func TestDefaults(t *testing.T) {
	l := read(t, []byte(minimal+`
[paths.jet]
from = "dose"
to = "atmosphere"
kind = "orifice"
orifice = "1 mm"

[paths.slow]
from = "dose"
to = "atmosphere"
kind = "valve"
drive = "piloted"
nominal_flow = "1000 L/min"
open_in = []
unpowered = "open"

[paths.hand]
from = "dose"
to = "atmosphere"
kind = "hand valve"
Kv = 1.5
open_in = ["off"]

[paths.relief]
from = "dose"
to = "atmosphere"
kind = "relief"
orifice = "5 mm"
set_pressure = "0.5 bar"

[paths.line]
from = "atmosphere"
to = "dose"
kind = "hose"
hose = { bore = "6 mm", length = "1 m" }
`))
	check := func(name string, b launcher.Band, nominal, low, high float64) {
		t.Helper()
		require.True(t, b.Set, name)
		require.True(t, b.Assumed, name)
		require.NotEmpty(t, b.Reason.String(), name)
		require.InDeltaSlice(t, []float64{nominal, low, high}, []float64{b.Nominal, b.Low, b.High}, 1e-9*max(1, nominal), name)
	}
	path := func(name string) launcher.PathSpec {
		return l.Paths[slices.IndexFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Name == name })]
	}
	fire, jet, slow, hand, relief, line := path("fire"), path("jet"), path("slow"), path("hand"), path("relief"), path("line")
	check("ambient pressure ± 40 hPa", l.Ambient.Pressure, 101325, 97325, 105325)
	check("hottest 50 °C", l.Ambient.Hottest, 323.15, 323.15, 323.15)
	check("coldest -5 °C", l.Ambient.Coldest, 268.15, 268.15, 268.15)
	check("seat Cd", fire.Flow.DischargeCoefficient, 0.5, 0.25, 1)
	check("drilled hole Cd", jet.Flow.DischargeCoefficient, 0.75, 0.60, 0.90)
	check("relief Cd", relief.Flow.DischargeCoefficient, 0.62, 0.50, 0.75)
	check("nominal flow b", slow.Flow.CriticalRatio, 0.3, 0.2, 0.528)
	check("Kv b", hand.Flow.CriticalRatio, 0.35, 0.2, 0.5)
	check("Kv xT", hand.Flow.PressureDropRatio, 0.7, 0.5, 0.8)
	check("Kv itself", hand.Flow.Value, 1.5, 1.2, 1.8)
	check("piloted opening", slow.OpeningTime, 0.075, 0, 0.15)
	check("piloted closing", slow.ClosingTime, 0.075, 0, 0.15)
	check("piloted differential", slow.MinDifferential, 5e4, 5e4, 5e4)
	check("hand opening", hand.OpeningTime, 0.15, 0, 0.30)
	check("unsaid drive opens like piloted", fire.OpeningTime, 0.075, 0, 0.15)
	check("set ± 15 %, at least 0.1 bar", relief.SetPressure, 5e4, 4e4, 6e4)
	check("full flow", relief.FullFlowPressure, 6e4, 5e4, 1e5)
	check("reseat 0.85 set", relief.ReseatPressure, 4.25e4, 3.4e4, 5.1e4)
	check("hose conductance", line.Hose.Conductance, 1, 0.9, 1.1)
	require.Equal(t, launcher.HoseBefore, line.Hose.Side)
	require.Equal(t, pneumatics.Stays, hand.Unpowered)
	require.False(t, l.Projectile.ContactDiameter.Set, "no print, no verdict")
	require.False(t, l.Projectile.Breakaway.Set)
	require.False(t, l.Projectile.Sliding.Set)
	require.False(t, l.Projectile.Resilient, "rigid unless said")
	require.Equal(t, launcher.Unanswered, l.Volumes[0].RatedForGas)
	check("standing still", l.Mount.MovingAt, 0, 0, 0)
}

func TestSlidingIsZeroToBreakaway(t *testing.T) {
	l := read(t, []byte(strings.Replace(minimal, `mass = "5 g"`, `mass = "5 g", breakaway_force = "0.5 N"`, 1)))
	b, s := l.Projectile.Breakaway, l.Projectile.Sliding
	require.InDeltaSlice(t, []float64{0.5, 0, 1.5}, []float64{b.Nominal, b.Low, b.High}, 1e-12)
	require.Contains(t, b.Reason.String(), "-100/+200 %")
	require.InDeltaSlice(t, []float64{0.25, 0, 1.5}, []float64{s.Nominal, s.Low, s.High}, 1e-12)
}

func TestDischargeCoefficientStated(t *testing.T) {
	cases := map[string]struct {
		text, kind         string
		nominal, low, high float64
	}{
		"bare":          {`0.65`, "orifice", 0.65, 0.55, 0.90},
		"with a band":   {`"0.65 ± 0.02"`, "orifice", 0.65, 0.63, 0.67},
		"measured":      {`"0.84, measured"`, "orifice", 0.84, 0.74, 0.94},
		"near one":      {`"0.97, datasheet"`, "orifice", 0.97, 0.60, 1},
		"claimed exact": {`"0.65 ± 0"`, "orifice", 0.65, 0.65, 0.65},
	}
	for name, c := range cases {
		l := read(t, []byte(minimal+"[paths.jet]\nfrom = \"dose\"\nto = \"atmosphere\"\nkind = \""+c.kind+"\"\norifice = \"1 "+
			"mm\"\ndischarge_coefficient = "+c.text+"\n"))
		cd := l.Paths[1].Flow.DischargeCoefficient
		require.InDeltaSlice(t, []float64{c.nominal, c.low, c.high}, []float64{cd.Nominal, cd.Low, cd.High}, 1e-12, name)
	}
}

// An absolute reading becomes a gauge value at the design's ambient pressure,
// and what that may differ by widens it.
func TestAbsoluteBecomesGauge(t *testing.T) {
	l := read(t, []byte(`ambient = { pressure = "1000 hPa abs ± 20 hPa" }
`+minimal+`pressure_switch = { senses = "dose", cut_out = "1.45 bara ± 0.05 bar", cut_in = "0.3 bar ± 0.05 bar" }
`))
	c := l.Switch.CutOut
	require.InDeltaSlice(t, []float64{45000, 38000, 52000}, []float64{c.Nominal, c.Low, c.High}, 1e-6)
}

func TestChecklistNames(t *testing.T) {
	l := read(t, []byte(minimal+`
[checklist."confirm.shots"]
who = "A. and B."
date = 2026-05-01
[checklist.relief.test]
who = "A."
date = "2026-05-02"
value = "0.74 bar"
`))
	require.Equal(t, []finding.Confirmation{
		{Item: "confirm.shots", Who: "A. and B.", Date: "2026-05-01"},
		{Item: "relief.test", Who: "A.", Date: "2026-05-02", Value: "0.74 bar", Beside: []string{""}, Figures: []finding.Figure{{Value: 0.74e5,
			Unit: finding.InPascalGauge}}}}, l.Checklist)
}

func TestTablesAndInlineTablesAreTheSame(t *testing.T) {
	headers := `name = "Minimal"
[volumes]
[volumes.dose]
volume = "1 L"
[paths.fire]
from = "dose"
to = "barrel"
kind = "valve"
seat_bore = "8 mm"
open_in = ["firing"]
unpowered = "closed"
[barrel]
fit = "in bore"
bore = "40 mm"
travel = "100 mm"
dead_volume = "40 mL"
[projectile]
mass = "5 g"
diameter = "40 mm"
`
	sameLauncher(t, read(t, []byte(minimal)), read(t, []byte(headers)))
	sameLauncher(t, read(t, []byte(minimal)), read(t, []byte(strings.ReplaceAll(headers, "\n", "\r\n"))))
	sameLauncher(t, read(t, []byte(minimal)), read(t, []byte("\xef\xbb\xbf"+headers)))
}

// What a design file may have at most: bytes, and problems that are listed.
const (
	mostBytes    = 1 << 20
	mostProblems = 200
)

func TestUnreadableFiles(t *testing.T) {
	cases := map[string]struct {
		data  []byte
		words string
	}{
		"empty":           {nil, "the file is empty"},
		"blank":           {[]byte(" \n\t\r\n"), "puffproof init"},
		"byte order mark": {[]byte("\xef\xbb\xbf"), "the file is empty"},
		"UTF-16":          {[]byte("\xff\xfen\x00a\x00"), `encoding "UTF-8"`},
		"binary":          {[]byte("\x7fELF\x00\x01\xff"), "1:7: byte 0xff"},
		"too large":       {bytes.Repeat([]byte("#"), mostBytes+1), "at most 1048576"},
		"deep lists":      {[]byte("a = " + strings.Repeat("[", 100000)), "TOML"},
		"deep tables":     {[]byte("a = " + strings.Repeat("{a=", 100000)), "TOML"},
		"deep names":      {[]byte(strings.Repeat("a.", 100000) + "a = 1"), "more than 8 parts"},
		"one megabyte":    {[]byte("name = \"" + strings.Repeat("x", mostBytes-20) + "\""), "too long"},
		"many unknown":    {bytes.Repeat([]byte("[[q]]\n"), 100000), "unknown table"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			l, problems := Read("x.toml", c.data)
			require.Nil(t, l)
			require.NotEmpty(t, problems)
			require.Contains(t, list(problems), c.words)
			require.LessOrEqual(t, len(problems), mostProblems+1)
			for _, p := range problems {
				require.Less(t, len(p.String()), 1000)
			}
		})
	}
}

func TestManyFaultsAreBounded(t *testing.T) {
	var b strings.Builder
	b.WriteString(minimal)
	for range 5000 {
		b.WriteString("[[objects]]\nq = 1\n")
	}
	_, problems := Read("x.toml", []byte(b.String()))
	require.Len(t, problems, mostProblems+1)
	require.Contains(t, problems[mostProblems].Message, "more problems follow")
}

func TestProblemString(t *testing.T) {
	p := Problem{File: "a\x1b[31m.toml", Line: 3, Column: 8, Key: "projectile.mass", Message: "has an unknown unit", Found: "q\x1b",
		Want: "g, kg", Hint: "write g"}
	require.Equal(t, "a?[31m.toml:3:8: projectile.mass: has an unknown unit: \"q\\x1b\"\n    accepted: g, kg\n    write g", p.String())
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(minimal))
	f.Add(manual.Template(quantity.Metric))
	for _, dir := range []string{"designs", "broken"} {
		files, err := filepath.Glob(filepath.Join(testdata, dir, "*.toml"))
		require.NoError(f, err)
		for _, file := range files {
			data, err := os.ReadFile(file)
			require.NoError(f, err)
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		l, problems := Read("fuzz.toml", data)
		require.Equal(t, l == nil, len(problems) > 0)
		for _, p := range problems {
			require.Positive(t, p.Line)
			require.Positive(t, p.Column)
			require.NotEmpty(t, p.Message)
			require.NotEmpty(t, p.String())
		}
		if l != nil {
			soundBands(t, l)
		}
	})
}

// A soft ball wider than its bore is squeezed in and leaves no gap; a rigid one, or one
// far wider, is a slip.
func TestSqueezedBall(t *testing.T) {
	l := read(t, bytes.Replace(demo(t, "whale.toml"), []byte(`diameter = "41.0 mm ± 0.5 mm, measured"`),
		[]byte(`diameter = "50 mm ± 1 mm, measured"`), 1))
	require.True(t, l.Squeezed())
	require.Zero(t, l.BarrelAt().LeakArea)
	require.InEpsilon(t, launcher.Circle(0.041), l.BarrelAt().Area, 1e-12, "the gas acts on the bore")
}

// An answer to an item that no design has closes nothing: it is a slip, and said so.
func TestAnItemThatNoDesignHas(t *testing.T) {
	for id, hint := range map[string]string{"confirm.shot": `did you mean "confirm.shots"?`, "jam": `did you mean "drill.jam"?`,
		"date-ahead.projectile.made_on": "projectile.made_on, has to be put right", "paint.colour": "belongs in the value of the item"} {
		_, problems := Read("test.toml", []byte(minimal+"\n[checklist.\""+id+"\"]\nwho = \"A.\"\ndate = 2026-05-01\n"))
		require.Len(t, problems, 1, id)
		require.Equal(t, "no design has an item of this id", problems[0].Message)
		require.Contains(t, problems[0].Hint, hint)
	}
}
