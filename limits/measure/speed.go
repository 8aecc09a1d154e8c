package measure

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics/flight"
	"puffproof/pneumatics/flow"
)

// The errors of readings that a log does not state, as half-widths (common
// practice, no source).
const (
	DefaultSpeedError = 0.02  // of a chronograph, relative, systematic [-]
	placeError        = 0.02  // of a distance paced off with a tape, systematic [m]
	spanError         = 0.02  // of a length seen in a picture, relative, systematic [-]
	frameError        = 0.5   // of each end of a count of frames [frames]
	rateError         = 0.005 // of a frame rate, relative, systematic [-]
	levelError        = math.Pi / 180
	heightError       = 0.01 // of a muzzle's height, systematic [m]
	spotError         = 0.03 // of the place of an impact, random [m]
	watchError        = 0.10 // of a stopwatch, random [s]
	watchLag          = 0.05 // of the person who presses it, systematic [s]
	poleError         = 0.05 // of a height read off a pole, random [m]
	poleSight         = 0.03 // of the line of sight to it, relative, systematic [-]
	soundError        = 2e-3 // of the time between two sounds, random [s]
	airError          = 0.04 // of the air's density, relative, systematic [-]
)

// ShotSpeed is one shot with the speed at the muzzle that follows from it.
type ShotSpeed struct {
	Shot       Shot
	Speed      float64 // at the muzzle [m/s]; NaN: misfire, or nothing to convert
	Random     float64 // standard deviation of one shot's reading [m/s]
	Systematic float64 // bound that no repeating lowers [m/s]
	Parts      []ErrorPart
	Conversion finding.Text // how the speed follows from the reading
	Trouble    finding.Text // why there is none
	Group      int          // index in Findings.Groups; -1: none
}

// airDensity is that of the ambient air at a temperature [K]; 0: the design's.
func airDensity(l *launcher.Launcher, temperature float64) float64 {
	if temperature == 0 {
		temperature = l.Ambient.Temperature.Nominal
	}
	return flow.Air().Density(l.Ambient.Pressure.Nominal, temperature)
}

// flyingDiameter is the diameter that meets the air [m].
func flyingDiameter(l *launcher.Launcher) launcher.Band {
	if l.Projectile.Diameter.Set {
		return l.Projectile.Diameter
	}
	return l.Projectile.InsideDiameter
}

// Decay is the constant of the loss of speed to drag [1/m] with its error.
func Decay(l *launcher.Launcher, temperature float64) errorSource {
	mass, drag, d := l.Projectile.Mass, dragBand(l), flyingDiameter(l)
	half := func(b launcher.Band) float64 {
		if b.Nominal == 0 {
			return 0
		}
		return b.Width() / (2 * b.Nominal)
	}
	k := flight.Decay(airDensity(l, temperature), launcher.Circle(d.Nominal), drag.Nominal, mass.Nominal)
	return errorSource{"drag", k, k * (half(drag) + 2*half(d) + half(mass) + airError), systematic}
}

// SpeedOf converts a reading to the speed at the muzzle.
func SpeedOf(l *launcher.Launcher, s *Shot) ShotSpeed {
	out := ShotSpeed{Shot: *s, Speed: math.NaN(), Group: -1}
	if s.Misfire {
		out.Trouble = finding.Words("misfire: kept in the log, no speed")
		return out
	}
	var f func(x []float64) float64
	var in []errorSource
	switch s.Method {
	case Chronograph:
		f, in, out.Conversion = byChronograph(l, s)
	case Video:
		f, in, out.Conversion = byVideo(l, s)
	case HorizontalShot:
		f, in, out.Conversion = byImpact(l, s)
	case UpwardTime:
		f, in, out.Conversion = byReturn(l, s)
	case UpwardHeight:
		f, in, out.Conversion = byHeight(l, s)
	case SoundToBoard:
		f, in, out.Conversion = bySound(l, s)
	default:
		out.Trouble = finding.Words("no reading of a speed")
		return out
	}
	u := propagate(f, in)
	if !(u.value > 0) || math.IsInf(u.value, 0) || math.IsNaN(u.random+u.systematic) {
		out.Trouble = finding.Say("no speed gives this reading: %s", s.Method)
		return out
	}
	out.Speed, out.Random, out.Systematic, out.Parts = u.value, u.random, u.systematic, u.parts
	return out
}

// byChronograph: v0 = v exp(k x).
func byChronograph(l *launcher.Launcher, s *Shot) (func([]float64) float64, []errorSource, finding.Text) {
	share := s.SpeedError
	if share == 0 {
		share = DefaultSpeedError
	}
	in := []errorSource{{"chronograph", s.Speed, share * s.Speed, systematic},
		{"distance", s.Distance, placeError, systematic}, Decay(l, s.Temperature)}
	return func(x []float64) float64 { return flight.SpeedBefore(x[0], x[2], math.Max(0, x[1])) }, in,
		finding.Say("v exp(k x), k = %s, x = %s", finding.PerMetre.Of(in[2].Value, 3), finding.Metres.Of(s.Distance, 3))
}

// byVideo: v0 = (exp(k b) - exp(k a))/(k t), t = frames/rate.
func byVideo(l *launcher.Launcher, s *Shot) (func([]float64) float64, []errorSource, finding.Text) {
	first := s.FrameError
	if first == 0 {
		first = frameError
	}
	in := []errorSource{{"first frame", s.Frames, first, random}, {"last frame", 0, frameError, random},
		{"frame rate", s.FrameRate, rateError * s.FrameRate, systematic},
		{"span", s.Span, spanError*s.Span + 0.005, systematic}, {"start", s.Start, 0, systematic}, Decay(l, s.Temperature)}
	return func(x []float64) float64 {
			n := x[0] + x[1]
			if n <= 0 {
				return math.NaN()
			}
			return flight.MuzzleSpeedOver(x[4], x[4]+x[3], n/x[2], x[5])
		}, in, finding.Say("(exp(k b) - exp(k a))/(k t), t = %g/%g s, a = %s, b = %s, k = %s", s.Frames, s.FrameRate,
			finding.Metres.Of(s.Start, 3), finding.Metres.Of(s.Start+s.Span, 3), finding.PerMetre.Of(in[5].Value, 3))
}

// byImpact: the speed whose flight from the level muzzle hits the ground at the
// measured distance.
func byImpact(l *launcher.Launcher, s *Shot) (func([]float64) float64, []errorSource, finding.Text) {
	k := Decay(l, s.Temperature)
	in := []errorSource{{"impact", s.Distance, spotError, random}, {"muzzle height", s.Height, heightError, systematic},
		{"level of the barrel", 0, levelError, systematic}, k}
	d, m := flyingDiameter(l).Nominal, l.Projectile.Mass.Nominal
	rho := airDensity(l, s.Temperature)
	return func(x []float64) float64 {
			if x[0] <= 0 || x[1] <= 0 {
				return math.NaN()
			}
			cd := 2 * m * x[3] / (rho * launcher.Circle(d))
			body := flight.Body{Mass: m, Diameter: d, Drag: flight.Constant(cd)}
			return rootSpeed(x[0]*math.Sqrt(flight.Gravity/(2*x[1])), func(v float64) float64 {
				return flight.Fly(body, flight.Air{Density: rho}, flight.Throw{Speed: v, Elevation: x[2], Height: x[1]}, 0).Landing.X - x[0]
			})
		}, in, finding.Say("flight with drag from %s height to %s, k = %s", finding.Metres.Of(s.Height, 3), finding.Metres.Of(s.Distance, 3),
			finding.PerMetre.Of(k.Value, 3))
}

// byReturn: t = (vt/g) [atan(v0/vt) + arcosh(exp(g (h + drop)/vt^2))].
func byReturn(l *launcher.Launcher, s *Shot) (func([]float64) float64, []errorSource, finding.Text) {
	k := Decay(l, s.Temperature)
	in := []errorSource{{"stopwatch", s.Interval, watchError, random}, {"reaction", 0, watchLag, systematic},
		{"muzzle height", s.Height, heightError, systematic}, k}
	return func(x []float64) float64 {
		t := x[0] + x[1]
		if t <= 0 {
			return math.NaN()
		}
		vt := flight.Terminal(x[3], flight.Gravity)
		return rootSpeed(flight.Gravity*t/2, func(v float64) float64 {
			return flight.ReturnTime(v, vt, flight.Gravity, math.Max(0, x[2])) - t
		})
	}, in, finding.Say("up and down with drag in %s, k = %s", finding.Seconds.Of(s.Interval, 3), finding.PerMetre.Of(k.Value, 3))
}

// byHeight: v0 = vt sqrt(exp(2 g h/vt^2) - 1).
func byHeight(l *launcher.Launcher, s *Shot) (func([]float64) float64, []errorSource, finding.Text) {
	k := Decay(l, s.Temperature)
	in := []errorSource{{"pole", s.Height, poleError, random}, {"line of sight", 1, poleSight, systematic}, k}
	return func(x []float64) float64 {
		if x[0] <= 0 {
			return math.NaN()
		}
		return flight.SpeedForHeight(x[0]*x[1], flight.Terminal(x[2], flight.Gravity), flight.Gravity)
	}, in, finding.Say("height %s with drag, k = %s", finding.Metres.Of(s.Height, 3), finding.PerMetre.Of(k.Value, 3))
}

// bySound: the time of flight is the recorded time less the sound's way back
// (microphone at the muzzle), or more by the sound's way (at the board).
func bySound(l *launcher.Launcher, s *Shot) (func([]float64) float64, []errorSource, finding.Text) {
	k := Decay(l, s.Temperature)
	temperature := s.Temperature
	if temperature == 0 {
		temperature = l.Ambient.Temperature.Nominal
	}
	c, sign := flow.Air().SoundSpeed(temperature), -1.0
	if s.Microphone == AtBoard {
		sign = +1
	}
	in := []errorSource{{"sounds", s.Interval, soundError, random}, {"board", s.Distance, placeError, systematic},
		{"speed of sound", c, 0.02 * c, systematic}, k}
	return func(x []float64) float64 {
			t := x[0] + sign*x[1]/x[2]
			if t <= 0 {
				return math.NaN()
			}
			return flight.MuzzleSpeedOver(0, x[1], t, x[3])
		}, in, finding.Say("board at %s, sound %s, k = %s", finding.Metres.Of(s.Distance, 3), finding.Speed(c).In(finding.Decimals, 0),
			finding.PerMetre.Of(k.Value, 3))
}

// rootSpeed finds the speed at which a rising function passes zero, from a guess
// that is not above it: doubling, then bisection with secants. NaN: no such
// speed up to 200 m/s.
func rootSpeed(guess float64, f func(v float64) float64) float64 {
	low, high := 0.5*guess, guess
	for f(low) > 0 {
		if low /= 2; low < 1e-3 {
			return math.NaN()
		}
	}
	flow, fhigh := f(low), f(high)
	for fhigh < 0 {
		low, flow = high, fhigh
		if high *= 1.5; high > 200 {
			return math.NaN()
		}
		fhigh = f(high)
	}
	for range 60 {
		if high-low < 1e-9*high {
			break
		}
		v := low - flow*(high-low)/(fhigh-flow)
		if margin := 0.02 * (high - low); !(v > low+margin && v < high-margin) {
			v = (low + high) / 2
		}
		if fv := f(v); fv < 0 {
			low, flow = v, fv
		} else {
			high, fhigh = v, fv
		}
	}
	return (low + high) / 2
}

// dragBand is the drag coefficient, an assumed one where none is stated.
func dragBand(l *launcher.Launcher) launcher.Band {
	if d := l.Projectile.Drag; d.Set {
		return d
	}
	return launcher.Band{Set: true, Key: "projectile.drag_coefficient", Low: 0, Nominal: dragUnstatedHigh / 2, High: dragUnstatedHigh,
		Assumed: true, Reason: finding.Words("not stated: from no drag to a flat disc's")}
}
