package launcher

import "slices"

// Clone copies the launcher so deeply that its bands can be moved without
// touching the original.
func (l *Launcher) Clone() *Launcher {
	c := l.withOwnPaths()
	c.Volumes = slices.Clone(l.Volumes)
	c.Switch = copyOf(l.Switch)
	c.Gauges = slices.Clone(l.Gauges)
	c.Venting = copyOf(l.Venting)
	c.Event = copyOf(l.Event)
	c.Barrel.ObjectControl = slices.Clone(l.Barrel.ObjectControl)
	c.Objects = slices.Clone(l.Objects)
	c.Checklist = slices.Clone(l.Checklist)
	c.Altered = slices.Clone(l.Altered)
	c.Declared, c.Narrow = slices.Clone(l.Declared), slices.Clone(l.Narrow)
	c.TooGood = slices.Clone(l.TooGood)
	c.Template, c.ToFind = slices.Clone(l.Template), slices.Clone(l.ToFind)
	return c
}

// withOwnPaths is a launcher of which paths, hoses and supply may be changed, and nothing else.
func (l *Launcher) withOwnPaths() *Launcher {
	c := *l
	c.Paths = slices.Clone(l.Paths)
	for i := range c.Paths {
		c.Paths[i].Hose = copyOf(l.Paths[i].Hose)
	}
	c.Supply = copyOf(l.Supply)
	if c.Supply != nil {
		c.Supply.Curve, c.Supply.CurveSaid = slices.Clone(l.Supply.Curve), slices.Clone(l.Supply.CurveSaid)
	}
	return &c
}

func copyOf[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}
