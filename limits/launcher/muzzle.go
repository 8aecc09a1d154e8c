package launcher

import (
	"slices"
	"strconv"
	"strings"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/pneumatics"
)

// Opening is the largest thing that gets in, in words.
func (l *Launcher) Opening() finding.Text {
	return finding.Say("the opening takes things up to %s", finding.Millimetre(l.Admits()))
}

// Admits is the diameter of the largest object that gets in [m]: bore or tube,
// or what a declared guard or grid lets in.
func (l *Launcher) Admits() float64 {
	b := &l.Barrel
	d := l.Mouth()
	if b.MuzzleAdmits.Set {
		d = min(d, b.MuzzleAdmits.High)
	}
	for _, c := range b.ObjectControl {
		if mesh, ok := GridMesh(c); ok {
			d = min(d, mesh)
		}
	}
	return d
}

// Mouth is the diameter of bore or tube [m].
func (l *Launcher) Mouth() float64 {
	if l.Barrel.Fit == pneumatics.OverTube {
		return l.Barrel.TubeInnerDiameter.High
	}
	return l.Barrel.Bore.High
}

// SpaceBehindProjectile is the most air that can be behind a projectile in the barrel, at
// the muzzle end of its travel, with the hoses that open into the barrel [m3].
func (l *Launcher) SpaceBehindProjectile() float64 {
	b := &l.Barrel
	space := b.DeadVolume.High
	if b.Fit == pneumatics.OverTube {
		space += Circle(l.Projectile.InsideDiameter.High) * b.Engagement.High
	} else {
		space += Circle(b.Bore.High) * b.Travel.High
	}
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Hose != nil && p.hoseSide() == "barrel" {
			space += p.MostHoseAir()
		}
	}
	return space
}

// GridMesh reads the mesh [m] of the control "grid of N mm".
func GridMesh(control string) (mesh float64, ok bool) {
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

// AnythingEnters tells whether at least one object gets in.
func (l *Launcher) AnythingEnters() bool {
	return l.Admits() >= l.Mouth() || // a plug that fits exactly
		slices.ContainsFunc(l.AllObjects(), func(o benchmark.MisuseObject) bool { return o.Diameter <= l.Admits() })
}

// AllObjects are the listed objects and the builder's own.
func (l *Launcher) AllObjects() []benchmark.MisuseObject {
	out := benchmark.MisuseObjects()
	for i := range l.Objects {
		out = append(out, l.Objects[i].misused())
	}
	return out
}

// OverTube are the builder's own objects that are wide enough to be put over the launch tube in the rocket's place.
func (l *Launcher) OverTube() (out []benchmark.MisuseObject) {
	for i := range l.Objects {
		if o := &l.Objects[i]; l.Barrel.Fit == pneumatics.OverTube && o.Diameter.High > l.Barrel.TubeOuterDiameter.Low {
			out = append(out, o.misused())
		}
	}
	return out
}

// misused is an object as it is shot.
func (o *ObjectSpec) misused() benchmark.MisuseObject {
	return benchmark.MisuseObject{Name: o.Name, Diameter: o.Diameter.Low, Length: o.Length.Nominal, Mass: o.Mass.High, Document: "the design"}
}
