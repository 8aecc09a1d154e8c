package render

import (
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

type calibrateDoc struct {
	Design   DesignID       `json:"design"`
	Log      string         `json:"shots_file"`
	Shots    boundDoc       `json:"shots"`
	Groups   []boundDoc     `json:"groups"`
	Speeds   []speedDoc     `json:"speeds"`
	Bench    []benchTestDoc `json:"bench"`
	Fit      *fitDoc        `json:"fit"`
	Narrowed []narrowedDoc  `json:"narrowed"`
	Remarks  []remarkDoc    `json:"remarks"`
	Wrong    string         `json:"contradiction"`
	Agrees   bool           `json:"agrees"`
}

// boundDoc is one group of shots with its bound; the one at the top of the
// document is the group that counts, or the largest where none does.
type boundDoc struct {
	N           int          `json:"n"`
	MeanEnergy  *float64     `json:"mean_energy_J"`
	SDEnergy    *float64     `json:"sd_energy_J"`
	K           *float64     `json:"k"`
	UpperEnergy *float64     `json:"upper_bound_J"`
	Confidence  float64      `json:"confidence"`
	Coverage    float64      `json:"coverage"`
	MeanSpeed   *float64     `json:"mean_speed_m_s"`
	SDSpeed     *float64     `json:"sd_speed_m_s"`
	Systematic  *float64     `json:"systematic_m_s"`
	UpperSpeed  *float64     `json:"upper_speed_m_s"`
	Gauge       *float64     `json:"at_gauge_Pa"`
	Admissible  bool         `json:"admissible"`
	Faults      []string     `json:"faults"`
	Misfires    int          `json:"misfires"`
	Projectiles int          `json:"projectiles"`
	Normal      *normalDoc   `json:"normality"`
	Outliers    []outlierDoc `json:"suspected_outliers"`
}

type normalDoc struct {
	W          float64 `json:"shapiro_wilk_w"`
	P          float64 `json:"p"`
	Confidence float64 `json:"order_statistic_confidence"`
}

type outlierDoc struct {
	Line  int     `json:"line"`
	Speed float64 `json:"speed_m_s"`
	G     float64 `json:"grubbs_g"`
}

type speedDoc struct {
	Line       int        `json:"line"`
	Method     string     `json:"method"`
	Gauge      float64    `json:"gauge_Pa"`
	Projectile string     `json:"projectile"`
	Speed      *float64   `json:"speed_m_s"`
	Random     *float64   `json:"random_m_s"`
	Systematic *float64   `json:"systematic_m_s"`
	Conversion string     `json:"conversion"`
	Errors     []errorDoc `json:"errors"`
	Misfire    bool       `json:"misfire"`
	Note       string     `json:"note"`
}

type errorDoc struct {
	Name       string  `json:"name"`
	Effect     float64 `json:"effect_m_s"`
	Systematic bool    `json:"systematic"`
}

type benchTestDoc struct {
	Test  string  `json:"test"`
	Lines []int   `json:"lines"`
	Band  bandDoc `json:"band"`
}

type fitDoc struct {
	Credible   bool           `json:"credible"`
	Statistic  float64        `json:"statistic"`
	P          float64        `json:"p"`
	Level      float64        `json:"level"`
	Scatter    float64        `json:"scatter"`
	Freedom    int            `json:"degrees_of_freedom"`
	Parameters []parameterDoc `json:"parameters"`
	Residuals  []residualDoc  `json:"residuals"`
	Suspects   []suspectDoc   `json:"suspects"`
}

type parameterDoc struct {
	Key     string  `json:"key"`
	Value   float64 `json:"value"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Share   float64 `json:"share_of_stated_spread"`
	Learned bool    `json:"learned"`
	How     string  `json:"how"`
}

type residualDoc struct {
	Gauge    float64 `json:"gauge_Pa"`
	Measured float64 `json:"measured_m_s"`
	Model    float64 `json:"model_m_s"`
	Before   float64 `json:"model_before_m_s"`
	Error    float64 `json:"error_m_s"`
}

type suspectDoc struct {
	Key   string  `json:"key"`
	Value float64 `json:"value"`
	P     float64 `json:"p"`
}

type narrowedDoc struct {
	Key string  `json:"key"`
	Was bandDoc `json:"was"`
	Now bandDoc `json:"now"`
}

type remarkDoc struct {
	Line int    `json:"line"`
	Text string `json:"text"`
}

// CalibrateJSON is the document of calibrate: SI units.
func CalibrateJSON(id DesignID, f *measure.Findings) (any, error) {
	doc := calibrateDoc{Design: id, Log: f.Log, Groups: []boundDoc{}, Speeds: []speedDoc{}, Bench: []benchTestDoc{},
		Narrowed: narrowedOf(f.Narrowed), Remarks: []remarkDoc{}}
	doc.Shots = boundDoc{Confidence: benchmark.BoundConfidence, Coverage: benchmark.BoundCoverage,
		Faults: []string{"the file has no shots"}, Outliers: []outlierDoc{}}
	if g := shownGroup(f); g != nil {
		doc.Shots = boundOf(g)
	}
	for i := range f.Groups {
		doc.Groups = append(doc.Groups, boundOf(&f.Groups[i]))
	}
	for i := range f.Shots {
		s := &f.Shots[i]
		d := speedDoc{Line: s.Shot.Line, Method: s.Shot.Method.String(), Gauge: s.Shot.Gauge, Projectile: s.Shot.Projectile,
			Speed: known(s.Speed), Conversion: s.Conversion, Misfire: s.Shot.Misfire, Note: s.Shot.Note, Errors: []errorDoc{}}
		for _, p := range s.Parts {
			d.Errors = append(d.Errors, errorDoc(p))
		}
		if d.Speed != nil {
			d.Random, d.Systematic = known(s.Random), known(s.Systematic)
		}
		doc.Speeds = append(doc.Speeds, d)
	}
	for _, b := range f.Bench {
		doc.Bench = append(doc.Bench, benchTestDoc{b.Kind.String(), b.Lines, bandOf(b.Band)})
	}
	for _, r := range f.Remarks {
		doc.Remarks = append(doc.Remarks, remarkDoc{r.Line, r.Text})
	}
	doc.Fit, doc.Wrong, doc.Agrees = fitOf(f.Fit), f.Contradiction(), f.Agrees()
	return doc, finite(doc)
}

// shownGroup is the group that counts, else the largest; nil: there is none.
func shownGroup(f *measure.Findings) *measure.SpeedGroup {
	if g := f.Best(); g != nil {
		return g
	}
	var best *measure.SpeedGroup
	for i := range f.Groups {
		if g := &f.Groups[i]; best == nil || g.Shots >= best.Shots {
			best = g
		}
	}
	return best
}

func boundOf(g *measure.SpeedGroup) boundDoc {
	d := boundDoc{N: g.Shots, K: known(g.K), UpperEnergy: known(g.UpperEnergy), UpperSpeed: known(g.UpperSpeed),
		Confidence: benchmark.BoundConfidence, Coverage: benchmark.BoundCoverage, Gauge: known(g.Gauge), Admissible: g.Admissible(),
		Faults: append([]string{}, g.Faults...), Misfires: g.Misfires, Projectiles: g.Projectiles, Outliers: []outlierDoc{}}
	if g.Shots > 0 {
		d.MeanEnergy, d.MeanSpeed, d.Systematic = known(g.MeanEnergy), known(g.Mean), known(g.Systematic)
	}
	if g.Shots > 1 {
		d.SDEnergy, d.SDSpeed = known(g.SDEnergy), known(g.SD)
	}
	if g.Normal.Tested {
		d.Normal = &normalDoc{g.Normal.W, g.Normal.P, g.Normal.OrderConfidence}
	}
	for _, o := range g.Outliers {
		d.Outliers = append(d.Outliers, outlierDoc(o))
	}
	return d
}

func bandOf(b launcher.Band) bandDoc {
	return bandDoc{b.Key, b.Low, b.Nominal, b.High, b.Origin.String(), b.Reason}
}

func narrowedOf(list []measure.Narrowing) []narrowedDoc {
	out := []narrowedDoc{}
	for _, n := range list {
		out = append(out, narrowedDoc{n.Now.Key, bandOf(n.Was), bandOf(n.Now)})
	}
	return out
}

func fitOf(f *measure.Fit) *fitDoc {
	if f == nil {
		return nil
	}
	d := &fitDoc{Credible: f.Credible, Statistic: f.Statistic, P: f.P, Level: measure.FitLevel, Scatter: f.Scatter, Freedom: f.Freedom,
		Parameters: []parameterDoc{}, Residuals: []residualDoc{}, Suspects: []suspectDoc{}}
	for _, p := range f.Parameters {
		d.Parameters = append(d.Parameters, parameterDoc{p.Key, p.Value, p.Low, p.High, p.Share, p.Learned, p.How})
	}
	for _, r := range f.Residuals {
		d.Residuals = append(d.Residuals, residualDoc{r.Gauge, r.Measured, r.Model, r.Before, r.Error})
	}
	for _, s := range f.Suspects {
		d.Suspects = append(d.Suspects, suspectDoc(s))
	}
	return d
}
