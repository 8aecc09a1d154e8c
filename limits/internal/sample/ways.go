package sample

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// MakeThreeWay makes a path's valve one with a third port that leads to a place: one
// body, two paths, the one open where the other is shut. The new path comes last.
func MakeThreeWay(l *launcher.Launcher, name, to string, exhaust launcher.FlowSpec) {
	p := PathNamed(l, name)
	p.Way, p.Other = launcher.ThreeWay, name+".exhaust"
	out := launcher.PathSpec{Name: p.Other, Way: launcher.ThreeWayExhaust, Other: name, From: p.To, To: to, Kind: p.Kind, Flow: exhaust,
		OpenIn: pneumatics.SetOf(pneumatics.States()...) &^ p.OpenIn, OpeningTime: p.ClosingTime, ClosingTime: p.OpeningTime, Pulse: p.Pulse}
	out.Unpowered = [...]pneumatics.Position{pneumatics.Open, pneumatics.Closed, pneumatics.Stays}[p.Unpowered]
	l.Paths = append(l.Paths, out)
}
