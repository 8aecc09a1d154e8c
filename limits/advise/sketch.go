package advise

import "strings"

// sketched is a design begun from nothing: whatever is changed of it is no more known than what stood there, and is declared.
type sketched struct{ Design }

// With is the design with changes that are declared.
func (d sketched) With(changes []Change) (Design, error) {
	list := make([]Change, len(changes))
	for i, c := range changes {
		list[i] = unshown(c)
	}
	out, err := d.Design.With(list)
	if err != nil {
		return nil, err
	}
	return sketched{out}, nil
}

// unshown is a change of a sketch as one that nobody has shown. What a builder only wishes, and which parts there are, stay as they are.
func unshown(c Change) Change {
	at := strings.LastIndexByte(c.Key, '.')
	switch key := c.Key[at+1:]; {
	case c.Sort == Declaration || c.Sort == Wish:
	case key == "material":
		c.To = word("declared: " + c.To.Text())
	case key == "unpowered", key == "drive", key == "points":
		c.To = word("declared " + c.To.Text())
	default:
		c.To = c.To.declared()
	}
	return c
}

// written is a design as the one who asked gave it.
func written(d Design) Design {
	if s, is := d.(sketched); is {
		return s.Design
	}
	return d
}
