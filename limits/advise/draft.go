package advise

import (
	"slices"
	"strings"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// draft gathers changes of one design.
type draft struct {
	design Design
	l      *launcher.Launcher
	keep   []string
	list   []Change
	wanted []string // keys that would have been changed, were they not kept
}

func newDraft(d Design, keep []string) *draft { return &draft{design: d, l: d.Launcher(), keep: keep} }

// keeps tells whether the builder will not change a key: it, its table or its part is named.
func keeps(keep []string, key string) bool {
	parts := strings.Split(key, ".")
	return slices.ContainsFunc(keep, func(k string) bool {
		return k == key || strings.HasPrefix(key, k+".") || len(parts) > 2 && parts[1] == k
	})
}

// set changes a key, unless it is kept or says that already.
func (b *draft) set(c Change) {
	stated := b.design.Stated(c.Key)
	if strings.Trim(stated, `"`) == c.To.Text() && stated != "" {
		return
	}
	if keeps(b.keep, c.Key) && stated != "" {
		b.wanted = append(b.wanted, c.Key)
		return
	}
	b.list = append(b.list, c)
}

// add gives a key that does not stand a value.
func (b *draft) add(c Change) {
	if b.design.Stated(c.Key) == "" {
		b.list = append(b.list, c)
	}
}

// apply makes the changes, and goes on from there.
func (b *draft) apply(all *[]Change) error {
	if len(b.list) == 0 {
		return nil
	}
	d, err := b.design.With(b.list)
	if err != nil {
		return err
	}
	*all = merged(*all, b.list)
	b.design, b.l, b.list = d, d.Launcher(), nil
	return nil
}

// merged are the changes of both, of one key the later.
func merged(before, later []Change) []Change {
	out := slices.Clone(before)
	for _, c := range later {
		if i := slices.IndexFunc(out, func(o Change) bool { return o.Key == c.Key }); i >= 0 {
			if out[i].Part != "" { // what is bought first is what is turned then
				c.Part = out[i].Part
			}
			if out[i].Sort == Bought {
				c.Sort = Bought
			}
			if c.Why == "" {
				c.Why = out[i].Why
			}
			out[i] = c
			continue
		}
		out = append(out, c)
	}
	return out
}

// electric tells that the launcher has current: a valve that it moves, or a switch.
func electric(l *launcher.Launcher) bool {
	return l.Switch != nil || slices.ContainsFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Kind == pneumatics.Valve })
}

// fires is the path that lets the air into the barrel; nil: none.
func fires(l *launcher.Launcher) *launcher.PathSpec {
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.To == "barrel" && p.From != "atmosphere" && p.OpenIn.Has(pneumatics.Firing) {
			return p
		}
	}
	for i := range l.Paths {
		if p := &l.Paths[i]; p.To == "barrel" && p.From != "atmosphere" {
			return p
		}
	}
	return nil
}

// volumeNamed is a volume of the launcher; nil: none.
func volumeNamed(l *launcher.Launcher, name string) *launcher.VolumeSpec {
	for i := range l.Volumes {
		if l.Volumes[i].Name == name {
			return &l.Volumes[i]
		}
	}
	return nil
}

// free is a name that no part has yet.
func free(l *launcher.Launcher, name string) string {
	for _, try := range []string{name, name + "_2", name + "_3", name + "_4"} {
		if l.PathIndex(try) < 0 && volumeNamed(l, try) == nil {
			return try
		}
	}
	return name + "_5"
}

// hasRelief tells that a relief valve stands on the volume that the supply feeds.
func hasRelief(l *launcher.Launcher) bool {
	return l.Supply != nil && slices.ContainsFunc(l.Paths, func(p launcher.PathSpec) bool {
		return p.Kind == pneumatics.Relief && p.From == l.Supply.Feeds
	})
}
