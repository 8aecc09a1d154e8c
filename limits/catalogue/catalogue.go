package catalogue

import (
	"slices"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Use is what a shot is computed from: where a band goes.
type Use uint8

// The uses. The bounds on a shot's energy are computed from the same.
const (
	InCircuit Use = 1 << iota // Fill writes it into the circuit
	InStarts                  // the pressures that a shot starts from follow from it
)

// Quantity is one entry of the catalogue of a launcher's bands: the band, and how a shot
// depends on it. One that is used and has two ends is a coordinate of every question
// about shots.
type Quantity struct {
	Band *launcher.Band // its Nominal is what a computation reads
	Key  string
	// Low and High are the ends that it runs over: those of the band, or wider.
	Nominal, Low, High float64
	Use                Use // 0: at this design no shot reads it
	// AtEnd says what takes one end of it besides, whatever its nominal value: the highest
	// start, the pressures before a shot, the launcher's own speed; "" nothing does.
	AtEnd string
	// Why says why no shot reads it; "" one does.
	Why string
	// Follows tells that another quantity moves it along.
	Follows bool
	was     launcher.Band // what Band was before any move
	with    []follower
}

// follower is a band that moves along with a quantity, over ends of its own.
type follower struct {
	band      *launcher.Band
	low, high float64
	was       launcher.Band
}

// Move puts a quantity at a fraction u of its way, 0 at Low and 1 at High.
func (q *Quantity) Move(u float64) {
	q.Band.Set, q.Band.Nominal = true, q.Value(u)
	for _, f := range q.with {
		f.band.Set, f.band.Nominal = true, f.low+u*(f.high-f.low)
	}
}

// Put moves a quantity to a value, which may lie beyond its ends.
func (q *Quantity) Put(v float64) {
	u := 0.0
	if q.High > q.Low {
		u = (v - q.Low) / (q.High - q.Low)
	}
	q.Move(u)
	q.Band.Nominal = v
}

// Restore puts the launcher back to what it was when it was catalogued.
func (q *Quantity) Restore() {
	*q.Band = q.was
	for _, f := range q.with {
		*f.band = f.was
	}
}

// Value is the value at a fraction u of the way.
func (q *Quantity) Value(u float64) float64 { return q.Low + u*(q.High-q.Low) }

// Fraction is where on its way a value lies, at most at its ends; 0 where it has no width.
func (q *Quantity) Fraction(v float64) float64 {
	if !(q.High > q.Low) {
		return 0
	}
	return min(max((v-q.Low)/(q.High-q.Low), 0), 1)
}

// spans tells whether a quantity has more than one value.
func (q *Quantity) spans() bool {
	return q.High > q.Low || slices.ContainsFunc(q.with, func(f follower) bool { return f.high > f.low })
}

// Coordinates are the quantities that a question about shots from up to top [Pa gauge]
// of the sensed volume must run over: the catalogue cut down by what can reach the
// barrel. Clones of a launcher have them in the same order.
func Coordinates(l *launcher.Launcher, top float64) []Quantity {
	all := Of(l, top)
	out := all[:0]
	for i := range all {
		if all[i].Use != 0 && all[i].spans() {
			out = append(out, all[i])
		}
	}
	return out
}

// ShotCoordinates are the Coordinates of normal operation.
func ShotCoordinates(l *launcher.Launcher) []Quantity {
	top, _ := l.SoakedHigh()
	return Coordinates(l, top)
}

// Stated are the ends that the design states of a quantity: those it runs over, but for
// the air's temperature, which runs up to the hottest.
func (q *Quantity) Stated() (low, high float64) {
	if q.was.Set {
		return q.was.Low, q.was.High
	}
	return q.Low, q.High
}

// Of lists every band of the design in the order of the design file, each once,
// with its use in shots from up to top [Pa gauge] of the sensed volume. There is no other
// list of bands.
func Of(l *launcher.Launcher, top float64) []Quantity { return newCatalogue(l, top).list }

func newCatalogue(l *launcher.Launcher, top float64) *catalogue {
	c := &catalogue{l: l, reach: l.ReachUpTo(top), list: make([]Quantity, 0, 64+8*len(l.Volumes)+24*len(l.Paths))}
	c.ambient()
	c.volumes()
	for i := range l.Paths {
		c.path(i)
	}
	c.supply()
	c.pressureSwitch()
	c.barrel()
	c.projectile()
	c.machine = len(c.list)
	c.surroundings()
	return c
}

// catalogue is one in the making.
type catalogue struct {
	l       *launcher.Launcher
	reach   launcher.Reach
	list    []Quantity
	machine int // how many of them belong to the machine itself
}

// Why a band is no coordinate, or why one end of it counts besides.
const (
	noWay         = "no way from it to the barrel is open during a shot"
	highestStart  = "shots start from up to the highest pressure that it allows"
	adiabaticShot = "a shot is over before the walls of the vessels warm its air"
	otherFit      = "the other fit has no such part"
	otherGap      = "the gap is stated by another quantity"
	withSet       = "it moves along with the relief valve's set pressure"
	takesUpper    = "a pressure at a fault; it takes its upper end"
	heldAgainst   = "it is what figures are held against"
	afterShot     = "it matters after the shot or between shots"
)

// read enters bands that go into a use where that is so, and else into none, why.
func (c *catalogue) read(is bool, use Use, why string, bands ...*launcher.Band) {
	if is {
		why = ""
	} else {
		use = 0
	}
	for _, b := range bands {
		c.list = append(c.list, Quantity{Band: b, Key: b.Key, Nominal: b.Nominal, Low: b.Low, High: b.High, Use: use, Why: why, was: *b})
		if !b.Set {
			c.list[len(c.list)-1].Use = 0
		}
	}
}

// derived enters a quantity that the design states by no band of its own.
func (c *catalogue) derived(b *launcher.Band, key string, nominal, low, high float64, use Use) {
	c.list = append(c.list, Quantity{Band: b, Key: key, Nominal: nominal, Low: low, High: high, Use: use, was: *b})
}

// unread enters bands that no shot reads.
func (c *catalogue) unread(why string, bands ...*launcher.Band) { c.read(false, 0, why, bands...) }

// last is the latest entry, to be completed.
func (c *catalogue) last() *Quantity { return &c.list[len(c.list)-1] }

// atEnd notes that one end of the latest n entries counts besides.
func (c *catalogue) atEnd(n int, why string) {
	for i := range n {
		c.list[len(c.list)-1-i].AtEnd = why
	}
}

// follow notes whether another quantity moves the latest n entries along.
func (c *catalogue) follow(n int, is bool) {
	for i := range n {
		c.list[len(c.list)-1-i].Follows = is
	}
}

func (c *catalogue) ambient() {
	a := &c.l.Ambient
	c.read(true, InCircuit, "", &a.Pressure)
	c.atEnd(1, highestStart)
	c.read(true, InCircuit, "", &a.Temperature)
	// Up to the hottest that the filled launcher can be.
	c.last().High = c.l.Hottest()
	c.atEnd(1, highestStart)
	c.unread("the air's temperature runs up to it", &a.Hottest)
	c.atEnd(1, highestStart)
	c.unread("it tells how cold a launcher may be filled that is then left in the heat", &a.Coldest)
	c.atEnd(1, highestStart)
}

func (c *catalogue) volumes() {
	for i := range c.l.Volumes {
		v := &c.l.Volumes[i]
		c.read(c.reach.Volumes[i], InCircuit, noWay, &v.Volume)
		if s := c.l.Supply; s != nil && s.Feeds == v.Name {
			c.atEnd(1, highestStart) // the smallest overshoots most
		}
		c.unread(heldAgainst, &v.RatedPressure)
		c.unread(adiabaticShot, &v.InnerDiameter)
		c.unread("the start pressure runs up to it", &v.FilledTo)
		c.atEnd(1, highestStart)
		c.unread(takesUpper, &v.FillerReaches)
	}
}

// path enters the bands of one path.
func (c *catalogue) path(i int) {
	p := &c.l.Paths[i]
	on, use := c.reach.Paths[i], InCircuit
	if c.fills(p) {
		// Its resistance sets the fed volume's start, though it may be shut in the shot.
		use |= InStarts
		on = true
	}
	c.flow(p, on, use)
	on = c.reach.Paths[i]
	opens, closes := on && c.reach.Opens[i], on && c.reach.Closes[i]
	c.read(opens, InCircuit, noWay, &p.OpeningTime)
	c.read(closes || opens && p.Pulse.Set, InCircuit, "nothing shuts it during a shot", &p.ClosingTime)
	c.read(opens, InCircuit, noWay, &p.Pulse)
	c.unread("the verdict on the valve's least pressure takes its upper end", &p.MinDifferential)
	c.read(on && p.SeatShare.Set, InCircuit, noWay, &p.SeatShare, &p.OpensAt, &p.FullAt)
	c.springs(p, on)
}

// flow enters what a path lets through: its part and its hose.
func (c *catalogue) flow(p *launcher.PathSpec, on bool, use Use) {
	f := &p.Flow
	relief, why := p.Kind == pneumatics.Relief, noWay
	if relief {
		why = withSet
	}
	c.read(on && !relief, use, why, &f.Value, &f.CriticalRatio, &f.PressureDropRatio, &f.DischargeCoefficient)
	c.follow(4, on && relief)
	h := p.Hose
	if h == nil {
		return
	}
	c.unread(heldAgainst, &h.RatedPressure)
	if h.Shared {
		c.unread("a quantity of the other way of the same body; here it only lets air out", &h.Bore, &h.Length, &h.Conductance)
		return
	}
	// Its air is at hand even where the path itself is shut.
	side := p.From
	if h.Side == launcher.HoseAfter {
		side = p.To
	}
	c.read(on || c.reaches(side), use, noWay, &h.Bore, &h.Length)
	c.atEnd(2, highestStart) // the heat drives out the air of every hose, at its most
	c.read(on && !relief, use, why, &h.Conductance)
	c.follow(1, on && relief)
}

// springs enters the pressures that a path of kind relief, regulator or check minds.
func (c *catalogue) springs(p *launcher.PathSpec, on bool) {
	const other = "only another kind of path has it"
	relief, regulator := p.Kind == pneumatics.Relief, p.Kind == pneumatics.Regulator
	switch {
	case relief && on:
		c.read(true, InCircuit, "", &p.SetPressure)
		c.last().with = weaker(p)
	case relief:
		c.unread("no pressure of a shot lifts it", &p.SetPressure)
	default:
		// A regulator or a check valve on the way of the charge sets where a shot starts,
		// even where nothing flows through it during the shot.
		c.read(regulator, InCircuit|InStarts, other, &p.SetPressure)
	}
	c.unread(withSet, &p.FullFlowPressure, &p.ReseatPressure)
	c.follow(2, on && relief)
	c.unread(takesUpper, &p.SteadyPressure)
	c.read(p.Kind == pneumatics.Check, InCircuit|InStarts, other, &p.CrackingPressure)
	c.read(on && regulator, InCircuit, other, &p.Droop)
	c.read(regulator, InCircuit|InStarts, other, &p.Creep)
}

// weaker is what moves along as a relief valve's set pressure goes from low to high: its
// other pressures, and its flow from most to least. At every pressure between the two ends
// it then lets out all that any other combination of its bands does, and as little.
func weaker(p *launcher.PathSpec) []follower {
	out := []follower{{&p.FullFlowPressure, p.FullFlowPressure.Low, p.FullFlowHigh(), p.FullFlowPressure},
		{&p.ReseatPressure, p.ReseatPressure.Low, p.ReseatPressure.High, p.ReseatPressure}}
	narrow := func(b *launcher.Band, most, least float64) {
		if b.Set {
			out = append(out, follower{b, most, least, *b})
		}
	}
	f := &p.Flow
	for _, b := range []*launcher.Band{&f.Value, &f.DischargeCoefficient, &f.PressureDropRatio} {
		narrow(b, b.High, b.Low)
	}
	if b := &f.CriticalRatio; f.Form == launcher.NominalFlow { // stated at 7 to 6 bar: a high ratio passes less
		narrow(b, b.Low, b.High)
	} else {
		narrow(b, b.High, b.Low)
	}
	if h := p.Hose; h != nil {
		narrow(&h.Conductance, h.Conductance.High, h.Conductance.Low)
	}
	return out
}

// fills tells that a path joins the fed volume to the sensed one while charging: what it
// holds back raises the start of the fed volume, where that bears on a shot.
func (c *catalogue) fills(p *launcher.PathSpec) bool {
	return c.feedsBeside() && (p.From == c.l.Supply.Feeds && p.To == c.l.Sensed() || p.To == c.l.Supply.Feeds && p.From == c.l.Sensed())
}

// feedsBeside tells that the supply feeds another volume than the sensed one, and that
// this volume bears on a shot.
func (c *catalogue) feedsBeside() bool {
	s := c.l.Supply
	return s != nil && s.Feeds != c.l.Sensed() && c.reaches(s.Feeds)
}

// reaches tells that the air of a node can get to the barrel, or is there.
func (c *catalogue) reaches(name string) bool {
	switch name {
	case "barrel":
		return true
	case "atmosphere":
		return false
	}
	return c.reach.Volumes[c.l.Node(name)]
}

func (c *catalogue) supply() {
	s := c.l.Supply
	if s == nil {
		return
	}
	is := c.reach.Supply || c.feedsBeside()
	c.read(is, InCircuit|InStarts, noWay, &s.FreeAir)
	c.atEnd(1, highestStart)
	free := len(c.list) - 1
	c.last().High = max(s.FreeAir.High, s.PeakFlow.High)
	c.unread("free_air runs up to it", &s.PeakFlow)
	c.atEnd(1, highestStart)
	c.follow(1, is)
	c.unread("the start pressure runs up to what it allows", &s.PumpedTo, &s.RunTime)
	c.atEnd(2, highestStart)
	c.unread(takesUpper, &s.SourcePressure, &s.RegulatorBore)
	c.unread(afterShot, &s.NoiseLevel)
	c.read(is, InCircuit|InStarts, noWay, &s.DeadHead)
	c.atEnd(1, highestStart)
	if len(s.Curve) == 0 || !is {
		return
	}
	share, stretch := s.AgainstCurve() // a curve goes along with the bands of its ends
	if d := &s.DeadHead; d.Set && d.Nominal > 0 {
		c.last().with = []follower{{stretch, d.Low / d.Nominal, d.High / d.Nominal, *stretch}}
	}
	if f := &s.FreeAir; f.Set && f.Nominal > 0 {
		c.list[free].with = []follower{{share, f.Low / f.Nominal, s.CurveShare(), *share}}
		return
	}
	c.derived(share, "supply.curve", 1, 1/launcher.UnstatedCurve, s.CurveShare(), InCircuit|InStarts)
	c.atEnd(1, highestStart)
}

func (c *catalogue) pressureSwitch() {
	s := c.l.Switch
	if s == nil {
		return
	}
	c.unread("the start pressure runs up to it", &s.CutOut)
	c.atEnd(1, highestStart)
	c.unread(afterShot, &s.CutIn, &s.Differential)
	c.unread("the start pressure runs up to what it allows", &s.ReactionTime, &s.GaugeError)
	c.atEnd(2, highestStart)
	c.unread(takesUpper, &s.AdjustableTo)
}

func (c *catalogue) barrel() {
	b := &c.l.Barrel
	tube := b.Fit == pneumatics.OverTube
	c.read(!tube, InCircuit, otherFit, &b.Bore, &b.Travel)
	c.read(tube && !c.l.Projectile.Clearance.Set, InCircuit, otherGap, &b.TubeOuterDiameter)
	c.read(tube, InCircuit, otherFit, &b.TubeInnerDiameter, &b.Engagement)
	c.read(true, InCircuit, "", &b.DeadVolume)
	c.unread(heldAgainst, &b.RatedPressure)
}

func (c *catalogue) projectile() {
	p := &c.l.Projectile
	tube := c.l.Barrel.Fit == pneumatics.OverTube
	c.read(true, InCircuit, "", &p.Mass)
	c.read(!tube && !p.Clearance.Set, InCircuit, otherGap, &p.Diameter)
	c.read(tube, InCircuit, otherFit, &p.InsideDiameter)
	c.unread("energy per area takes its lower end", &p.ContactDiameter)
	c.read(true, InCircuit, "", &p.Breakaway, &p.Restart, &p.Sliding, &p.Clearance)
	c.unread(afterShot, &p.Drag)
}

// surroundings enters the bands of what is no part of the machine: gauges, objects,
// people and limits.
func (c *catalogue) surroundings() {
	l := c.l
	for i := range l.Gauges {
		g := &l.Gauges[i]
		c.unread("the error of the gauge that the switch is set by counts with the switch", &g.Range, &g.Error, &g.Graduation)
	}
	c.unread("the widest opening counts", &l.Barrel.MuzzleAdmits)
	for i := range l.Objects {
		o := &l.Objects[i]
		c.unread("an object of its own question takes the end that is worse", &o.Diameter, &o.Length, &o.Mass)
	}
	if v := l.Venting; v != nil {
		c.unread(heldAgainst, &v.Target, &v.Within)
	}
	const stops = "the elevation of a shot lies between the lowest and the highest"
	const speed = "the launcher's own speed takes its upper end"
	if e := l.Event; e != nil {
		c.unread(afterShot, &e.Youngest, &e.EarToMuzzle, &e.EyeToMuzzle, &e.NearestPerson, &e.Kerb, &e.Wheels, &e.MuzzleHeight, &e.Wind,
			&e.PeakLevel)
		c.unread(speed, &e.VehicleSpeed)
		c.atEnd(1, speed)
		c.unread(stops, &e.Elevation)
		c.follow(1, true)
	}
	c.unread(speed, &l.Mount.MovingAt)
	c.atEnd(1, speed)
	c.unread(stops, &l.Mount.ElevationMin, &l.Mount.ElevationMax)
	c.follow(2, true)
	if l.StatesElevation() {
		low, high := l.LowestElevation(), l.HighestElevation()
		c.derived(l.ShotElevation(), launcher.ElevationKey, low, low, max(low, high), InCircuit)
	}
	c.unread(heldAgainst, &l.Limits.TotalEnergy, &l.Limits.AreaEnergy)
}
