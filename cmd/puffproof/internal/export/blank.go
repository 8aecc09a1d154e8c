package export

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"

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

// ReadingsSheet is the blank sheet of one test of a volume's gauge, in the unit of that gauge: vent reads it back with --log or
// --leak-log. todo says what is done first.
func ReadingsSheet(volume, scenario, todo string, sheet []vent.Reading, u unit.Unit) ([]byte, error) {
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
// those of a person's instruments: calibrate reads it back. Lines of shots that were not made are taken out.
func ShotsSheet(plan *measure.ShotPlan, u, speed, length, temperature unit.Unit) ([]byte, error) {
	of := func(name string, u unit.Unit) string { return name + " [" + u.Name + "]" }
	rows := [][]string{{of("pressure", u), "projectile", of("temperature", temperature), of("speed", speed), of("chronograph_distance", length),
		"frames", "frame_rate [1/s]", of("video_span", length), "misfire", "note"}}
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
