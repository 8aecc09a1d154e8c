package view

import (
	"encoding/json"
	"math"
	"sort"
	"strconv"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/vent"
)

// Play is a shot, or an emptying, to be played slowly.
type Play struct {
	ID, Name string
	Vessels  []Vessel
	Barrel   bool   // a projectile moves
	Frames   string // JSON: a list of Frame
	First    string // the words of the first frame
	Last     int    // the number of the last frame
}

// Vessel is a volume with its place in the drawing.
type Vessel struct {
	Name string
	X    int
}

// Frame is one moment.
type Frame struct {
	Words string    `json:"words"`
	Fill  []float64 `json:"fill"` // of each volume, of the highest pressure of all [-]
	At    float64   `json:"at"`   // of the projectile on its way, 1 it is out; of an emptying's time [-]
}

// The ids of what is played.
const (
	shotID     = "shot"
	emptyingID = "emptying"
)

// frames is how many moments are played.
const frames = 80

// playsOf are the shot and the emptying of a design.
func playsOf(st *State) (out []Play) {
	if p, is := shotPlay(st); is {
		out = append(out, p)
	}
	if st.Full != nil && st.Full.Assessment.Emptying != nil {
		if p, is := ventPlay(st, st.Full.Assessment.Emptying); is {
			out = append(out, p)
		}
	}
	return out
}

// finished writes the frames of a play.
func (p *Play) finished(all []Frame) bool {
	data, err := json.Marshal(all)
	if err != nil || len(all) < 2 {
		return false
	}
	p.Frames, p.First, p.Last = string(data), all[0].Words, len(all)-1
	return true
}

// shotPlay is the nominal shot.
func shotPlay(st *State) (Play, bool) {
	q := st.Quick
	if q == nil || q.Shot == nil || q.Shot.Series.Length() < 2 {
		return Play{}, false
	}
	s := &q.Shot.Series
	p := Play{ID: shotID, Name: "the nominal shot", Barrel: true}
	top, end := 0.0, s.Time[s.Length()-1]
	if q.Shot.Outcome == show.OutcomeLeft { // a little of what comes behind the muzzle
		end = math.Min(end, 1.15*q.Shot.ExitTime)
	}
	for i, v := range q.Volumes {
		p.Vessels = append(p.Vessels, Vessel{show.Clean(v.Name), 10 + 44*i})
		for _, g := range v.Gauge {
			top = math.Max(top, g)
		}
	}
	if !(top > 0) || !(end > 0) {
		return Play{}, false
	}
	var all []Frame
	for n := range frames {
		i := sort.SearchFloat64s(s.Time[:s.Length()], end*float64(n)/(frames-1))
		i = min(i, s.Length()-1)
		f := Frame{At: math.Min(1, s.Travel[i]/q.Shot.Travel), Words: st.Units.Near(quantity.Time, s.Time[i]) + " after the command: "}
		for _, v := range q.Volumes {
			g := 0.0
			if i < len(v.Gauge) {
				g = v.Gauge[i]
			}
			f.Fill = append(f.Fill, math.Max(0, g/top))
			f.Words += show.Clean(v.Name) + " " + st.Units.Near(quantity.Gauge, g) + ", "
		}
		f.Words += "behind the projectile " + st.Units.Near(quantity.Gauge, s.Gauge[i]) + ", " + st.Units.Near(quantity.Length, s.Travel[i]) +
			" from its seat, " + st.Units.Near(quantity.Speed, s.Speed[i])
		all = append(all, f)
	}
	return p, p.finished(all)
}

// ventEnd is when the emptyings that are drawn are over [s].
func ventEnd(cases []vent.Case) (end float64) {
	for _, c := range cases {
		end = math.Max(end, c.Sheet[len(c.Sheet)-1].Time)
	}
	return end
}

// ventPlay is the emptying that the plot shows, as expected.
func ventPlay(st *State, r *vent.Report) (Play, bool) {
	cases := r.Drawn()
	if len(cases) == 0 {
		return Play{}, false
	}
	p := Play{ID: emptyingID, Name: "the emptying, " + cases[0].Scenario}
	top := 0.0
	for i, c := range cases {
		p.Vessels = append(p.Vessels, Vessel{show.Clean(c.Volume), 10 + 44*i})
		top = math.Max(top, c.Start)
	}
	end := ventEnd(cases)
	if !(top > 0) || !(end > 0) {
		return Play{}, false
	}
	var all []Frame
	for n := range frames {
		t := end * float64(n) / (frames - 1)
		f := Frame{At: float64(n) / (frames - 1), Words: strconv.FormatFloat(t, 'f', 1, 64) + " s after the command:"}
		for i, c := range cases {
			course := c.Curve()
			k := sort.Search(len(course), func(k int) bool { return course[k].Time >= t })
			g := course[min(k, len(course)-1)].Gauge
			f.Fill = append(f.Fill, math.Max(0, g/top))
			if i > 0 {
				f.Words += ","
			}
			f.Words += " " + show.Clean(c.Volume) + " about " + st.Units.Near(quantity.Gauge, g)
		}
		all = append(all, f)
	}
	return p, p.finished(all)
}
