//go:build browser

package page

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/trial"
)

// serveTest serves a design of the tests with the lightest of searches, and a browser on it.
func serveTest(t *testing.T, data []byte) (name string, b *tab) {
	t.Helper()
	name = filepath.Join(t.TempDir(), "launcher.toml")
	require.NoError(t, os.WriteFile(name, data, 0o644))
	return name, browse(t, beginIn(t, trial.Lightly(t.Context(), 0.00005), name))
}

// The steps of commissioning are taken on the page: a reading that cannot be one is refused and says why, a good one is written into
// record and file, counts, and opens what waited for it.
func TestBrowserTakesStepsOfCommissioning(t *testing.T) {
	name, b := serveTest(t, least(t))
	b.until(judged+` && document.querySelector("form[data-do=done]") != null`, "the first step")
	take := func(value, who string) {
		b.t.Helper()
		eval[int](b, fmt.Sprintf(`(form => { for (let d = form.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
			form.elements.value.value = %s; form.elements.who.value = %s; form.requestSubmit(); })(
			document.querySelector("form[data-do=done] input[value='label.ratings']").form), 0`, quoted(value), quoted(who)))
	}
	take("fine", "AB")
	b.until(`document.body.textContent.includes("has no figure in bar")`, "refused, with why")
	assert.NoFileExists(t, name+".record")
	const waits = `[...document.querySelectorAll(".step .hint")].filter(e => e.textContent.startsWith("Waits")).length`
	waiting := eval[int](b, waits)
	take("dose and barrel 10 bar for air, photographed", "AB")
	b.until(`document.querySelector("#road, [data-slot=road]").textContent.includes("1 of ")`, "counted")
	b.picture("commissioning", 1280, 900, false)
	log, err := record.Load(name + ".record")
	require.NoError(t, err)
	require.Len(t, log.Readings(), 1)
	file, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Contains(t, string(file), "photographed")
	assert.LessOrEqual(t, eval[int](b, waits), waiting)
	b.clean()
}

// The stopwatch on the page, held against a gauge that is simulated: it falls as the program expects, then one that hangs. The times
// are the browser's, the pressures between those of the rows that the page itself shows.
func TestBrowserStopwatchJudgesAnEmptying(t *testing.T) {
	_, b := serveTest(t, least(t))
	b.until(judged+` && document.querySelector("[data-watch-go]") != null`, "the stopwatch")
	run := func(factor float64) {
		b.t.Helper()
		eval[int](b, fmt.Sprintf(`(async () => {
			window.watched = false;
			const rows = JSON.parse(document.querySelector("[data-course]").value).map(r => [Number(r[0]), parseFloat(r[2])]);
			const at = (t) => {
				const i = Math.max(1, rows.findIndex(r => r[0] > t)), j = rows.length - 1;
				if (t >= rows[j][0]) return rows[j][1];
				const [a, b] = [rows[i - 1], rows[i]];
				return a[1] + (b[1] - a[1]) * (t - a[0]) / (b[0] - a[0]);
			};
			const press = (name) => document.querySelector("[" + name + "]").click();
			press("data-watch-go");
			const began = performance.now(), last = rows[rows.length - 1][0];
			for (let k = 0; k < 11; k++) {
				await new Promise(done => setTimeout(done, 100 * last));
				const read = at((performance.now() - began) / 1000 * %g).toFixed(3); // with either decimal sign
				document.querySelector("[data-reading]").value = (k %% 2 ? read.replace(".", ",") : read) + " bar";
				press("data-watch-read");
			}
			press("data-watch-go");
			document.querySelector("[data-drop] form").requestSubmit();
			window.watched = true;
		})(), 0`, factor))
		b.until("window.watched", "noted")
	}
	run(1)
	b.until(`document.querySelector(".log") != null`, "judged")
	first := b.words(".log")
	assert.Contains(t, eval[string](b, `document.querySelector(".log").className`), "good", first)
	b.picture("stopwatch", 390, 844, false)
	run(0.3)
	b.until(`document.querySelector(".log").textContent != `+quoted(first), "judged anew")
	assert.Contains(t, eval[string](b, `document.querySelector(".log").className`), "bad")
	assert.Contains(t, b.words(".log"), "slower than designed", "it falls at three tenths of the speed")
	b.clean()
}
