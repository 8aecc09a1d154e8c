package limits

import (
	"puffproof/pneumatics"
	"strconv"
	"strings"
)

// opening is the largest thing that gets in, in words.
func (l *Launcher) opening() string {
	return "the opening takes things up to " + millimetre(l.admits())
}

// admits is the diameter of the largest object that gets in [m]: bore or tube,
// or what a declared guard or grid lets in.
func (l *Launcher) admits() float64 {
	b := &l.Barrel
	d := l.mouth()
	if b.MuzzleAdmits.Set {
		d = min(d, b.MuzzleAdmits.High)
	}
	for _, c := range b.ObjectControl {
		if mesh, ok := gridMesh(c); ok {
			d = min(d, mesh)
		}
	}
	return d
}

// mouth is the diameter of bore or tube [m].
func (l *Launcher) mouth() float64 {
	if l.Barrel.Fit == pneumatics.OverTube {
		return l.Barrel.TubeInnerDiameter.High
	}
	return l.Barrel.Bore.High
}

// gridMesh reads the mesh [m] of the control "grid of N mm".
func gridMesh(control string) (mesh float64, ok bool) {
	text, ok := strings.CutPrefix(control, "grid of ")
	if !ok {
		return 0, false
	}
	text, ok = strings.CutSuffix(text, " mm")
	if !ok {
		return 0, false
	}
	mm, err := strconv.ParseFloat(text, 64)
	return mm / 1e3, err == nil
}

// anythingEnters tells whether at least one object gets in.
func (l *Launcher) anythingEnters() bool {
	for _, o := range l.allObjects() {
		if o.Diameter <= l.admits() {
			return true
		}
	}
	return l.admits() >= l.mouth() // a plug that fits exactly
}

// allObjects are the listed objects and the builder's own.
func (l *Launcher) allObjects() []MisuseObject {
	out := MisuseObjects()
	for _, o := range l.Objects {
		out = append(out, MisuseObject{Name: o.Name, Diameter: o.Diameter.Low, Length: o.Length.Nominal, Mass: o.Mass.High, Document: "the design"})
	}
	return out
}
