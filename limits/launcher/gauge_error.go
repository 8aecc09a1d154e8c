package launcher

import "puffproof/limits/finding"

// The gauge that is assumed where none is stated on the sensed volume: of unknown
// class, which counts as class 4 (common practice, no source), with a range of twice
// the cut-out, and never better than 50 mbar.
const (
	leastGaugeError = 0.05e5 // [Pa]
	gaugeRangeShare = 2.0
)

// AssumedGaugeError is the error of a gauge [Pa] of which nothing is stated, for a
// switch that is set to cutOut [Pa gauge].
func AssumedGaugeError(cutOut float64) float64 {
	return max(leastGaugeError, unknownClass/100*gaugeRangeShare*cutOut)
}

// AssumedGaugeReason says where AssumedGaugeError comes from.
func AssumedGaugeReason() finding.Text {
	return finding.Say("no gauge on the sensed volume; assumed class 4 of a range of twice the cut-out, at least %s (common practice, "+
		"no source)", finding.Bars.Of(leastGaugeError, 1))
}

// GaugeOn is the first gauge with a range or an error on a volume; nil: none.
func (l *Launcher) GaugeOn(volume string) *GaugeSpec {
	for i := range l.Gauges {
		if g := &l.Gauges[i]; g.On == volume && (g.Range.Set || g.Error.Set) {
			return g
		}
	}
	return nil
}

// AssumedGaugeError is the band of the gauge on a volume, or of an assumed one.
func (l *Launcher) AssumedGaugeError(volume string, cutOut float64) Band {
	size, why := AssumedGaugeError(cutOut), AssumedGaugeReason()
	if g := l.GaugeOn(volume); g != nil {
		var of string
		size, of = g.ErrorSize()
		why = finding.Words(of)
	}
	return Band{Set: true, Key: "pressure_switch.gauge_error", Low: -size, High: size, Assumed: true, Reason: why}
}

// SensedGaugeError is the largest error of the gauge on the sensed volume, or of an assumed
// one [Pa], at the top of the switch's cut-out. A reading may be off by as much as the
// switch that was set by it.
func (l *Launcher) SensedGaugeError() float64 {
	cutOut := 0.0
	if l.Switch != nil {
		cutOut = l.Switch.CutOut.High
	}
	return l.AssumedGaugeError(l.Sensed(), cutOut).High
}

// GaugeErrorFor is the gauge's error at another cut-out [Pa gauge]: that of an
// assumed gauge grows with it, any other stays.
func (l *Launcher) GaugeErrorFor(stated Band, cutOut float64) Band {
	if stated.Set && stated.Assumed && l.GaugeOn(l.Switch.Senses) == nil {
		size := max(stated.High, AssumedGaugeError(cutOut))
		stated.Low, stated.High = -size, size
	}
	return stated
}
