package wish

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/keys"
)

// Kept reads the names of what is kept, with commas, and refuses one that the design does not have.
func Kept(text string, d *design.Editable) ([]string, error) {
	var out []string
	for name := range strings.SplitSeq(text, ",") {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		if !d.Has(name) {
			return nil, unknown(name, d)
		}
		out = append(out, name)
	}
	return out, nil
}

// unknown refuses a name that the design does not have, and says which of its names was probably meant.
func unknown(name string, d *design.Editable) error {
	var names []string
	if f, err := edit.Open(d.Bytes()); err == nil {
		names = f.Names()
	}
	if meant := keys.MeantWord(name, names, nil); meant != "" {
		return fmt.Errorf("the design has no table, part or key %q; %s", name, meant)
	}
	return fmt.Errorf("the design has no table, part or key %q", name)
}
