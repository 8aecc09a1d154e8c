package design

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
)

// sameLauncher holds two launchers to each other: figures to 1e-12 relative (a
// handful of double roundings), or 1e-12 of a nominal value where a low end is
// zero.
func sameLauncher(t require.TestingT, a, b *launcher.Launcher) {
	near := cmp.FilterValues(func(x, y float64) bool { return true },
		cmp.Comparer(func(x, y float64) bool { return math.Abs(x-y) <= 1e-12*math.Max(math.Abs(x), math.Abs(y)) }))
	band := cmp.Comparer(func(x, y launcher.Band) bool {
		size := 1e-12 * math.Max(math.Abs(x.Nominal), math.Max(math.Abs(x.Low), math.Abs(x.High)))
		return x.Set == y.Set && x.Key == y.Key && x.Origin == y.Origin && x.Assumed == y.Assumed && x.Reason.String() == y.Reason.String() &&
			math.Abs(x.Nominal-y.Nominal) <= size && math.Abs(x.Low-y.Low) <= size && math.Abs(x.High-y.High) <= size
	})
	moved := cmpopts.IgnoreUnexported(launcher.Launcher{}, launcher.SupplySpec{}) // of a computation under way
	require.Empty(t, cmp.Diff(a, b, near, band, moved))
}

// soundBands holds every band of a launcher to Low <= Nominal <= High, finite,
// with its key, and with a reason where it is assumed.
func soundBands(t require.TestingT, l *launcher.Launcher) {
	eachBand(reflect.ValueOf(*l), func(b launcher.Band) {
		if !b.Set {
			return
		}
		for _, v := range []float64{b.Nominal, b.Low, b.High} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), b.Key)
		}
		require.LessOrEqual(t, b.Low, b.Nominal, b.Key)
		require.LessOrEqual(t, b.Nominal, b.High, b.Key)
		require.NotEmpty(t, b.Key)
		require.Equal(t, b.Assumed, len(b.Reason) != 0, b.Key)
		require.True(t, manual.LookUp(b.Key) != nil || conductanceOnly(b.Key), b.Key)
	})
}

// conductanceOnly excuses the one band that no key states: the hose formula's own
// uncertainty.
func conductanceOnly(key string) bool { return strings.HasSuffix(key, ".hose.conductance") }

func eachBand(v reflect.Value, do func(launcher.Band)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			eachBand(v.Elem(), do)
		}
	case reflect.Slice:
		for i := range v.Len() {
			eachBand(v.Index(i), do)
		}
	case reflect.Struct:
		if b, ok := v.Interface().(launcher.Band); ok {
			do(b)
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() { // the others are of a computation under way
				eachBand(v.Field(i), do)
			}
		}
	}
}

func TestDemoBandsAreSound(t *testing.T) {
	for _, name := range []string{"whale.toml", "rocket.toml", "soapbox.toml", "careless.toml"} {
		soundBands(t, read(t, demo(t, name)))
	}
}

// writer writes SI values in units drawn for each quantity.
type writer struct {
	draw func(units []unit.Unit) unit.Unit
}

func (w writer) q(si, tolerance float64, d unit.Dimension) string {
	u := w.draw(unitsOf(d))
	full := func(v float64) string { return strings.ReplaceAll(fullNumber(v), "+", "") }
	return fmt.Sprintf("%q", full(u.FromSI(si))+" "+u.Name+" +/- "+full(tolerance/u.Factor)+" "+u.Name)
}

// fullNumber writes all 17 digits that a double can carry.
func fullNumber(v float64) string { return strconv.FormatFloat(v, 'g', 17, 64) }

// unitsOf lists the ways to write a dimension. Absolute pressures are left out:
// they widen by the ambient pressure.
func unitsOf(d unit.Dimension) []unit.Unit {
	names := map[unit.Dimension]string{
		unit.Pressure: "bar;mbar;hPa;kPa;MPa;Pa;psi;atm;kgf/cm2;mmHg;inHg;cmH2O;bar gauge;psig",
		unit.Volume:   "L;mL;m3;cm3;in3;ft3;US gal", unit.Length: "mm;cm;m;in;ft", unit.Mass: "g;kg;oz;lb", unit.Time: "ms;s;min",
		unit.Temperature: "degC;degF;K", unit.Speed: "m/s;ft/s;km/h;mph", unit.Angle: "deg", unit.VolumeFlow: "L/min;L/s;m3/h;cfm",
		unit.Conductance: "L/(s bar);m3/(s Pa)", unit.Force: "N;lbf", unit.Age: "years;months",
	}
	var list []unit.Unit
	for _, n := range strings.Split(names[d], ";") {
		u, ok := unit.Lookup(n)
		if !ok {
			panic("no unit " + n)
		}
		list = append(list, u)
	}
	return list
}

// inUnits writes one launcher in the writer's units.
func inUnits(w writer) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("name = \"The same\"\n[ambient]\ntemperature = %s\nhottest = %s", w.q(291.15, 10, unit.Temperature), w.q(318.15, 0, unit.Temperature))
	line("[volumes.dose]\nvolume = %s\nrated_pressure = %s", w.q(1e-3, 3e-5, unit.Volume), w.q(1e6, 0, unit.Pressure))
	line("[paths.fire]\nfrom = \"dose\"\nto = \"barrel\"\nkind = \"valve\"\nsonic_conductance = %s\nopen_in = [\"firing\"]\nunpowered = "+
		"\"closed\"", w.q(8e-8, 8e-9, unit.Conductance))
	line("opening_time = %s\nhose = { bore = %s, length = %s }", w.q(0.03, 0.03, unit.Time), w.q(6e-3, 2e-4, unit.Length), w.q(0.4, 0.02,
		unit.Length))
	line("[paths.relief]\nfrom = \"dose\"\nto = \"atmosphere\"\nkind = \"relief\"\nnominal_flow = %s\nset_pressure = %s", w.q(0.02, 0.002,
		unit.VolumeFlow), w.q(7.5e4, 1e4, unit.Pressure))
	line("[supply]\nkind = \"compressor\"\nfeeds = \"dose\"\nfree_air = %s\ndead_head = %s", w.q(2e-4, 3e-5, unit.VolumeFlow), w.q(4e5, 1e5,
		unit.Pressure))
	line("[pressure_switch]\nsenses = \"dose\"\ncut_out = %s\ncut_in = %s", w.q(4.5e4, 5e3, unit.Pressure), w.q(3e4, 5e3, unit.Pressure))
	line("[barrel]\nfit = \"in bore\"\nbore = %s\ntravel = %s\ndead_volume = %s", w.q(0.041, 2e-4, unit.Length), w.q(0.15, 5e-3,
		unit.Length), w.q(4e-5, 5e-6, unit.Volume))
	line("[projectile]\nmass = %s\ndiameter = %s\nbreakaway_force = %s", w.q(4e-3, 4e-4, unit.Mass), w.q(0.041, 5e-4, unit.Length), w.q(0.5,
		0.5, unit.Force))
	line("[event]\nyoungest = %s\nelevation = %s\nvehicle_speed = %s", w.q(1.2e8, 0, unit.Age), w.q(1.4, 0.05, unit.Angle), w.q(2, 0.5,
		unit.Speed))
	return b.String()
}

// The same design in other units is the same launcher.
func TestSameDesignInOtherUnits(t *testing.T) {
	first := read(t, []byte(inUnits(writer{func(u []unit.Unit) unit.Unit { return u[0] }})))
	rapid.Check(t, func(t *rapid.T) {
		text := inUnits(writer{func(u []unit.Unit) unit.Unit { return rapid.SampledFrom(u).Draw(t, "unit") }})
		l, problems := Read("units.toml", []byte(text))
		require.Empty(t, problems, "%s\n%s", list(problems), text)
		sameLauncher(t, first, l)
	})
}
