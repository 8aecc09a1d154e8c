package figure

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// twoRelays is an invented wiring: two relays that hold themselves, a pump and two valves.
func twoRelays() Wiring {
	one := func(name string, k ContactKind, closed bool) WiringStep { return WiringStep{{name, k, closed}} }
	f1, key := one("f1", FuseSymbol, true), func(n int) WiringStep { return one(fmt.Sprintf("key.%d", n), KeyContact, false) }
	stop := func(n int) WiringStep { return one(fmt.Sprintf("stop.%d", n), MushroomContact, true) }
	start := func(n int) WiringStep {
		return WiringStep{{fmt.Sprintf("start.%d", n), PushContact, false}, {fmt.Sprintf("k%d.1", n), RelayContact, false}}
	}
	k := func(a, b string) []WiringStep {
		return []WiringStep{one(a, RelayContact, false), one(b, RelayContact, false)}
	}
	return Wiring{[]WiringWay{
		{[]WiringStep{f1, key(1), stop(1), start(1)}, WiringEnd{"k1", "relay", RelayCoil}},
		{[]WiringStep{f1, key(2), stop(2), start(2)}, WiringEnd{"k2", "relay", RelayCoil}},
		{append([]WiringStep{f1}, k("k1.3", "k2.3")...), WiringEnd{"dump", "valve dump", ValveCoil}},
		{append(append([]WiringStep{f1}, k("k1.4", "k2.4")...), one("brake", MovedContact, true), one("pedal", PushContact, false),
			one("remote", RemoteContact, false), one("pulse", TimerContact, true)), WiringEnd{"fire", "valve fire", ValveCoil}},
		{append(append([]WiringStep{one("f2", FuseSymbol, true)}, k("k1.2", "k2.2")...), one("cut_out", PressureContact, true)),
			WiringEnd{"pump", "supply", Motor}},
	}}
}

// drawnWiring draws a wiring, and gives its SVG; PUFFPROOF_SCREENSHOTS names a folder for a picture of it.
func drawnWiring(t *testing.T, w Wiring, name string) string {
	t.Helper()
	d, err := w.Draw()
	require.NoError(t, err)
	svg, err := d.SVG()
	require.NoError(t, err)
	wellFormed(t, svg)
	unclipped(t, d)
	if dir := os.Getenv("PUFFPROOF_SCREENSHOTS"); dir != "" {
		canvas := vgimg.NewWith(vgimg.UseWH(d.Width, d.Height), vgimg.UseDPI(150))
		require.NoError(t, d.Replay(draw.New(canvas).Canvas))
		f, err := os.Create(dir + "/" + name + ".png")
		require.NoError(t, err)
		_, err = vgimg.PngCanvas{Canvas: canvas}.WriteTo(f)
		require.NoError(t, errors.Join(err, f.Close()))
	}
	return string(svg)
}

// Each contact and each coil is named, what two ways begin with once; nothing touches an edge.
func TestWiringIsDrawn(t *testing.T) {
	svg := drawnWiring(t, twoRelays(), "wiring")
	for _, name := range []string{"f1", "f2", "key.1", "key.2", "stop.1", "stop.2", "start.1", "k1.1", "k1.2", "k1.3", "k1.4", "k2.4", "brake",
		"pedal", "remote", "pulse", "cut_out", "dump", "valve dump", "fire", "pump", "M", "+", "0"} {
		assert.Equal(t, 1, strings.Count(svg, ">"+name+"</text>"), name)
	}
	_, err := Wiring{}.Draw()
	assert.ErrorIs(t, err, ErrNoCurve)
}

// What no builder draws is drawn nevertheless: a coil right at the source, twenty contacts in a row, five side by side, long names.
func TestAnyWiringIsDrawn(t *testing.T) {
	long := "the-switch-under-the-whale's-left-flipper-that-the-driver-holds"
	var row []WiringStep
	for i := range 20 {
		row = append(row, WiringStep{{fmt.Sprintf("c%d", i), MovedContact, i%2 == 0}})
	}
	five := WiringStep{{long, PushContact, false}, {"a", RelayContact, true}, {"b", KeyContact, true}, {"c", RemoteContact, true}, {"d",
		TimerContact, false}}
	svg := drawnWiring(t, Wiring{[]WiringWay{{nil, WiringEnd{"bare", "", ValveCoil}}, {row, WiringEnd{long + "2", long + "3", RelayCoil}},
		{[]WiringStep{row[0], five}, WiringEnd{"below", "", Motor}}, {row[:1], WiringEnd{"last", "", RelayCoil}}}}, "any-wiring")
	whole := strings.ReplaceAll(textsOf(t, []byte(svg)), " ", "")
	for _, name := range []string{long, long + "2", long + "3", "bare", "c19", "below", "last"} {
		assert.Contains(t, whole, name)
	}
	assert.Equal(t, 1, strings.Count(svg, ">c0</text>"))
}
