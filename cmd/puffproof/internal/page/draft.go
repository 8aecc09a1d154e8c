package page

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/limits/advise"
)

// draft is a design file under change.
type draft struct {
	saved        []byte // the file as it was last read or written
	now          []byte
	past, future []step
	gesture      string // that the last step came of: more of the same is no step of its own
}

// step is a state of the draft before, or after, and what leads from one to the other.
type step struct {
	data []byte
	what string
}

// mostSteps is how many steps can be undone.
const mostSteps = 500

// newDraft begins with a file.
func newDraft(data []byte) *draft { return &draft{saved: data, now: data} }

// altered tells that the draft says something else than the file.
func (d *draft) altered() bool { return !bytes.Equal(d.saved, d.now) }

// put makes data the draft. What comes of one gesture, such as a slider that moves, is one step.
func (d *draft) put(data []byte, what, gesture string) {
	if bytes.Equal(data, d.now) {
		return
	}
	if gesture == "" || gesture != d.gesture || len(d.past) == 0 {
		d.past = append(d.past, step{d.now, what})
		if len(d.past) > mostSteps {
			d.past = slices.Delete(d.past, 0, 1)
		}
	}
	d.now, d.future, d.gesture = data, nil, gesture
}

// undo takes the last step back; what it did, "" nothing was done.
func (d *draft) undo() string { return d.step(&d.past, &d.future) }

// redo takes the last step that was undone again.
func (d *draft) redo() string { return d.step(&d.future, &d.past) }

// step goes to the last state of one list and remembers this one in the other.
func (d *draft) step(from, to *[]step) string {
	if len(*from) == 0 {
		return ""
	}
	last := (*from)[len(*from)-1]
	*from = (*from)[:len(*from)-1]
	*to = append(*to, step{d.now, last.what})
	d.now, d.gesture = last.data, ""
	return last.what
}

// nextStep is what undo or redo would do; "" nothing.
func nextStep(steps []step) string {
	if len(steps) == 0 {
		return ""
	}
	return steps[len(steps)-1].what
}

// errOneValue is returned for text that would write more than the one value of its key.
var errOneValue = errors.New("is more than one value")

// with is data with what was entered at a key; nothing entered takes the key away. The error is about the text: where it can
// stand in the file at all it is put there, and the reader of designs says what is wrong with it.
func with(data []byte, f *design.Field, entered string) ([]byte, error) {
	file, err := edit.Open(data)
	if err != nil {
		return nil, err
	}
	if strings.TrimSpace(entered) == "" {
		if err := file.Remove(f.Key); err != nil {
			return nil, err
		}
		return file.Bytes(), nil
	}
	text, err := f.TOML(entered)
	if err != nil {
		return nil, err
	}
	if err := setOne(file, f.Key, strings.TrimSpace(text)); err != nil {
		return nil, err
	}
	return file.Bytes(), nil
}

// setOne gives a key a value that is written as TOML, and refuses text that is more than a value: nothing else of the file may
// change by it.
func setOne(file *edit.File, key, value string) error {
	before := stated(file)
	if err := file.Set(key, value); err != nil {
		return fmt.Errorf("is no value as TOML writes it: %w", err)
	}
	if was, _ := file.Value(key); was != value {
		return errOneValue
	}
	delete(before, key)
	after := stated(file)
	delete(after, key)
	for k, v := range after {
		if old, is := before[k]; !is || old != v {
			if !within(k, key) {
				return errOneValue
			}
		}
	}
	return nil
}

// within tells that a key stands in the table of another name.
func within(key, table string) bool {
	return strings.HasPrefix(key, table+".") || strings.HasPrefix(key, table+"[")
}

// stated are the values of a file by their keys.
func stated(file *edit.File) map[string]string {
	out := map[string]string{}
	for _, s := range file.All() {
		out[s.Key] = s.Value
	}
	return out
}

// changed is data with changes that limits advises.
func changed(data []byte, changes []advise.Change) ([]byte, error) {
	file, err := edit.Open(data)
	if err != nil {
		return nil, err
	}
	for _, c := range changes {
		if err := file.Set(c.Key, c.To.Line()); err != nil {
			return nil, err
		}
	}
	return file.Bytes(), nil
}

// carried puts what leads from one file to another onto a third: whoever changed that one meanwhile keeps what he changed
// elsewhere. The error says which key cannot be put there.
func carried(from, to, onto []byte) ([]byte, error) {
	differs, err := design.DifferencesOf(from, to)
	if err != nil {
		return nil, err
	}
	source, err := edit.Open(to)
	if err != nil {
		return nil, err
	}
	file, err := edit.Open(onto)
	if err != nil {
		return nil, err
	}
	for _, d := range differs {
		if d.B == nil {
			err = file.Remove(d.Key)
		} else if raw, is := source.Value(d.Key); is {
			err = file.Set(d.Key, raw)
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", d.Key, err)
		}
	}
	return file.Bytes(), nil
}
