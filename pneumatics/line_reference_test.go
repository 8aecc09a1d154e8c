package pneumatics

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/internal/reference"
	"puffproof/pneumatics/line"
)

// TestReferenceLines compares shots with lines on either side of the valve, of two
// bores and alone, with lines.csv: the same cells solved by an independent program
// (tool and command in the file). 1e-5 is what was asked of the agreement; the program
// agrees with itself to better than 1e-7.
func TestReferenceLines(t *testing.T) {
	rows := reference.Table(t, "../testdata/reference/lines.csv")
	require.GreaterOrEqual(t, len(rows), 6)
	for _, row := range rows {
		c, sc := linesOf(t, row)
		r := new(Sim).Run(c, sc, Options{Tolerance: 1e-10})
		require.Equal(t, Left, r.Outcome, row["case"])
		require.Empty(t, r.Withheld(), row["case"])
		within := func(column string, got float64) {
			assert.InEpsilon(t, row.F(column), got, 1e-5, "case %s, %s", row["case"], column)
		}
		within("t_exit_s", r.ExitTime)
		within("v_m_s", r.MuzzleSpeed)
		within("energy_J", r.MuzzleEnergy)
		within("tank_p_Pa", r.Volumes[0].Pressure)
		within("tank_T_K", r.Volumes[0].Temperature)
		within("barrel_p_Pa", r.BarrelExit)
		within("barrel_T_K", r.Barrel.Temperature)
		if row.F("breakaway_N") > 0 {
			within("t_move_s", r.MoveTime)
		}
	}
}

// linesOf makes the circuit of a row of lines.csv.
func linesOf(t *testing.T, row reference.Record) (*Circuit, *Scenario) {
	area := discArea(row.F("bore_m"))
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{row.F("pa_Pa"), row.F("Ta_K")},
		Volumes: []Volume{{Name: "tank", Volume: row.F("tank_m3")}},
		Barrel: Barrel{Present: true, Area: area, ExitArea: area, DeadVolume: row.F("dead_m3"), Travel: row.F("travel_m"), Mass: row.F("mass_kg"),
			Breakaway: row.F("breakaway_N"), Sliding: row.F("sliding_N"), JetFactor: 1}}
	sc := &Scenario{From: Armed, To: Firing, Volumes: []Condition{{row.F("tank_start_Pa"), row.F("Ta_K")}},
		Parts: Parts{NoGasInertia: row.F("gas_inertia") == 0, NoAirAhead: row.F("air_ahead") == 0, NoAfterMuzzle: true, NoWallHeat: true}}
	fire := Path{Name: "fire", From: 0, To: BarrelNode, Kind: Valve, Flow: flow.SonicConductance(row.F("C_m3_sPa"), row.F("b")),
		OpenIn: SetOf(Firing), OpeningTime: row.F("opening_s"), Before: piecesOf(t, row["before"]), After: piecesOf(t, row["after"])}
	if whole := piecesOf(t, row["whole"]); len(whole) > 0 {
		c.Volumes = append(c.Volumes, Volume{Name: "dose", Volume: row.F("dose_m3")})
		sc.Volumes = append(sc.Volumes, Condition{row.F("pa_Pa"), row.F("Ta_K")})
		fire.To = 1
		c.Paths = append(c.Paths, alone(1, BarrelNode, whole...))
	}
	c.Paths = append(c.Paths, fire)
	return c, sc
}

// piecesOf reads pieces as lines.csv writes them: bore:length:fittings:cells.
func piecesOf(t *testing.T, text string) []line.Piece {
	var out []line.Piece
	for _, field := range strings.Fields(text) {
		var v []float64
		for _, s := range strings.Split(field, ":") {
			x, err := strconv.ParseFloat(s, 64)
			require.NoError(t, err)
			v = append(v, x)
		}
		require.Len(t, v, 4)
		out = append(out, line.Piece{Bore: v[0], Length: v[1], Loss: v[2], Cells: int(v[3])})
	}
	return out
}
