package design

import (
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/launcher"
)

// Problem is one fault of a design file.
type Problem = problem.Problem

// reader is one reading of one file.
type reader struct {
	*toml.File
	units     quantity.System // of what is said of faults
	keys      *keys.Table
	ambient   launcher.Band
	declared  []string               // keys whose values are declared only
	tooGood   []launcher.TooGood     // figures better than any such part's
	narrow    []launcher.Narrow      // quantities with a tolerance that nothing of their origin gives
	template  []string               // keys whose figures are still the template's
	toFind    []string               // keys that have "?"
	positions map[string]int         // offset of each key that was read, by dotted key
	values    map[string]*toml.Value // what stands at each of them
}

// at reports what is wrong at a key, wherever it stands, what it has and what is wanted.
func (r *reader) at(key, message, found, want string, hint ...string) {
	r.Fault(r.positions[key], Problem{Key: key, Message: message, Found: found, Want: want, Hint: strings.Join(hint, "")})
}

// value reports what is wrong with the value of a key; found is what the file says, in its
// own units.
func (r *reader) value(key, message, want string, hint ...string) {
	r.at(key, message, r.written(key), want, hint...)
}

// written is the value of a key as the file has it; "" where it does not stand.
func (r *reader) written(key string) string {
	v := r.values[key]
	switch {
	case v == nil:
		return ""
	case v.Kind == toml.IsArray:
		items := make([]string, len(v.Items))
		for i, item := range v.Items {
			items[i] = item.Show()
		}
		return strings.Join(items, ", ")
	}
	return v.Show()
}

// atMost, atLeast, below and above say what would be accepted: whoever takes the figure
// as it is shown is within, so it is rounded to that side.
func (r *reader) atMost(q quantity.Kind, si float64) string {
	return "at most " + r.units.Words(q, si, quantity.Down)
}

func (r *reader) atLeast(q quantity.Kind, si float64) string {
	return "at least " + r.units.Words(q, si, quantity.Up)
}

func (r *reader) below(q quantity.Kind, si float64) string {
	return "less than " + r.units.Words(q, si, quantity.Down)
}

func (r *reader) above(q quantity.Kind, si float64) string {
	return "more than " + r.units.Words(q, si, quantity.Up)
}
