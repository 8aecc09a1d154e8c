package paper

import (
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// part is a part as a person sees it: a path, with the exhaust way of its body where
// it has one.
type part struct {
	path    *launcher.PathSpec
	exhaust *launcher.PathSpec // nil: none
}

// partsOf lists the parts between volumes in the order of the design file.
func partsOf(l *launcher.Launcher) (out []part) {
	for i := range l.Paths {
		if l.Paths[i].Way.Exhausts() {
			continue // of a part that is listed
		}
		one := part{path: &l.Paths[i]}
		if k := l.OtherWay(i); k >= 0 {
			one.exhaust = &l.Paths[k]
		}
		out = append(out, one)
	}
	return out
}

// what says what a part is, with where its exhaust leads.
func (p part) what() string {
	t := kindText(p.path)
	switch p.path.Way {
	case launcher.QuickInlet:
		t += "; once its inlet has emptied its outlet empties into its exhaust, which leads to " + document.AsGiven(p.exhaust.To).String()
	case launcher.ThreeWay:
		t += "; where its inlet is shut its outlet is joined to its exhaust, which leads to " + document.AsGiven(p.exhaust.To).String()
	}
	return t
}

func partKind(p *launcher.PathSpec) figure.PartKind {
	switch p.Kind {
	case pneumatics.Hose:
		return figure.HoseSymbol
	case pneumatics.HandValve:
		if p.Way == launcher.ThreeWay {
			return figure.ThreeWayHandSymbol
		}
		return figure.HandValveSymbol
	case pneumatics.Check:
		if p.Way == launcher.QuickInlet {
			return figure.QuickExhaustSymbol
		}
		return figure.CheckSymbol
	case pneumatics.Relief:
		return figure.ReliefSymbol
	case pneumatics.Regulator:
		return figure.RegulatorSymbol
	case pneumatics.Valve:
		if p.Way == launcher.ThreeWay {
			return [...]figure.PartKind{figure.ThreeWayClosedSymbol, figure.ThreeWayOpenSymbol, figure.ThreeWayStaysSymbol}[p.Unpowered]
		}
		return [...]figure.PartKind{figure.ValveClosedSymbol, figure.ValveOpenSymbol, figure.ValveStaysSymbol}[p.Unpowered]
	}
	return figure.OrificeSymbol
}

// kindText says what a path is, and for a valve when it is open.
func kindText(p *launcher.PathSpec) string {
	t := p.Kind.String()
	switch {
	case p.Way == launcher.ThreeWay:
		t = "three-way " + t
	case p.Way == launcher.QuickInlet:
		t = "quick-exhaust valve"
	case p.Diaphragm():
		t = "diaphragm " + t
	case p.Kind == pneumatics.Relief:
		t = "relief valve"
	}
	if p.Kind != pneumatics.Valve && p.Kind != pneumatics.HandValve {
		return t
	}
	var open []string
	for _, s := range pneumatics.States() {
		if p.OpenIn.Has(s) {
			open = append(open, s.String())
		}
	}
	if len(open) == 0 {
		t += ", open in no state"
	} else {
		t += ", open in " + strings.Join(open, ", ")
	}
	if p.Kind == pneumatics.Valve {
		t += "; without power " + p.Unpowered.String()
	}
	return t
}
