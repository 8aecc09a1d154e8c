package flow

import "fmt"

// Range of validity of the perfect-gas model as package pneumatics uses it.
const (
	MaxGauge       = 10e5  // highest gauge pressure [Pa]
	MinTemperature = 250.0 // [K]
	MaxTemperature = 340.0 // [K]
)

// CheckRange reports why a state is outside the range of the perfect-gas model;
// nil where it is inside. The pressure is a gauge value [Pa].
func CheckRange(gauge, temperature float64) error {
	switch {
	case !(gauge <= MaxGauge):
		return fmt.Errorf("flow: %.4g bar gauge is above the model's range, at most %.4g bar gauge", gauge/1e5, MaxGauge/1e5)
	case !(temperature >= MinTemperature && temperature <= MaxTemperature):
		return fmt.Errorf("flow: %.4g K is outside the model's range, %.4g to %.4g K", temperature, MinTemperature, MaxTemperature)
	}
	return nil
}
