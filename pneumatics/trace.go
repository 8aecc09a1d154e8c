package pneumatics

import "math"

func newTrace(samples, volumes int) Trace {
	row := func() []float64 { return make([]float64, 0, samples) }
	t := Trace{Time: row(), Position: row(), Speed: row(), Barrel: row(),
		Volumes: make([][]float64, volumes), Temperatures: make([][]float64, volumes)}
	for i := range volumes {
		t.Volumes[i], t.Temperatures[i] = row(), row()
	}
	return t
}

// sampleTime is the time of a sample: equally spaced from 0 to the trace's end.
func (s *Sim) sampleTime(i int) float64 {
	end := s.e.o.TraceEnd
	if end <= 0 {
		end = s.e.until
	}
	if i > 0 && i == s.e.o.Samples-1 {
		return end // exactly: a sample that rounding puts behind the end is never taken
	}
	return end * float64(i) / float64(max(s.e.o.Samples-1, 1))
}

// nextSample is the time of the next sample that is still to be taken. The
// integrator stops there, so a trace costs steps but no accuracy.
func (s *Sim) nextSample() float64 {
	if s.sampled == 0 {
		s.sample()
	}
	if s.sampled >= s.e.o.Samples {
		return math.Inf(1)
	}
	return s.sampleTime(s.sampled)
}

// sample records the state if a sample is due.
func (s *Sim) sample() {
	e, tr := &s.e, &s.r.Trace
	if s.sampled >= e.o.Samples || s.solver.Time() < s.sampleTime(s.sampled) {
		return
	}
	y := s.solver.State()
	e.conditions(y)
	tr.Time = append(tr.Time, s.solver.Time())
	for i := range tr.Volumes {
		tr.Volumes[i] = append(tr.Volumes[i], e.p[i])
		tr.Temperatures[i] = append(tr.Temperatures[i], e.temp[i])
	}
	x, v, p := 0.0, 0.0, e.pa
	if e.bar >= 0 {
		x, v, p = y[e.iX], y[e.iX+1], e.p[e.bar]
	}
	tr.Position = append(tr.Position, x)
	tr.Speed = append(tr.Speed, v)
	tr.Barrel = append(tr.Barrel, p)
	s.sampled++
}
