package control

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"puffproof/pneumatics"
)

// Kind is what a part of the wiring is.
type Kind uint8

// The kinds of parts. Relays and loads are consumers: they have a way that current takes to them.
const (
	Fuse           Kind = iota
	Stop                // an emergency stop: its contacts open while it is pressed
	KeySwitch           // turned by the adult in charge
	StartButton         // pressed once to begin; it springs back
	Button              // closed only while it is held
	Remote              // the contacts of a receiver, or of a box on a cable
	Timer               // opens when its time is over
	Switch              // moved by a brake, a lid, a guard
	PressureSwitch      // that of [pressure_switch]: closed until the cut-out
	Relay
	Load // the coils of valves, or the supply
)

// Supply is the name by which a load moves the supply.
const Supply = "supply"

// Part is one part of the wiring.
type Part struct {
	Name     string
	Kind     Kind
	ClosedIn pneumatics.StateSet // in which its contacts are closed; of a start button, those that begin with a press of it
	Through  []Step              // of a consumer: what the current passes, from the source on
	Moves    []string            // of a load: names of paths, or Supply
	Rating   float64             // of a fuse, at its upper end [A]; 0: not known
	Least    float64             // of a fuse, at its lower end [A]; 0: not known
	Wire     float64             // of a fuse: what the thinnest wire behind it bears for good, at its lower end [A]; 0: not known
	Missing  []string            // the keys of it that are not known
}

// Consumer tells that current flows through the part to a coil or a motor.
func (p *Part) Consumer() bool { return p.Kind == Relay || p.Kind == Load }

// Step is what current passes at one place: one contact, or several side by side of which one is enough.
type Step []Contact

// Contact is a contact of a part.
type Contact struct {
	Part string
	No   int  // from 1 on
	Not  bool // of a relay: closed while it has dropped
}

// String is the contact as it is written, its number left out where it is the first.
func (c Contact) String() string {
	name := c.Part
	if c.No != 1 {
		name += "." + strconv.Itoa(c.No)
	}
	if c.Not {
		name = "not " + name
	}
	return name
}

// mostContacts is how many contacts a part may have.
const mostContacts = 12

// ParseStep reads "k1.2", "not k1" and "start or k1.1". The error says what was expected.
func ParseStep(text string) (Step, error) {
	var out Step
	for _, one := range strings.Split(" "+strings.Join(strings.Fields(text), " ")+" ", " or ") {
		var c Contact
		name, not := strings.CutPrefix(strings.TrimSpace(one), "not ")
		part, number, numbered := strings.Cut(strings.TrimSpace(name), ".")
		c.Part, c.No, c.Not = part, 1, not
		if numbered {
			n, err := strconv.Atoi(number)
			if err != nil || n < 1 || n > mostContacts {
				return nil, fmt.Errorf("the number of a contact, 1 to %d", mostContacts)
			}
			c.No = n
		}
		if part == "" || part == "not" || part == "or" || strings.ContainsAny(part, " !/|&+,;>") {
			return nil, fmt.Errorf(`a contact: "key", "k1.2", "not k1.2", or two of which one is enough: "start or k1.1"`)
		}
		out = append(out, c)
	}
	return out, nil
}

// Wiring is all of it.
type Wiring struct {
	Parts []Part
}

// Index is the place of a part of that name; -1: there is none.
func (w *Wiring) Index(name string) int {
	return slices.IndexFunc(w.Parts, func(p Part) bool { return p.Name == name })
}

// Unknown lists what is not known of it, in words; without it nothing follows.
func (w *Wiring) Unknown() (out []string) {
	for _, p := range w.Parts {
		for _, key := range p.Missing {
			out = append(out, "control."+p.Name+"."+key)
		}
	}
	return out
}

// Loads are the indices of what moves something.
func (w *Wiring) Loads() (out []int) {
	for i := range w.Parts {
		if w.Parts[i].Kind == Load {
			out = append(out, i)
		}
	}
	return out
}

// Consumers are the indices of relays and loads.
func (w *Wiring) Consumers() (out []int) {
	for i := range w.Parts {
		if w.Parts[i].Consumer() {
			out = append(out, i)
		}
	}
	return out
}

// LoadOf is the load that moves a name; nil: none does, or nothing is stated.
func (w *Wiring) LoadOf(name string) *Part {
	if w == nil {
		return nil
	}
	for i := range w.Parts {
		if p := &w.Parts[i]; p.Kind == Load && slices.Contains(p.Moves, name) {
			return p
		}
	}
	return nil
}

// Way is what the current of a consumer passes, in words: "f1, key, start.1 or k1.1", each with its number where its part has
// several.
func (w *Wiring) Way(p *Part) string {
	var steps []string
	for _, s := range p.Through {
		var side []string
		for _, c := range s {
			side = append(side, w.Numbered(c))
		}
		steps = append(steps, strings.Join(side, " or "))
	}
	return strings.Join(steps, ", ")
}

// Numbered is a contact as it is written, with its number where its part has several.
func (w *Wiring) Numbered(c Contact) string {
	if c.No == 1 && w.Contacts(c.Part) > 1 {
		return c.String() + ".1"
	}
	return c.String()
}

// Crossed are contacts that have different things before them in the ways of two parts. One contact has two terminals: what is
// drawn so joins the two ways before it, past all that stands in one of them alone.
func (w *Wiring) Crossed() (out []Contact) {
	before := map[Contact][]Step{}
	for i := range w.Parts {
		for k, step := range w.Parts[i].Through {
			for _, c := range step {
				way, known := before[c]
				if !known {
					before[c] = w.Parts[i].Through[:k]
				} else if !slices.EqualFunc(way, w.Parts[i].Through[:k], slices.Equal[Step]) && !slices.Contains(out, c) {
					out = append(out, c)
				}
			}
		}
	}
	return out
}

// Moves tells whether a load moves a name.
func (w *Wiring) Moves(name string) bool { return w.LoadOf(name) != nil }

// Contacts counts the contacts of a part that something passes.
func (w *Wiring) Contacts(part string) (n int) {
	for _, c := range w.contacts() {
		if c.Part == part {
			n++
		}
	}
	return n
}

// Named is a contact as it is told: with its number where its part has several.
func (w *Wiring) Named(f Failure) string {
	if f.No > 0 && w.Contacts(f.Part) > 1 {
		return f.Part + "." + strconv.Itoa(f.No)
	}
	return f.Part
}

// contacts lists every contact that something passes, each once, in the order of the parts.
func (w *Wiring) contacts() (out []Contact) {
	for i := range w.Parts {
		for _, step := range w.Parts[i].Through {
			for _, c := range step {
				if !slices.Contains(out, c) {
					out = append(out, c)
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Contact) int {
		if d := w.Index(a.Part) - w.Index(b.Part); d != 0 {
			return d
		}
		return a.No - b.No
	})
	return out
}

// passes counts the consumers whose current passes a contact.
func (w *Wiring) passes(c Contact) (n int) {
	for i := range w.Parts {
		if slices.ContainsFunc(w.Parts[i].Through, func(s Step) bool { return slices.Contains(s, c) }) {
			n++
		}
	}
	return n
}
