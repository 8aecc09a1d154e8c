package show

// DesignID says which design a result is of.
type DesignID struct {
	Name     string `json:"name"`
	Revision string `json:"revision"`
	SHA256   string `json:"sha256"` // of the design file's bytes, hexadecimal
}

// Title names a design with its revision.
func (id DesignID) Title() string {
	t := id.Name
	if t == "" {
		t = "design without a name"
	}
	if id.Revision != "" {
		t += ", revision " + id.Revision
	}
	return t
}

// Fingerprint is the start of the design file's hash, enough to tell two files apart.
func (id DesignID) Fingerprint() string { return id.SHA256[:min(12, len(id.SHA256))] }
