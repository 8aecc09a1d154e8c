package sample

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Branched is drawn by hand: tank, by a check valve, to dose, by the firing valve, to
// the barrel; a regulator from dose to side; a valve that opens while firing only
// between tank and buffer; one that opens while off only between tank and store; a
// relief valve and a vent that opens while off on tank.
func Branched() *launcher.Launcher {
	path := func(p launcher.PathSpec, name, from, to string) launcher.PathSpec {
		p.Name, p.From, p.To = name, from, to
		return p
	}
	l := TwoTanks(
		path(launcher.PathSpec{Kind: pneumatics.Check}, "feed", "tank", "dose"),
		path(Regulator(0.3*Bars, 0), "regulator", "dose", "side"),
		path(ValveIn(pneumatics.Firing), "buffer valve", "tank", "buffer"),
		path(ValveIn(pneumatics.Off), "store valve", "store", "tank"),
		path(launcher.PathSpec{Kind: pneumatics.Relief}, "relief", "tank", "atmosphere"),
		path(ValveIn(pneumatics.Off), "vent", "tank", "atmosphere"),
	)
	for _, name := range []string{"side", "buffer", "store"} {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: name, Volume: launcher.Exact("volumes."+name+".volume", 1e-4)})
	}
	return l
}

// VolumesOf names the volumes of a launcher that are marked.
func VolumesOf(l *launcher.Launcher, marked []bool) (names []string) {
	for i, yes := range marked {
		if yes {
			names = append(names, l.Volumes[i].Name)
		}
	}
	return names
}
