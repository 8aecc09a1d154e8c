package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/document"
)

// dossierCommand writes the safety file.
func dossierCommand() *Command {
	return &Command{Name: "dossier", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runDossier,
		Summary: "write the safety file: why it may be used, on paper",
		Help: []string{
			"Writes the safety file of the design DESIGN: what you hand to the other adults, the school, the organiser, the insurer. One page " +
				"that two adults sign comes first, then what could hurt whom, the rules of use, the plan, the parts, the pressures, the tests, the " +
				"emptying, the energies, the inspection plan. An appendix stands apart: the argument of claims and what shows them, the top " +
				"events as bow-ties, the sheets to take to the launcher, everything that is needed to repeat the numbers.",
			"The file judges nothing that check does not, but for the logs of --vent-log and --leak-log, which fail it where they are not good: " +
				"failures and unknowns come first in it, and a design that does not hold says so on every page. It begins with the words of check: " +
				"with open items that it holds on the model, is NOT yet confirmed, and is not to be used yet.",
			"The HTML file needs no network and no script, and prints on A4 and Letter. It carries its own inputs: puffproof verify reads them " +
				"back. The same design, date and program make the same file, byte for byte. A screen reader is served best by the HTML file: the " +
				"PDF has language, title, bookmarks and its text in reading order, but no tags.",
			"The exit status is that of check on the date of the paper, and the holds of --json says the same: 0 and true where no verdict " +
				"fails and none is unknown. A date in the design that is past makes the verdict dates.past fail.",
			"Fill in by hand what only people know: names, serial numbers, photographs, readings, signatures.",
		},
		Options: paperOptions("safety-file"),
		Examples: []Example{
			{"puffproof dossier whale.toml", "writes safety-file.html in this folder"},
			{"puffproof dossier whale.toml --format pdf -o whale.pdf", "the same as PDF, the design file attached"},
			{"puffproof dossier whale.toml -o whale.html -o whale.pdf", "both, computed once: all are written, or none"},
			{"puffproof dossier whale.toml --date 2026-05-31 -o - > whale.html", "with a chosen date, to standard output"},
		},
	}
}

// paperOptions are the options of the commands that write papers.
func paperOptions(name string) []Option {
	return []Option{
		{Name: "o", Value: "FILE", Files: true, Writes: true, Many: true,
			Help: "where to write; - is standard output; without it " + name + " with the ending of the format; give it again for further formats"},
		{Name: "format", Value: "FORMAT", Choices: document.Formats(), Many: true,
			Help: "html, pdf or md, several with commas; without it by the ending of FILE, html where there is none"},
		shotsOption("judge on the measured basis, and put the measured shots into the file as they were read"),
		{Name: "vent-log", Value: "FILE.csv", Files: true, Help: "judge a real emptying, and put its readings into the file as they were read"},
		{Name: "leak-log", Value: "FILE.csv", Files: true, Help: "judge a real leak-down, and put its readings into the file as they were read"},
		{Name: "date", Value: "DATE", Help: "the date of the paper, year-month-day; without it that of SOURCE_DATE_EPOCH, or today"},
		{Name: "force", Help: "let the file replace one that exists"},
	}
}

func runDossier(ctx context.Context, call *Call) (status, error) {
	return call.paper(ctx, "safety-file", document.SafetyFile)
}
