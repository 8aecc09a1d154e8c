package export

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"strconv"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
)

// A blank sheet is a CSV file for people: it is filled in beside the launcher, and read back as it stands. What is to be
// done stands in its column note, so that no spreadsheet loses it.

// blankFigures is how many digits the largest reading of a blank sheet has.
const blankFigures = 3

// reads writes a gauge pressure [Pa] in the unit of a gauge, which shows nothing below nothing; most is the largest of
// the sheet [Pa].
func reads(u unit.Unit, gauge, most float64) string {
	decimals := 0
	if m := u.FromSI(most); m > 0 {
		decimals = max(0, blankFigures-1-int(math.Floor(math.Log10(m))))
	}
	return strconv.FormatFloat(u.FromSI(max(0, gauge)), 'f', decimals, 64)
}

// BlankSheet makes the sheet of a test on the gauge of a volume, in the unit of that gauge.
type BlankSheet func(r *vent.Report, volume string, u unit.Unit) ([]byte, error)

// EmptyingSheet is the blank sheet of the stopwatch test on the gauge of a volume, in the unit of that gauge: vent reads it back
// with --log. The error says that there is no such test.
func EmptyingSheet(r *vent.Report, volume string, u unit.Unit) ([]byte, error) {
	for _, t := range r.Tests {
		if t.Volume == volume && len(t.Sheet) > 0 {
			return readingsSheet(volume, t.Scenario, r.Filled+", arm, cut the power, start the stopwatch. Leave empty what was missed.", t.Sheet, u)
		}
	}
	return nil, fmt.Errorf("no test is read on a gauge of %q", volume)
}

// LeakSheet is the same of the leak-down, read back with --leak-log.
func LeakSheet(r *vent.Report, volume string, u unit.Unit) ([]byte, error) {
	for _, t := range r.Leaks {
		if t.Volume == volume && len(t.Sheet) > 0 {
			return readingsSheet(volume, leakScenario, r.FromEmpty+", arm, supply off, nothing loaded, start the stopwatch.", t.Sheet, u)
		}
	}
	return nil, fmt.Errorf("no leak-down is read on a gauge of %q; the screen says why", volume)
}

// readingsSheet is the blank sheet of one test. todo says what is done first.
func readingsSheet(volume, scenario, todo string, sheet []vent.Reading, u unit.Unit) ([]byte, error) {
	column := func(name string) string { return name + " [" + u.Name + "]" }
	rows := [][]string{{"volume", "scenario", "time [s]", column("lowest"), column("expected"), column("highest"), column("gauge"), "note"}}
	if vent.Filmed(sheet) {
		todo += " " + show.FilmIt()
	}
	most := 0.0
	for _, one := range sheet {
		most = max(most, one.High)
	}
	for k, one := range sheet {
		note := ""
		if k == 0 {
			note = todo
		}
		rows = append(rows, []string{spreadsheetText(volume), scenario, strconv.FormatFloat(math.Round(10*one.Time)/10, 'f', -1, 64),
			reads(u, one.Low, most), reads(u, one.Gauge, most), reads(u, one.High, most), "", note})
	}
	return written(rows)
}

// ShotsSheet is the blank sheet of the shots of a plan, one line a shot, the pressures in the unit of a gauge and the rest in
// those of a person's instruments in a system: calibrate reads it back. Lines of shots that were not made are taken out. The
// error says that there is no plan.
func ShotsSheet(plan *measure.ShotPlan, u unit.Unit, system quantity.System) ([]byte, error) {
	if len(plan.Pressures) == 0 || len(plan.Refused) != 0 {
		return nil, errors.New("there is no plan, so there is no sheet of it")
	}
	names := [...]string{"m/s", "m", "degC", "g"}
	if system == quantity.US {
		names = [...]string{"ft/s", "ft", "degF", "oz"}
	}
	speed, _ := unit.Lookup(names[0])
	length, _ := unit.Lookup(names[1])
	temperature, _ := unit.Lookup(names[2])
	mass, _ := unit.Lookup(names[3])
	of := func(name string, u unit.Unit) string { return name + " [" + u.Name + "]" }
	rows := [][]string{{of("pressure", u), "projectile", of("temperature", temperature), of("speed", speed),
		of("chronograph_distance", length), "frames", "frame_rate [1/s]", of("video_span", length), "misfire",
		of("projectile_mass", mass), "date", "note"}}
	for _, p := range plan.Pressures {
		for range p.Shots {
			rows = append(rows, append([]string{reads(u, p.Gauge, p.Gauge)}, make([]string, len(rows[0])-1)...))
		}
	}
	return written(rows)
}

// written is rows as CSV.
func written(rows [][]string) ([]byte, error) {
	var b bytes.Buffer
	if err := csv.NewWriter(&b).WriteAll(rows); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
