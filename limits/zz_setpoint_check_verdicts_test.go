package limits

import (
	"testing"
)

func BenchmarkSetpoint(b *testing.B) {
	for name, l := range map[string]*Launcher{"whale": whale(), "rocket": rocket()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				setpoint(b, l)
			}
		})
	}
}
