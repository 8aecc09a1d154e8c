package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/document"
)

// cardCommand writes the card that stays with the launcher.
func cardCommand() *Command {
	return &Command{Name: "card", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runCard,
		Summary: "write the one-page card that stays with the launcher",
		Help: []string{
			"Writes one page to laminate and keep with the launcher: what it is set to, what to check before use, the time that emptying takes, " +
				"how to stop, what to do when a projectile sticks, who may hold the key, and until when the card holds. A QR code on it has the " +
				"fingerprint of the design file, for a phone.",
			"The card of a design that does not hold, or has open items, says so at its top. Make it again after every change of the build.",
		},
		Options: paperOptions("card"),
		Examples: []Example{
			{"puffproof card whale.toml", "writes card.html in this folder"},
			{"puffproof card whale.toml --format pdf", "writes card.pdf"},
		},
	}
}

func runCard(ctx context.Context, call *Call) (status, error) {
	return call.paper(ctx, "card", document.CardPaper)
}
