package app

import (
	"errors"

	"puffproof/cmd/puffproof/internal/unit"
)

// readGauge reads a pressure as the command line gives it [Pa gauge]. An
// absolute pressure is counted from ambient [Pa absolute].
func readGauge(text string, ambient float64) (float64, error) {
	q, err := unit.Parse(text, unit.Pressure)
	switch {
	case err != nil:
		return 0, err
	case q.Low != q.High:
		return 0, errors.New("a start pressure is one figure, without a tolerance")
	case q.Reference == unit.Absolute:
		return q.Nominal - ambient, nil
	}
	return q.Nominal, nil
}
