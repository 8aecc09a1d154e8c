package design

import (
	"errors"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/limits/advise"
	"puffproof/limits/launcher"
)

// Editable is a design file that can be changed, comments and order kept.
type Editable struct {
	in       Reader
	name     string
	data     []byte
	launcher *launcher.Launcher
}

// Open reads a design file that may be changed; of one with problems the list says which.
func (in Reader) Open(name string, data []byte) (*Editable, []Problem) {
	l, problems := in.Read(name, data)
	if len(problems) > 0 {
		return nil, problems
	}
	return &Editable{in, name, data, l}, nil
}

// Launcher is what the file says.
func (e *Editable) Launcher() *launcher.Launcher { return e.launcher }

// Bytes is the file.
func (e *Editable) Bytes() []byte { return e.data }

// Stated is the value of a key as it is written; "" it does not stand, or says that it is not known.
func (e *Editable) Stated(key string) string {
	f, err := edit.Open(e.data)
	if err != nil {
		return ""
	}
	if v, _ := f.Value(key); v != advise.Quoted(keys.NotKnown) {
		return v
	}
	return ""
}

// Has tells whether the file has a table, a part or a key of a name.
func (e *Editable) Has(name string) bool {
	f, err := edit.Open(e.data)
	return err == nil && f.Has(name)
}

// With is the file with changes; the error says why the reader would refuse it.
func (e *Editable) With(changes []advise.Change) (advise.Design, error) {
	f, err := edit.Open(e.data)
	if err != nil {
		return nil, err
	}
	for _, c := range changes {
		if err := f.Set(c.Key, c.To.Line()); err != nil {
			return nil, err
		}
	}
	out, problems := e.in.Open(e.name, f.Bytes())
	if len(problems) > 0 {
		return nil, errors.New(problems[0].String())
	}
	return out, nil
}
