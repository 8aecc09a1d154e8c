package view

import (
	"math"
	"regexp"
	"strconv"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Rung is a pressure of the ladder that a key of the design sets.
type Rung struct {
	Key, Name string
	Band      launcher.Band
}

// RungsOf are the pressures that keys set, from the lowest upwards as they should stand.
func RungsOf(l *launcher.Launcher) (out []Rung) {
	add := func(name string, b launcher.Band) {
		if b.Set && b.Line > 0 {
			out = append(out, Rung{b.Key, name, b})
		}
	}
	if s := l.Switch; s != nil {
		add("cut-in", s.CutIn)
		add("cut-out", s.CutOut)
	}
	if i := l.ReliefOnSupply(); i >= 0 {
		add("relief set", l.Paths[i].SetPressure)
		add("relief full flow", l.Paths[i].FullFlowPressure)
	}
	return out
}

// Push is a rung that another one pushes along, with the text that its key then has.
type Push struct{ Key, Text string }

// leading is the figure that a text begins with.
var leading = regexp.MustCompile(`^\s*[+-]?[0-9]+(?:\.[0-9]+)?`)

// figureOf is the figure that a text begins with; NaN: none.
func figureOf(text string) float64 {
	v, err := strconv.ParseFloat(leading.FindString(text), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// Pushed are the rungs that have to go along where one is moved past them: upwards by as much, downwards by the same share. Only pressures
// written in the same unit, with their figures first, are compared: others stay where they are, and the ladder's verdict tells.
func Pushed(rungs []Rung, key, text string, textOf func(key string) string) (out []Push) {
	at := -1
	for i := range rungs {
		if rungs[i].Key == key {
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	moved, before := figureOf(text), figureOf(textOf(key))
	unitOf := func(t string) string { return unitAfter.FindString(leading.ReplaceAllString(t, "")) }
	for i, r := range rungs {
		t := textOf(r.Key)
		v := figureOf(t)
		passed := i > at && v > before && v <= moved || i < at && v < before && v >= moved
		if !passed || unitOf(t) != unitOf(text) {
			continue
		}
		to := v + moved - before
		if moved < before { // downwards in the same share: a pressure does not go below nothing
			to = v * moved / before
		}
		const digits = 4 // of a pressure in any unit: finer no gauge shows
		out = append(out, Push{r.Key, leading.ReplaceAllString(t, strconv.FormatFloat(round(to, digits), 'f', -1, 64))})
	}
	return out
}

// unitAfter is the unit behind a figure.
var unitAfter = regexp.MustCompile(`[A-Za-z]+`)

// round rounds to so many significant digits.
func round(v float64, digits int) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil {
		return v
	}
	return out
}

// Ladder is the ladder of pressures.
type Ladder struct {
	Rungs   []RungField
	Others  []string // pressures that follow from these, in words
	Answer  string   // the highest cut-out, in words
	Waiting bool
}

// RungField is a rung that can be moved, on the one scale of all.
type RungField struct {
	ID, Key, Name, Text string
	Slider              *Slider
	Forbidden           string // what is above, or below, in words; "" nothing is known to be
	// Where the permitted stretch ends and begins on the scale [-].
	From, To string
}

// ladderOf is the ladder; nil: the launcher has no rung that can be set.
func ladderOf(st *State) *Ladder {
	l := st.Launcher
	if l == nil {
		return nil
	}
	rungs := RungsOf(l)
	if len(rungs) == 0 {
		return nil
	}
	top := 0.0
	for _, r := range rungs {
		top = math.Max(top, r.Band.High)
	}
	top *= 1.3
	out := &Ladder{Waiting: st.Settings == nil}
	text := map[string]string{}
	for i := range st.Tables {
		for _, f := range st.Tables[i].Fields {
			text[f.Key] = f.Text
		}
	}
	for _, r := range rungs {
		f := RungField{ID: "r-" + partID(r.Key), Key: r.Key, Name: r.Name, Text: text[r.Key], Slider: sliderOf(text[r.Key])}
		if f.Slider != nil && r.Band.Nominal > 0 {
			if v := figureOf(f.Text); v > 0 { // the same scale for all: the figure's own unit
				f.Slider.Low, f.Slider.High = "0", strconv.FormatFloat(v*top/r.Band.Nominal, 'f', 3, 64)
			}
		}
		f.forbid(st, r, top)
		out.Rungs = append(out.Rungs, f)
	}
	for _, r := range l.Rungs(math.NaN()) {
		words := r.Name + " " + st.Units.Words(quantity.Setting, r.Gauge, quantity.Nearest)
		if r.High > r.Low {
			words += " (" + st.Units.Bare(quantity.Setting, r.Low, quantity.Down) + " to " +
				st.Units.Bare(quantity.Setting, r.High, quantity.Up) + ")"
		}
		out.Others = append(out.Others, words+show.Lead(": ", st.text(r.What)))
	}
	if s := st.Settings; s != nil {
		out.Answer = answerText(st)
	}
	return out
}

// forbid says which stretch of the scale an answer of the set pressures forbids, and by which verdict.
func (f *RungField) forbid(st *State, r Rung, top float64) {
	f.From, f.To = "0", "1"
	if st.Settings == nil {
		return
	}
	a := &st.Settings.Answer
	share := func(p *float64) string { return strconv.FormatFloat(math.Min(1, math.Max(0, *p/top)), 'f', 4, 64) }
	at := func(p *float64) string { return st.Units.Words(quantity.Setting, *p, quantity.Down) }
	if len(a.Unmet) > 0 { // nothing of the scale is permitted
		f.To, f.Forbidden = "0", "a verdict fails at every setting: see below"
		return
	}
	title := a.Binding
	if st.Full != nil {
		if v, is := st.Full.Report.Verdict(a.Binding); is {
			title = v.Title
		}
	}
	switch r.Name {
	case "cut-out":
		if a.CutOut != nil && !a.AnyCutOut {
			f.To, f.Forbidden = share(a.CutOut), "above "+at(a.CutOut)+" forbidden by the verdict: "+title
		}
	case "cut-in":
		if a.CutIn != nil {
			f.To, f.Forbidden = share(a.CutIn), "above "+at(a.CutIn)+" too near the cut-out"
		}
	case "relief set":
		if a.ReliefSetMin != nil && a.ReliefSetMax != nil {
			f.From, f.To = share(a.ReliefSetMin), share(a.ReliefSetMax)
			f.Forbidden = "at this cut-out between " + st.Units.Words(quantity.Setting, *a.ReliefSetMin, quantity.Up) + " and " + at(a.ReliefSetMax)
		}
	case "relief full flow":
		if a.ReliefFullFlowMax != nil {
			f.To, f.Forbidden = share(a.ReliefFullFlowMax), "above "+at(a.ReliefFullFlowMax)+" forbidden at a fault"
		}
	}
}

// answerText is the highest cut-out in words, after what speaks against it.
func answerText(st *State) string {
	a := &st.Settings.Answer
	setting := func(p float64) string { return st.Units.Words(quantity.Setting, p, quantity.Down) }
	lead := ""
	switch {
	case len(a.Unknown) > 0:
		return "The highest cut-out is not known yet: " + st.text(a.Unknown) + "."
	case !a.Works:
		return "No cut-out works" + show.Lead(": ", st.text(a.Why)) + "."
	case len(a.Unmet) > 0 && a.CutOut == nil:
		return "Does not hold: " + st.text(a.Unmet) + ". The supply alone keeps normal running within the limit; that is not enough."
	case a.CutOut == nil:
		return "No switch is needed: the supply cannot exceed the limit."
	case len(a.Unmet) > 0:
		lead = "Does not hold: " + st.text(a.Unmet) + ". But for that: "
	case len(a.AsItIs) > 0:
		lead = "Does not hold as it is: " + st.text(a.AsItIs) + ". With that mended: "
	}
	t := lead + "the highest cut-out is " + setting(*a.CutOut)
	if lead == "" {
		t = "The highest cut-out is " + setting(*a.CutOut)
	}
	if a.CutIn != nil {
		t += ", with the cut-in at " + setting(*a.CutIn)
	}
	t += "."
	if a.TooHigh() {
		t += " The design has " + st.Units.Words(quantity.Setting, *a.Stated, quantity.Nearest) + ": too high."
	}
	if why := st.text(a.Why); why != "" {
		t += " What binds: " + why + "."
	}
	return t
}

// Weight is what one tolerance costs.
type Weight struct {
	Key, Part, Cost string
	Assumed         bool
}

// Budget says which tolerances cost most: what to measure next.
type Budget struct {
	Steps   []string
	Weights []Weight
	Small   int
}

func budgetOf(st *State) *Budget {
	if st.Full == nil || st.Full.Budget == nil {
		return nil
	}
	b := st.Full.Budget
	out := &Budget{Small: b.Small}
	for _, s := range b.Steps {
		energy := st.Units.Worst(quantity.Energy, s.Energy)
		if !s.Leaves {
			energy = "does not leave"
		}
		out.Steps = append(out.Steps, energy+": "+st.text(s.What))
	}
	const most = 8
	for _, s := range b.Shares[:min(most, len(b.Shares))] {
		out.Weights = append(out.Weights, Weight{s.Key, st.partOf(s.Key), st.Units.Near(quantity.Energy, s.Energy), s.Assumed})
	}
	return out
}

// statusWord is the word of a status, or that a verdict is not asked.
func statusWord(s finding.Status) string {
	if s == "" {
		return "not asked"
	}
	return show.Word(s)
}
