package measure

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics/flight"
	"puffproof/pneumatics/flow"
)

// within draws a value evenly from value ± half.
func within(r *rand.Rand, value, half float64) float64 { return value + half*(2*r.Float64()-1) }

// Round trip: a true muzzle speed, the reading it gives in a world whose
// systematic errors are anywhere within what is stated, converted back. The
// stated uncertainty must hold in 95 % of tries. It adds systematic effects
// straight, so it holds in more; below 95 % is a fault. The flights are computed
// forward here, by the closed forms or by flight.Fly, never by the conversion.
func TestMethodsComeBack(t *testing.T) {
	t.Parallel()
	l := sample.Plain(sample.Measured)
	tries := 100
	if os.Getenv("PUFFPROOF_MORE") != "" {
		tries = 300
	}
	rho := airDensity(l, 293.15)
	type world struct{ k, cd, mass, d float64 }
	draw := func(r *rand.Rand) world {
		w := world{cd: within(r, 0.5, 0.1), mass: within(r, 4e-3, 1e-4), d: 0.041}
		w.k = flight.Decay(rho*within(r, 1, airError), launcher.Circle(w.d), w.cd, w.mass)
		return w
	}
	for _, c := range []struct {
		name string
		read func(r *rand.Rand, w world, v float64) Shot
	}{
		{"chronograph", func(r *rand.Rand, w world, v float64) Shot {
			const x = 0.5
			return Shot{Method: Chronograph, Distance: x, Speed: flight.SpeedAt(v, w.k, within(r, x, placeError)) * within(r, 1, DefaultSpeedError)}
		}},
		{"video", func(r *rand.Rand, w world, v float64) Shot {
			const rate, span, start = 240, 1.0, 0.1
			real := span * within(r, 1, spanError)
			t := flight.TimeOver(v, w.k, start+real) - flight.TimeOver(v, w.k, start)
			return Shot{Method: Video, FrameRate: rate, Span: span, Start: start,
				Frames: math.Round(t*rate*within(r, 1, rateError) + within(r, 0, frameError))}
		}},
		{"horizontal shot", func(r *rand.Rand, w world, v float64) Shot {
			const h = 1.2
			f := flight.Fly(flight.Body{Mass: w.mass, Diameter: w.d, Drag: flight.Constant(2 * w.mass * w.k / (rho * launcher.Circle(w.d)))},
				flight.Air{Density: rho}, flight.Throw{Speed: v, Elevation: within(r, 0, levelError), Height: within(r, h, heightError)}, 0)
			return Shot{Method: HorizontalShot, Height: h, Distance: within(r, f.Landing.X, spotError)}
		}},
		{"straight up, timed", func(r *rand.Rand, w world, v float64) Shot {
			const h = 1.0
			t := flight.ReturnTime(v, flight.Terminal(w.k, flight.Gravity), flight.Gravity, within(r, h, heightError))
			return Shot{Method: UpwardTime, Height: h, Interval: within(r, t, watchError) + within(r, 0, watchLag)}
		}},
		{"straight up, height", func(r *rand.Rand, w world, v float64) Shot {
			h := flight.ApexHeight(v, flight.Terminal(w.k, flight.Gravity), flight.Gravity)
			return Shot{Method: UpwardHeight, Height: within(r, h, poleError) * within(r, 1, poleSight)}
		}},
		{"sound to a board", func(r *rand.Rand, w world, v float64) Shot {
			const x = 2.0
			real := within(r, x, placeError)
			t := flight.TimeOver(v, w.k, real) + real/(flow.Air().SoundSpeed(293.15)*within(r, 1, 0.02))
			return Shot{Method: SoundToBoard, Distance: x, Interval: within(r, t, soundError)}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 5))
			hits := 0
			for range tries {
				v := 3 + 9*r.Float64()
				s := c.read(r, draw(r), v)
				s.Temperature, s.Gauge = 293.15, 0.4*sample.Bars
				got := SpeedOf(l, &s)
				require.Empty(t, got.Trouble.String())
				if math.Abs(got.Speed-v) <= got.Systematic+2*got.Random {
					hits++
				}
			}
			assert.GreaterOrEqual(t, float64(hits)/float64(tries), 0.95)
			// A bound that says nothing would pass as well: it must stay useful.
			s := c.read(r, world{cd: 0.5, mass: 4e-3, d: 0.041, k: Decay(l, 293.15).Value}, 6)
			s.Temperature = 293.15
			got := SpeedOf(l, &s)
			assert.Less(t, got.Systematic+2*got.Random, 0.35*6.0)
		})
	}
}

// Without errors a reading comes back exactly: the formulas are inverses. 1e-6
// covers the root finder's 1e-9 and the flight's 1e-10 per step.
func TestConversionsInvert(t *testing.T) {
	l := sample.Plain(sample.Measured)
	k, v := Decay(l, 0).Value, 7.0
	vt := flight.Terminal(k, flight.Gravity)
	body := flight.Body{Mass: 4e-3, Diameter: 0.041, Drag: flight.Constant(0.5)}
	fall := flight.Fly(body, flight.Air{Density: airDensity(l, 0)}, flight.Throw{Speed: v, Height: 1.2}, 0)
	for _, s := range []Shot{
		{Method: Chronograph, Distance: 0.4, Speed: flight.SpeedAt(v, k, 0.4)},
		{Method: Video, FrameRate: 1000, Span: 1, Start: 0.2, Frames: 1000 * (flight.TimeOver(v, k, 1.2) - flight.TimeOver(v, k, 0.2))},
		{Method: HorizontalShot, Height: 1.2, Distance: fall.Landing.X},
		{Method: UpwardTime, Height: 1, Interval: flight.ReturnTime(v, vt, flight.Gravity, 1)},
		{Method: UpwardHeight, Height: flight.ApexHeight(v, vt, flight.Gravity)},
		{Method: SoundToBoard, Distance: 2, Interval: flight.TimeOver(v, k, 2) + 2/flow.Air().SoundSpeed(293.15)},
		{Method: SoundToBoard, Microphone: AtBoard, Distance: 2, Interval: flight.TimeOver(v, k, 2) - 2/flow.Air().SoundSpeed(293.15)},
	} {
		got := SpeedOf(l, &s)
		assert.InEpsilon(t, v, got.Speed, 1e-6, s.Method.String())
	}
}

// A reading that no speed can give is said, not turned into a number.
func TestImpossibleReadings(t *testing.T) {
	l := sample.Plain(sample.Measured)
	for _, s := range []Shot{
		{Method: SoundToBoard, Distance: 2, Interval: 0.001}, // faster than sound
		{Method: UpwardTime, Interval: 400},
		{},
	} {
		got := SpeedOf(l, &s)
		assert.True(t, math.IsNaN(got.Speed))
		assert.NotEmpty(t, got.Trouble.String())
	}
}
