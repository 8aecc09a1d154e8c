package unit

// System is the family of units in which the examples of a fault are written; the zero
// value is metric.
type System string

const (
	Metric System = "metric"
	US     System = "us"
)

// either is the wording in the reader's own units.
func (s *scanner) either(metric, us string) string {
	if s.system == US {
		return us
	}
	return metric
}

// toleranceWant is what a tolerance may look like.
func (s *scanner) toleranceWant() string {
	return "a tolerance such as " + s.either(`"± 0.5 g"`, `"± 0.02 oz"`) + `, "± 3 %" or "-15/+10 ms"`
}
