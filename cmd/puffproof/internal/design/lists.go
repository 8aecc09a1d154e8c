package design

import (
	"fmt"
	"regexp"
	"slices"

	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// stateList reads a list of states; [] is none.
func (s *section) stateList(k *key, e *toml.Entry) {
	names := stateNames()
	if e.Value.Kind == toml.IsString {
		s.wrong(k, e.Value.Offset, Problem{Message: "is not a list", Found: e.Value.Text,
			Want: "a list of states: " + k.exampleIn(s.r.units),
			Hint: `write ["` + e.Value.Text + `"]`})
		return
	}
	if !s.like(k, e.Value, toml.IsArray, "a list of states:") {
		return
	}
	var set pneumatics.StateSet
	for _, item := range e.Value.Items {
		found := false
		for _, st := range pneumatics.States() {
			if item.Kind == toml.IsString && item.Text == st.String() {
				set |= pneumatics.SetOf(st)
				found = true
			}
		}
		if !found {
			s.wrong(k, item.Offset, Problem{Message: "unknown state", Found: item.Show(), Want: quoted(names),
				Hint: stateHint(item.Text, names)})
		}
	}
	s.states[k.name] = set
}

func stateNames() []string {
	var names []string
	for _, st := range pneumatics.States() {
		names = append(names, st.String())
	}
	return names
}

func stateHint(found string, names []string) string {
	return meantWord(found, names, map[string]string{"charged": "armed", "live": "armed", "hot": "armed", "cocked": "armed", "ready": "armed",
		"safe": "off", "cold": "off", "shutdown": "off", "stop": "off", "fill": "charging", "filling": "charging", "pumping": "charging",
		"fire": "firing", "shoot": "firing", "shot": "firing", "load": "loading", "reload": "loading", "reloading": "loading"})
}

// gridControl is a grid with its mesh.
var gridControl = regexp.MustCompile(`^grid of [0-9]+(?:\.[0-9]+)? mm$`)

func objectControls() []string {
	return []string{"supervised loading by the adult in charge", "loading from the breech with the muzzle covered"}
}

func (s *section) controlList(k *key, e *toml.Entry) {
	if !s.like(k, e.Value, toml.IsArray, "a list:") {
		return
	}
	if n := len(e.Value.Items); n > mostControls {
		s.r.bounded(mostControls, n, s.dotted(k.name), e.Value.Items[mostControls].Offset)
		return
	}
	for _, item := range e.Value.Items {
		if item.Kind == toml.IsString && (slices.Contains(objectControls(), item.Text) || gridControl.MatchString(item.Text)) {
			s.lists[k.name] = append(s.lists[k.name], item.Text)
			continue
		}
		s.wrong(k, item.Offset, Problem{Message: "unknown control", Found: item.Show(),
			Want: quoted(append(objectControls(), "grid of 10 mm")), Hint: meantWord(item.Text, objectControls(), nil)})
	}
}

// curve reads pairs of gauge pressure and flow, in order of rising pressure.
func (s *section) curve(k *key, e *toml.Entry) {
	if !s.like(k, e.Value, toml.IsArray, "a list of pairs:") {
		return
	}
	if n := len(e.Value.Items); n > mostPoints {
		s.r.bounded(mostPoints, n, s.dotted(k.name), e.Value.Items[mostPoints].Offset)
		return
	}
	last := -1.0
	for _, item := range e.Value.Items {
		if item.Kind != toml.IsArray || len(item.Items) != 2 || item.Items[0].Kind != toml.IsString || item.Items[1].Kind != toml.IsString {
			s.wrong(k, item.Offset, Problem{Message: "is not a pair of pressure and flow", Want: k.exampleIn(s.r.units)})
			return
		}
		p, ok1 := s.parse(k.name, item.Items[0], unit.Pressure)
		f, ok2 := s.parse(k.name, item.Items[1], unit.VolumeFlow)
		if !ok1 || !ok2 {
			continue
		}
		gauge := s.toGauge(k, p)
		if gauge.Nominal <= last || f.Nominal < 0 {
			s.wrong(k, item.Items[0].Offset, Problem{Message: "points are not in order", Found: item.Items[0].Text,
				Want: "rising pressures from 0 on, flows of 0 or more"})
			return
		}
		last = gauge.Nominal
		s.points = append(s.points, launcher.CurvePoint{Gauge: gauge.Nominal, FreeAir: f.Nominal})
	}
}

// readingList reads a list of raw readings, each one figure without a tolerance.
func (s *section) readingList(k *key, e *toml.Entry) {
	if !s.like(k, e.Value, toml.IsArray, "a list of readings:") {
		return
	}
	if n := len(e.Value.Items); n > mostReadings {
		s.r.bounded(mostReadings, n, s.dotted(k.name), e.Value.Items[mostReadings].Offset)
		return
	}
	var list []float64
	for _, item := range e.Value.Items {
		if !s.like(k, item, toml.IsString, "readings in quotes:") {
			return
		}
		q, ok := s.parse(k.name, item, k.dimension)
		if !ok {
			continue
		}
		p := Problem{Key: s.dotted(k.name), Found: item.Text}
		if k.dimension == unit.Pressure {
			q = s.toGauge(k, q)
		}
		switch {
		case q.Stated:
			p.Message, p.Want = "is a raw reading with a tolerance", "the bare reading, such as "+k.exampleIn(s.r.units)
		case q.Nominal < k.min || q.Nominal > k.max:
			p.Message, p.Want = "is outside what is possible", k.span(s.r.units)
		default:
			list = append(list, q.Nominal)
			continue
		}
		s.r.Fault(item.Offset, p)
	}
	if len(e.Value.Items) < k.least {
		s.r.Fault(e.Value.Offset, Problem{Key: s.dotted(k.name), Message: "has " + readingsText(len(e.Value.Items)),
			Want: fmt.Sprintf("at least %d", k.least),
			Hint: "fewer do not show the scatter"})
	}
	s.readings[k.name] = list
}

func readingsText(n int) string {
	if n == 1 {
		return "1 reading"
	}
	return fmt.Sprintf("%d readings", n)
}
