package setpoint

import (
	"testing"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

func BenchmarkSetpoint(b *testing.B) {
	for name, l := range map[string]*launcher.Launcher{"whale": sample.Whale(), "rocket": sample.Rocket()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				settingOf(b, l)
			}
		})
	}
}
