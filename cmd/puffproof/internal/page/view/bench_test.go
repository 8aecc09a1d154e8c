package view

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/page/answer"
	"puffproof/cmd/puffproof/internal/quantity"
)

// What the program does for one move of a slider, step by step (testdata/bench/page.md).
//
//	go test ./cmd/puffproof/internal/page/view -run '^$' -bench Move
func BenchmarkMove(b *testing.B) {
	file, err := os.ReadFile("../../../../../testdata/designs/whale.toml")
	require.NoError(b, err)
	forms, reader := design.NewForms(quantity.Metric), design.Reader{Units: quantity.Metric}
	st := &State{Text: string(file), Altered: true, Day: "2026-05-31"}
	read := func() {
		st.Tables, err = forms.Tables(file)
		require.NoError(b, err)
		opened, _ := reader.Open("whale.toml", file)
		st.Launcher = opened.Launcher()
	}
	var memo Memo
	b.Run("read", func(b *testing.B) {
		for b.Loop() {
			read()
		}
	})
	b.Run("parts-before", func(b *testing.B) {
		for b.Loop() {
			st.Generation++
			st.Launcher = st.Launcher.Clone() // another draft
			Parts(st, &memo)
		}
	})
	quick, err := answer.Nominal(b.Context(), st.Launcher)
	require.NoError(b, err)
	b.Run("nominal", func(b *testing.B) {
		for b.Loop() {
			_, err := answer.Nominal(b.Context(), st.Launcher)
			require.NoError(b, err)
		}
	})
	b.Run("parts", func(b *testing.B) {
		for b.Loop() {
			st.Generation++
			q := *quick
			st.Quick = &q
			Parts(st, &memo)
		}
	})
}
