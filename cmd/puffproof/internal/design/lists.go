package design

import (
	"fmt"
	"regexp"
	"slices"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// stateList reads a list of states; [] is none.
func (s *section) stateList(k *keys.Key, e *toml.Entry) {
	names := keys.StateNames()
	if e.Value.Kind == toml.IsString {
		s.wrong(k, e.Value.Offset, Problem{Message: "is not a list", Found: e.Value.Text,
			Want: "a list of states: " + k.ExampleIn(s.r.units),
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
			if item.Kind == toml.IsString && unit.Fold(item.Text) == unit.Fold(st.String()) {
				set |= pneumatics.SetOf(st)
				found = true
			}
		}
		if !found {
			s.wrong(k, item.Offset, Problem{Message: "unknown state", Found: item.Show(), Want: keys.Quoted(names),
				Hint: stateHint(item.Text, names)})
		}
	}
	s.states[k.Name] = set
}

func stateHint(found string, names []string) string {
	return keys.MeantWord(found, names, map[string]string{"charged": "armed", "live": "armed", "hot": "armed", "cocked": "armed",
		"ready": "armed", "safe": "off", "cold": "off", "shutdown": "off", "stop": "off", "fill": "charging", "filling": "charging",
		"pumping": "charging",
		"fire":    "firing", "shoot": "firing", "shot": "firing", "load": "loading", "reload": "loading", "reloading": "loading"})
}

// gridControl is a grid with its mesh.
var gridControl = regexp.MustCompile(`^grid of [0-9]+(?:\.[0-9]+)? mm$`)

func (s *section) controlList(k *keys.Key, e *toml.Entry) {
	if !s.like(k, e.Value, toml.IsArray, "a list:") {
		return
	}
	if n := len(e.Value.Items); n > mostControls {
		s.r.bounded(mostControls, n, s.dotted(k.Name), e.Value.Items[mostControls].Offset)
		return
	}
	for _, item := range e.Value.Items {
		said, declared := keys.Promised(item.Text)
		if item.Kind == toml.IsString && (slices.Contains(keys.ObjectControls(), said) || gridControl.MatchString(said)) {
			s.lists[k.Name] = append(s.lists[k.Name], said)
			s.declares(k, declared)
			continue
		}
		s.wrong(k, item.Offset, Problem{Message: "unknown control", Found: item.Show(),
			Want: keys.Quoted(append(keys.ObjectControls(), "grid of 10 mm")), Hint: keys.MeantWord(item.Text, keys.ObjectControls(), nil)})
	}
}

// nameList reads a list of names.
func (s *section) nameList(k *keys.Key, e *toml.Entry) {
	if e.Value.Kind == toml.IsString {
		s.wrong(k, e.Value.Offset, Problem{Message: "is not a list", Found: e.Value.Text, Want: "a list of names: " + k.ExampleIn(s.r.units),
			Hint: `write ["` + e.Value.Text + `"]`})
		return
	}
	if !s.like(k, e.Value, toml.IsArray, "a list of names:") {
		return
	}
	if n := len(e.Value.Items); n > mostContacts {
		s.r.bounded(mostContacts, n, s.dotted(k.Name), e.Value.Items[mostContacts].Offset)
		return
	}
	s.lists[k.Name] = []string{}
	for _, item := range e.Value.Items {
		if s.like(k, item, toml.IsString, "names in quotes:") {
			s.lists[k.Name] = append(s.lists[k.Name], item.Text)
		}
	}
}

// curve reads pairs of gauge pressure and flow, in order of rising pressure.
func (s *section) curve(k *keys.Key, e *toml.Entry) {
	if !s.like(k, e.Value, toml.IsArray, "a list of pairs:") {
		return
	}
	if n := len(e.Value.Items); n > mostPoints {
		s.r.bounded(mostPoints, n, s.dotted(k.Name), e.Value.Items[mostPoints].Offset)
		return
	}
	last := -1.0
	for _, item := range e.Value.Items {
		if item.Kind != toml.IsArray || len(item.Items) != 2 || item.Items[0].Kind != toml.IsString || item.Items[1].Kind != toml.IsString {
			s.wrong(k, item.Offset, Problem{Message: "is not a pair of pressure and flow", Want: k.ExampleIn(s.r.units)})
			return
		}
		p, ok1 := s.parse(k.Name, item.Items[0], unit.Pressure)
		f, ok2 := s.parse(k.Name, item.Items[1], unit.VolumeFlow)
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
func (s *section) readingList(k *keys.Key, e *toml.Entry) {
	if !s.like(k, e.Value, toml.IsArray, "a list of readings:") {
		return
	}
	if n := len(e.Value.Items); n > mostReadings {
		s.r.bounded(mostReadings, n, s.dotted(k.Name), e.Value.Items[mostReadings].Offset)
		return
	}
	var list []float64
	for _, item := range e.Value.Items {
		if !s.like(k, item, toml.IsString, "readings in quotes:") {
			return
		}
		q, ok := s.parse(k.Name, item, k.Dimension)
		if !ok {
			continue
		}
		p := Problem{Key: s.dotted(k.Name), Found: item.Text}
		if k.Dimension == unit.Pressure {
			q = s.toGauge(k, q)
		}
		switch {
		case q.Stated:
			p.Message, p.Want = "is a raw reading with a tolerance", "the bare reading, such as "+k.ExampleIn(s.r.units)
		case q.Nominal < k.Min || q.Nominal > k.Max:
			p.Message, p.Want = "is outside what is possible", k.Span(s.r.units)
		default:
			list = append(list, q.Nominal)
			continue
		}
		s.r.Fault(item.Offset, p)
	}
	if len(e.Value.Items) < k.Least {
		s.r.Fault(e.Value.Offset, Problem{Key: s.dotted(k.Name), Message: "has " + readingsText(len(e.Value.Items)),
			Want: fmt.Sprintf("at least %d", k.Least),
			Hint: "fewer do not show the scatter"})
	}
	s.readings[k.Name] = list
}

func readingsText(n int) string {
	if n == 1 {
		return "1 reading"
	}
	return fmt.Sprintf("%d readings", n)
}
