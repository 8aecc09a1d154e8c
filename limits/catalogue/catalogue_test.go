package catalogue_test

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/catalogue"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Every band that a launcher has stands in its catalogue, once: a field of the type that
// is added later is found by this walk.
func TestTheCatalogueHasEveryBand(t *testing.T) {
	l := sample.Dumped()
	l.Paths[0].Hose = &launcher.HoseSpec{}
	l.Paths = append(l.Paths, sample.Regulator(1e4, 1e3), launcher.PathSpec{Kind: pneumatics.Check})
	for i := range l.Paths[5:] {
		l.Paths[5+i].From, l.Paths[5+i].To = "tank", "dose"
	}
	l.Gauges = []launcher.GaugeSpec{{On: "tank"}, {On: "dose"}}
	l.Objects = []launcher.ObjectSpec{{Name: "bead"}}
	l.Venting, l.Event = &launcher.VentingSpec{}, &launcher.EventSpec{}
	times := map[*launcher.Band]int{}
	for _, q := range catalogue.Of(l, 1e5) {
		times[q.Band]++
	}
	all := bandsIn(reflect.ValueOf(l), map[*launcher.Band]string{}, "launcher")
	assert.Greater(t, len(all), 100)
	for b, where := range all {
		assert.Equal(t, 1, times[b], where)
	}
	for b, n := range times {
		assert.Contains(t, all, b)
		assert.Equal(t, 1, n)
	}
}

var bandType = reflect.TypeFor[launcher.Band]()

// bandsIn walks a value for bands and notes where each was met.
func bandsIn(v reflect.Value, out map[*launcher.Band]string, where string) map[*launcher.Band]string {
	switch {
	case v.Type() == bandType:
		out[v.Addr().Interface().(*launcher.Band)] = where
	case v.Kind() == reflect.Pointer && !v.IsNil():
		bandsIn(v.Elem(), out, where)
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && f.Type != reflect.TypeFor[*launcher.Bench]() {
				bandsIn(v.Field(i), out, where+"."+f.Name)
			}
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			bandsIn(v.Index(i), out, where)
		}
	}
	return out
}

// A quantity goes from end to end, and back to what it was; what moves along with a relief
// valve's set pressure goes from letting out most to letting out least.
func TestAQuantityMoves(t *testing.T) {
	l := sample.Plain(sample.WithRelief(sample.Between("set", 0.5e5, 0.7e5), sample.Between("full", 0.8e5, 0.9e5), 5e-3, 0.6))
	p := &l.Paths[1]
	p.Flow.DischargeCoefficient = sample.Between("cd", 0.5, 0.7)
	was := *p
	var set *catalogue.Quantity
	for _, q := range catalogue.Coordinates(l, 1e5) {
		if q.Band == &p.SetPressure {
			set = &q
		}
	}
	assert.InDelta(t, 0.6e5, set.Value(0.5), 1e-6)
	assert.InDelta(t, 0.25, set.Fraction(0.55e5), 1e-9)
	set.Move(0)
	assert.Equal(t, []float64{0.5e5, 0.8e5, 0.7},
		[]float64{p.SetPressure.Nominal, p.FullFlowPressure.Nominal, p.Flow.DischargeCoefficient.Nominal})
	set.Put(0.7e5)
	assert.InDeltaSlice(t, []float64{0.7e5, 0.95e5, 0.5}, []float64{p.SetPressure.Nominal, p.FullFlowPressure.Nominal,
		p.Flow.DischargeCoefficient.Nominal}, 1e-6, "full flow as far above its nominal value as the set pressure, where that is more")
	set.Restore()
	assert.Equal(t, was, *p)
}
