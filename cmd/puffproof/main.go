// Command puffproof judges the design of a low-pressure air launcher for foam.
package main

import (
	"context"
	"os"

	"puffproof/cmd/puffproof/internal/app"
)

func main() {
	os.Exit(app.Main(context.Background(), app.ThisMachine(), os.Args))
}
