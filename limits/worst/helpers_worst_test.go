package worst

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

func circuitOf(l *launcher.Launcher) *pneumatics.Circuit {
	c := new(pneumatics.Circuit)
	l.Fill(c)
	return c
}
