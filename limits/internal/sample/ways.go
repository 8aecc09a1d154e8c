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

// MakeQuickExhaust puts a quick-exhaust valve between an inlet volume of 20 mL and a volume,
// whose exhaust leads to a place. The new paths come last.
func MakeQuickExhaust(l *launcher.Launcher, outlet, to string) {
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "line", Volume: launcher.Exact("", 20*Millilitres)})
	l.Paths = append(l.Paths,
		launcher.PathSpec{Name: "quick", Way: launcher.QuickInlet, Other: "quick.exhaust", From: "line", To: outlet, Kind: pneumatics.Check,
			Flow: Orifice(2e-3, 0.7), CrackingPressure: launcher.Exact("", 4e3)},
		launcher.PathSpec{Name: "quick.exhaust", Way: launcher.QuickOutlet, Other: "quick", From: outlet, To: to,
			Kind: pneumatics.QuickExhaust, Flow: Orifice(6e-3, 0.7), SeatShare: launcher.Exact("", 0.3), OpensAt: launcher.Exact("", 0)})
}
