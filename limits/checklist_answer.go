package limits

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Figure is a number with its unit in an answer of the checklist, in SI.
type Figure struct {
	Value float64
	Unit  Quantity
}

// Expected is the figure that an answer has to bring; Also is one that it may bring
// besides. An answer without the figure, or with one outside, leaves its item open.
type Expected struct {
	Unit      Quantity
	Low, High float64 // SI; infinite: no bound on that side
	Also      *Expected
}

// figureBetween expects a figure between two bounds.
func figureBetween(unit Quantity, low, high float64) *Expected {
	return &Expected{Unit: unit, Low: low, High: high}
}

// figureSlack is how far outside a figure may lie by rounding alone, relative to the
// bound (a reading is written down to three digits).
const figureSlack = 0.005

func (e *Expected) holds(v float64) bool {
	return v >= e.Low-figureSlack*math.Abs(e.Low) && v <= e.High+figureSlack*math.Abs(e.High)
}

// answer enters the design's answer into an item, or why it does not close it.
func (j *judge) answer(it *Item) {
	for i := range j.Launcher.Checklist {
		c := &j.Launcher.Checklist[i]
		if c.Item != it.ID || !c.signed() {
			continue
		}
		if it.OpenWhy = j.refuses(it, c); it.OpenWhy == "" {
			it.Done = c
			return
		}
	}
}

// signed tells whether an answer has a name and a date.
func (c *Confirmation) signed() bool {
	return strings.TrimSpace(c.Who) != "" && strings.TrimSpace(c.Date) != ""
}

// refuses says why an answer does not close its item; "" it does.
func (j *judge) refuses(it *Item, c *Confirmation) string {
	if j.future(c) {
		return "its answer is dated " + strings.TrimSpace(c.Date) + ", which is still to come"
	}
	if it.Figure == nil {
		return ""
	}
	found := false
	for _, f := range c.Figures {
		for e := it.Figure; e != nil; e = e.Also {
			if f.Unit != e.Unit {
				continue
			}
			found = found || e == it.Figure
			if !e.holds(f.Value) {
				return fmt.Sprintf("its answer, %q, is not what is expected", strings.TrimSpace(c.Value))
			}
		}
	}
	if !found {
		return fmt.Sprintf("its answer, %q, has no figure in %s", strings.TrimSpace(c.Value), it.Figure.Unit.inAnswer())
	}
	return ""
}

// inAnswer names a unit as a person would write it.
func (q Quantity) inAnswer() string {
	switch q {
	case InPascalGauge:
		return "bar"
	case InMetre:
		return "mm"
	}
	return string(q)
}

// future tells whether an answer is dated after the day of the question, or with no
// day at all.
func (j *judge) future(c *Confirmation) bool {
	date, err := time.Parse(time.DateOnly, strings.TrimSpace(c.Date))
	if j.Day == "" || err != nil {
		return false // the reader of the design judges its form
	}
	day, err := time.Parse(time.DateOnly, j.Day)
	return err == nil && date.After(day)
}

// confirmed tells whether the design's checklist answers an item that needs no
// figure.
func (j *judge) confirmed(id string) bool {
	it := Item{ID: id}
	j.answer(&it)
	return it.Done != nil
}
