package limits

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"puffproof/pneumatics"
)

// faultVerdicts runs every single fault, the pairs asked for, and judges
// energy.fault and shot.unasked.
func (j *judge) faultVerdicts(pairs PairChoice) error {
	r := &FaultReport{Limit: j.limits.Total.Value, AllPairs: pairs == EveryPair}
	j.faults = r
	faults := j.singleFaults()
	known := map[string]*FaultResult{}
	results, err := j.runFaults(faults, known)
	if err != nil {
		return err
	}
	r.Faults = results
	if pairs == EveryPair {
		if err := j.everyPair(faults, known); err != nil {
			return err
		}
	} else {
		j.latentPairs(faults, results)
	}
	for i := range results {
		r.Shots += results[i].Shots
		if results[i].Effect == NoEffect {
			r.Unsearched++
		} else {
			r.Searched++
		}
	}
	j.energyFaultVerdict()
	j.unaskedVerdict()
	slices.SortStableFunc(r.Faults, worseFault)
	slices.SortStableFunc(r.Pairs, worseFault)
	return nil
}

// worseFault orders faults: failures, unknowns, then by energy, then by pressure.
func worseFault(a, b FaultResult) int {
	rank := map[Status]int{Fail: 0, Unknown: 1, Pass: 2, NotApplicable: 3}
	if c := cmp.Compare(rank[a.Status], rank[b.Status]); c != 0 {
		return c
	}
	changes := func(r FaultResult) int {
		if r.Effect == NoEffect {
			return 1
		}
		return 0
	}
	if c := cmp.Compare(changes(a), changes(b)); c != 0 {
		return c
	}
	if c := cmp.Compare(b.Judged, a.Judged); c != 0 && a.Judged == a.Judged && b.Judged == b.Judged {
		return c
	}
	return cmp.Compare(b.WorstGauge, a.WorstGauge)
}

// faultSearch is the question of one fault whose shot has to be searched.
type faultSearch struct {
	j      *judge
	f      *fault
	w      *Launcher // the failed design
	start  float64   // highest start pressure [Pa gauge]
	result *FaultResult
}

// runFaults computes faults: each question once, the searches side by side. known
// holds the results by question, and takes the new ones in.
func (j *judge) runFaults(faults []fault, known map[string]*FaultResult) ([]FaultResult, error) {
	results := make([]FaultResult, len(faults))
	asked := make([]*faultSearch, len(faults))
	fresh := map[string]*faultSearch{}
	var searches []*faultSearch
	for i := range faults {
		s := j.readyFault(&faults[i], &results[i])
		if s == nil {
			continue
		}
		asked[i] = s
		if key := s.key(); known[key] == nil && fresh[key] == nil {
			fresh[key] = s
			searches = append(searches, s)
		}
	}
	workers := 0 // all cores for the only one
	if len(searches) > 1 {
		workers = 1
	}
	if err := sideBySide(len(searches), func(i int) error { return searches[i].shoot(workers) }); err != nil {
		return nil, err
	}
	for _, s := range searches {
		copied := *s.result
		known[s.key()] = &copied
	}
	for i, s := range asked {
		if s == nil || fresh[s.key()] == s {
			continue
		}
		same, r := known[s.key()], &results[i]
		r.SameAs, r.Energy, r.Judged = same.ID, same.Energy, same.Judged
		r.Status, r.Basis, r.Reason = same.Status, same.Basis, same.Reason
	}
	return results, nil
}

func (s *faultSearch) key() string { return s.f.question(s.start) }

// readyFault fills what is known of a result without a search, and gives the
// search that is still needed; nil: none.
func (j *judge) readyFault(f *fault, r *FaultResult) *faultSearch {
	*r = FaultResult{Freed: math.NaN(), ID: f.id, Part: f.part, Mode: f.mode, State: "any", Effect: NoEffect, Status: Pass, Basis: OnCircuit, Reason: f.whyNot,
		Consequence: f.consequence, DetectedBy: f.detected, PreventedBy: f.prevented, Latent: f.latent, RevealedBy: f.revealed}
	if !f.anyState {
		r.State = f.state.String()
	}
	w := j.failed(f)
	start, ok := j.faultStart(w, f)
	j.faultPressure(r, w, f, start, ok)
	switch {
	case f.mode == MuzzlePlugged:
		plugged(r, j.blockedVerdict)
		return nil
	case f.mode == Jammed:
		r.Energy, r.Judged, r.Basis = math.NaN(), math.NaN(), OnProcedure // it does not leave
		r.Freed = f.freed
		if f.behind > 0 && !(f.behind <= r.WorstGauge) {
			r.WorstGauge, r.Where = f.behind, "barrel"
		}
		return nil
	case !f.changes:
		r.Energy, r.Judged = j.normalEnergy()
		return nil
	case !ok:
		r.Effect, r.Energy, r.Judged = ChangesShot, math.NaN(), math.NaN()
		r.Status, r.Reason = Unknown, j.l.Overcharge().Why
		return nil
	}
	r.Effect, r.Reason = ChangesShot, ""
	if f.unasked {
		r.Effect = FiresUnasked
	}
	return &faultSearch{j, f, w, start, r}
}

// failed is the design with the fault.
func (j *judge) failed(f *fault) *Launcher {
	w := j.l.Clone()
	if f.apply != nil {
		f.apply(w)
	}
	return w
}

// faultStart is the highest start pressure of a shot with the fault [Pa gauge];
// not ok where it is unknown.
func (j *judge) faultStart(w *Launcher, f *fault) (float64, bool) {
	if f.overcharges {
		return w.faultHigh()
	}
	high, ok := j.l.SoakedHigh()
	if !ok {
		return 0, false
	}
	if f.raises > 0 {
		high = w.soak(min(j.normalHigh()+f.raises, w.deadHead(math.Inf(1))))
	}
	return high, true
}

// normalHigh is the highest normal pressure before any heat [Pa gauge].
func (j *judge) normalHigh() float64 {
	high, _ := j.l.NormalHigh()
	return high
}

// faultPressure finds the highest pressure anywhere with the fault.
func (j *judge) faultPressure(r *FaultResult, w *Launcher, f *fault, start float64, ok bool) {
	r.WorstGauge, r.Where = math.NaN(), ""
	if !ok {
		return
	}
	for i, g := range w.highStart(start) {
		if !(g <= r.WorstGauge) {
			r.WorstGauge, r.Where = g, w.Volumes[i].Name
		}
	}
}

// normalEnergy is the worst energy of normal operation, raw and judged.
func (j *judge) normalEnergy() (raw, judged float64) {
	if j.energyUnknown() != "" {
		return math.NaN(), math.NaN()
	}
	return j.normal.value, j.normal.value * ModelFactor
}

// plugged takes over the verdict on the plugged barrel.
func plugged(r *FaultResult, blocked *Verdict) {
	r.Energy, r.Judged = 0, 0
	r.Where = "barrel"
	if blocked == nil {
		r.Status, r.Reason = Unknown, "barrel.blocked was not judged"
		return
	}
	r.Status, r.Reason = blocked.Status, blocked.Why
	if blocked.Value != nil {
		r.WorstGauge = max(r.WorstGauge, *blocked.Value)
	}
}

// shoot searches the worst shot with the fault; workers as in search.Options.
func (s *faultSearch) shoot(workers int) error {
	j, f, w, r := s.j, s.f, s.w, s.result
	q := j.faultQuestion(f, w, s.start)
	o := brief(j.faultSeeds(w, q)...)
	o.Workers = workers
	res, err := w.maximise(j.ctx, q, o)
	if err != nil {
		return err
	}
	r.Shots = res.result.Evaluations
	r.Basis = OnModel
	if res.undetermined() {
		return j.unsettled(r, w, q, o, res)
	}
	r.Energy = res.value
	if normal, _ := j.normalEnergy(); !f.unasked && f.share == nil && normal > r.Energy {
		r.Energy = normal // the part may also work as it should
	}
	r.Judged = r.Energy * ModelFactor
	r.Status = Pass
	if r.Judged > j.limits.Total.Value {
		r.Status, r.Reason = Fail, "above the limit of "+joule(j.limits.Total.Value)
	}
	return nil
}

// question is what a fault asks: equal ones have equal answers.
func (f *fault) question(start float64) string {
	if f.pairOf != "" {
		return fmt.Sprint(f.pairOf, "|", start)
	}
	if f.apply == nil && f.adjust == nil { // only the pressure differs
		return fmt.Sprint("pressure ", start)
	}
	mode := f.mode
	switch mode {
	case LeakingValve, Energised: // part of the same search: the opening runs from shut to full
		mode = StuckOpen
	case Creeps:
		mode = FailedOpen
	}
	return fmt.Sprint(f.part, "|", mode, "|", f.unasked, "|", f.state, "|", start)
}

// faultQuestion is the question of the energy verdicts on the failed design.
func (j *judge) faultQuestion(f *fault, w *Launcher, start float64) question {
	q := w.energyQuestion(start)
	q.name, q.extra = f.id, f.extra
	if f.unasked {
		q.fromAll = []pneumatics.State{f.state}
	}
	empty := j.l.emptyIn(f.state)
	stopped := f.noRelief && !f.overcharges && j.l.Switch != nil
	runs := j.l.Supply != nil && j.l.Supply.RunsIn.Has(f.state)
	q.adjust = func(c *pneumatics.Circuit, sc *pneumatics.Scenario, u []float64) {
		if f.adjust != nil {
			f.adjust(c, u)
		}
		if stopped {
			// With the relief valve shut the switch is what limits the pressure: it has
			// stopped the supply. Start pressures reach up to the highest it allows.
			sc.SupplyRuns = false
		}
		if !f.unasked {
			return
		}
		sc.SupplyRuns = runs
		for i := range sc.Volumes {
			if empty[i] {
				sc.Volumes[i].Pressure = c.Ambient.Pressure
			}
		}
	}
	if f.share != nil {
		q.measure = j.share(f.share)
	}
	return q
}

// faultSeeds carries the worst point of normal operation over to the box of a
// failed design, coordinate by coordinate; new coordinates start at their far
// end and in the middle.
func (j *judge) faultSeeds(w *Launcher, q question) [][]float64 {
	if j.normal == nil || !j.normal.result.Found {
		return nil
	}
	at := map[string]float64{}
	for i, label := range j.normal.box.labels {
		at[label] = j.normal.result.Best.Point[i]
	}
	b := newBox(w, q)
	var out [][]float64
	for _, fresh := range []float64{1, 0.5} {
		for _, full := range []float64{math.NaN(), 1} {
			seed := make([]float64, b.dim)
			for i, label := range b.labels {
				v, ok := at[label]
				switch {
				case !ok:
					v = fresh
				case i == b.start && full == 1:
					v = 1
				}
				seed[i] = v
			}
			out = append(out, seed)
		}
	}
	return out
}

// energyFaultVerdict is the largest energy over all single faults.
func (j *judge) energyFaultVerdict() {
	v := j.newVerdict("energy.fault", "Energy at any single fault", InJoule)
	v.Source, v.Caveat, v.Basis = j.limits.Total.Source, j.limits.Total.Caveat, OnModel
	defer func() { j.add(v) }()
	if why := j.energyUnknown(); why != "" {
		v.unknown(why)
		return
	}
	var worst *FaultResult
	n := 0
	for i := range j.faults.Faults {
		f := &j.faults.Faults[i]
		if f.Effect == NoEffect {
			continue
		}
		n++
		if f.Status == Unknown {
			v.unknown(fmt.Sprintf("%s, %s: %s", f.Part, f.Mode, f.Reason))
			return
		}
		if worst == nil || f.Judged > worst.Judged {
			worst = f
		}
	}
	if worst == nil {
		v.notApplicable(fmt.Sprintf("none of %d single faults can change the shot", len(j.faults.Faults)))
		return
	}
	v.judge(worst.Judged, j.limits.Total.Value)
	v.Why = fmt.Sprintf("worst of %d single faults, %d of which can change the shot: %s", len(j.faults.Faults), n, worst.Name())
	if worst.State != "any" {
		v.Why += " while " + worst.State
	}
	if v.Status == Fail {
		v.Advice = "Make this fault impossible or weaker: puffproof faults lists every one with what prevents it."
	}
}

// unaskedVerdict judges the shots that nobody asked for.
func (j *judge) unaskedVerdict() {
	v := j.newVerdict("shot.unasked", "Fires unasked at a single fault", InJoule)
	v.Source, v.Basis = "own rule of this project: never while hands are at the muzzle, else only behind two independent actions and a guard", OnCircuit
	defer func() { j.add(v) }()
	if why := j.energyUnknown(); why != "" {
		v.unknown(why)
		return
	}
	var worst, loading, power *FaultResult
	n, tried, open := 0, 0, ""
	for i := range j.faults.Faults {
		f := &j.faults.Faults[i]
		if f.Mode != NoPower && f.Effect != FiresUnasked && f.State == "any" {
			continue
		}
		tried++
		if f.Effect != FiresUnasked {
			continue
		}
		if f.Status == Unknown && open == "" {
			open = fmt.Sprintf("%s, %s, while %s: %s", f.Part, f.Mode, f.State, f.Reason)
		}
		if f.Energy <= 0 || math.IsNaN(f.Energy) {
			continue // the air that gets in does not move it out
		}
		n++
		if worst == nil || f.Judged > worst.Judged {
			worst = f
		}
		if f.State == pneumatics.Loading.String() {
			loading = f
		}
		if f.Mode == NoPower && (power == nil || f.Judged > power.Judged) {
			power = f
		}
	}
	j.judgeUnasked(v, worst, loading, power, n, tried)
	if open != "" && v.Status != Fail { // what is certain goes first
		v.unknown(open)
	}
}

func (j *judge) judgeUnasked(v *Verdict, worst, loading, power *FaultResult, n, tried int) {
	opener := j.opensOnLoading()
	if worst == nil && opener != "" {
		worst = &FaultResult{}
	}
	if worst == nil {
		v.judge(0, j.limits.Total.Value)
		v.Why = fmt.Sprintf("none of %d faults of valves and power from charging, armed or loading moves the projectile", tried)
		return
	}
	v.judge(worst.Judged, j.limits.Total.Value)
	v.Why = fmt.Sprintf("%d of %d faults from charging, armed or loading shoot; the hardest: %s while %s", n, tried, worst.Name(), worst.State)
	switch {
	case opener != "":
		v.judge(max(worst.Judged, j.report.Energy.Judged), 0)
		v.Why = "paths." + opener + " opens into the barrel on entering state loading, with hands at the muzzle: no fault is needed"
		v.Advice = "Take loading out of its open_in."
	case power != nil:
		v.judge(power.Judged, 0) // two actions and a guard are no help against a pulled plug
		v.Why += "; losing power while " + power.State + " fires it, which takes no action at all"
		if loading != nil {
			v.Why += ", and some while hands are at the muzzle"
		}
		v.Advice = "A firing valve that closes without power (unpowered = \"closed\"), and vents that do not lead through the barrel."
	case loading != nil:
		v.judge(worst.Judged, 0) // with hands at the muzzle no energy is small enough
		v.Why += "; one of them while hands are at the muzzle (" + loading.Name() + ")"
		v.Advice = "Vent what feeds the barrel in state loading, or a second shut valve before it."
	case v.Status == Fail:
		v.Advice = "Less energy, or a second valve in series that opens only to fire."
	case Declared(j.l.Barrel.SealGuard) == "":
		v.judge(worst.Judged, 0) // without a guard none is either
		v.Advice = "A guard that keeps faces and fingers off the muzzle (declare it as barrel.seal_guard), and two independent actions before air can reach the firing valve; or a second valve in series."
	default:
		v.Basis = OnProcedure
		v.Advice = "Holds only with two independent actions before a shot and the guard at the muzzle (" + j.l.Barrel.SealGuard + "): both are items to inspect."
	}
}

// opensOnLoading names a valve between a volume and the barrel that is open in
// state loading; "" where there is none.
func (j *judge) opensOnLoading() string {
	for i := range j.l.Paths {
		p := &j.l.Paths[i]
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		toBarrel := p.To == "barrel" && p.From != "atmosphere" || p.From == "barrel" && p.To != "atmosphere"
		if valve && toBarrel && p.OpenIn.Has(pneumatics.Loading) {
			return p.Name
		}
	}
	return ""
}
