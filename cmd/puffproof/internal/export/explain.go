package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/explain"
)

// Explain is the document of explain.
func Explain(e show.Explained) (json.RawMessage, error) {
	return show.Document(show.Fields("id", e.ID, "explanation", show.Maybe(e.Verdict, explanationFields), "design", e.Design,
		"verdict", show.Maybe(e.Answer, verdictFields), "budget", show.Maybe(e.Budget, budgetFields),
		"items", show.List(e.Items, itemFields)))
}

func explanationFields(x explain.Explanation) show.Object {
	return show.Fields("title", x.Title, "asks", x.Asks, "answered", x.Way, "not_applicable", x.Not,
		"benchmarks", show.List(x.Marks, func(b benchmark.Benchmark) show.Object {
			return show.Fields("id", b.ID, "what", b.What, "value", b.Value, "unit", b.Unit, "document", show.Said(b.Document),
				"edition", show.Said(b.Edition), "clause", show.Said(b.Clause), "evidence", show.Said(string(b.Evidence)), "source", b.Source(),
				"caveat", show.Said(b.Caveat))
		}), "source", show.Said(x.Source), "keys", x.Moves)
}
