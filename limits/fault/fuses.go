package fault

import (
	"puffproof/limits/control"
	"puffproof/limits/finding"
)

// fuseFaults are those of the fuses: missing, too large as built, replaced by a larger one.
func (st *stage) fuseFaults() (out []fault) {
	base := fault{anyState: true, whyNot: finding.Words("no shot is harder for it"),
		consequence: finding.Words("a short heats the wire instead: fire, and insulation that melts onto the next wire"),
		detected:    finding.Words("the fuse and the wire, read"), prevented: finding.Words("a fuse next to the source, below the wire's rating")}
	bad := map[string]bool{}
	for _, t := range st.Launcher.Control.Fuses() {
		f := base
		f.part, f.mode, bad[t.Part] = "control."+t.Part, FuseTooLarge, true
		switch t.Trouble {
		case control.NoFuse:
			f.mode, f.failing = FuseMissing, finding.Say("no fuse stands first in the way of %s", t.Part)
		case control.AboveAny:
			f.failing = finding.Say("%s is above the %s that any wire behind it bears at the most", finding.Ampere(t.Rating), finding.Ampere(t.Wire))
		case control.TooLarge:
			f.failing = finding.Say("%s is above the %s of the thinnest wire behind it", finding.Ampere(t.Rating), finding.Ampere(t.Wire))
		default:
			f.heldBy = finding.ItemFuses
		}
		out = append(out, f)
	}
	for _, p := range st.Launcher.Control.Parts {
		if p.Kind == control.Fuse && !bad[p.Name] {
			f := base
			f.part, f.mode, f.latent, f.revealed = "control."+p.Name, FuseReplaced, true, finding.ItemFuses
			out = append(out, f)
		}
	}
	return out
}
