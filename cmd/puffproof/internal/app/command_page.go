package app

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"runtime"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/page"
	"puffproof/cmd/puffproof/internal/paper"
)

// pageCommand shows a launcher in a browser.
func pageCommand() *Command {
	return &Command{Name: "page", Operands: "DESIGN [DESIGN]", Min: 1, Max: 2, Files: true, Run: runPage, Serves: true,
		Summary: "the launcher in a browser: turn its figures, see what comes",
		Help: []string{
			"Serves one page of the design DESIGN to a browser on this machine, and opens the browser. A figure that is turned there shows at " +
				"once what the nominal shot becomes, then what a first look finds, then what check says. Advice is applied with a button, every " +
				"step can be undone, and nothing is written before Save is pressed; then only the bytes of the changed values are.",
			"The first line on standard output is the link. It holds a key: without the key, or from another page, nothing is answered. " +
				"Only the files named here are read and written. What an editor writes meanwhile is noticed and shown as a choice.",
			"The page loads nothing from elsewhere. It is served on the loopback address, which only this machine reaches; --listen names " +
				"another address of this machine, such as for a phone on the bench, and then everyone on that network who has the link can " +
				"change the design: it is not encrypted.",
			"It ends with ctrl-C, or by itself two minutes after the last page was closed, unless a draft is not saved; --stay keeps it.",
		},
		Options: []Option{
			{Name: "no-browser", Help: "print the link only"},
			{Name: "listen", Value: "ADDRESS", Help: "serve at this address of the machine, with or without a port, such as 127.0.0.1:8080"},
			{Name: "stay", Help: "do not end when the last page was closed"},
		},
		Examples: []Example{
			{"puffproof page launcher.toml", "open it in the browser"},
			{"puffproof page launcher.toml better.toml", "two designs, side by side"},
			{"puffproof page launcher.toml --no-browser --listen 192.168.1.20", "for a phone on the bench"},
		},
	}
}

func runPage(ctx context.Context, call *Call) (status, error) {
	for _, name := range call.Args {
		if name == "-" {
			return 0, inputErrorf("-: a page writes what it reads; name the design's file")
		}
	}
	err := page.Serve(ctx, page.Options{Names: call.Args, Listen: call.flags.String("listen"), Units: call.style.Units, Today: call.today,
		Stay: whether(call, "stay", page.Stays, page.EndsAlone), Read: call.readFile, Paper: call.pagePaper, Program: program(), Now: call.Now,
		Ready: func(link, once, warning string) error { return call.announce(link, once, warning) }})
	var address *page.AddressError
	if errors.As(err, &address) {
		return 0, inputErrorf("%s", address.Text)
	}
	return statusOK, err
}

// pagePaper makes a paper of a design's text, as dossier and card do.
func (c *Call) pagePaper(ctx context.Context, kind, name string, text []byte) ([]byte, error) {
	which := document.SafetyFile
	if kind == "card" {
		which = document.CardPaper
	}
	beside, err := c.recordBeside(ctx, name)
	if err != nil {
		return nil, err
	}
	in, err := c.framePaper(name, string(text), beside)
	if err == nil {
		err = ownRecord(name, &in, beside)
	}
	if err != nil {
		return nil, err
	}
	in.Units, in.Date, in.Attached = c.style.Units, c.today(), beside
	if err := readAttached(ctx, &in); err != nil {
		return nil, err
	}
	if _, err := assess(ctx, &in, pairsIn(which)); err != nil {
		return nil, err
	}
	doc, err := paper.Make(which, in)
	if err != nil {
		return nil, err
	}
	return document.Write(doc, document.Formats()[0])
}

// announce prints the link, before anything else and at once, and opens it where a browser can be.
func (c *Call) announce(link, once, warning string) error {
	if _, err := fmt.Fprintln(c.Stdout, link); err != nil {
		return inputErrorf("the link could not be written: %v", err)
	}
	if warning != "" {
		fmt.Fprintln(c.Stderr, "puffproof: "+warning)
	}
	if !c.flags.Bool("no-browser") {
		c.openBrowser(once)
	}
	if !c.quiet {
		fmt.Fprintln(c.Stderr, "Ctrl-C ends it.")
	}
	return nil
}

// openBrowser asks the desktop to open a link; where there is none the printed link serves.
func (c *Call) openBrowser(link string) {
	var command []string
	switch runtime.GOOS {
	case "darwin":
		command = []string{"open", link}
	case "windows":
		command = []string{"rundll32", "url.dll,FileProtocolHandler", link}
	default:
		if lookup(c.Environ, "DISPLAY") == "" && lookup(c.Environ, "WAYLAND_DISPLAY") == "" {
			return
		}
		command = []string{"xdg-open", link}
	}
	browser := exec.Command(command[0], command[1:]...)
	if browser.Start() == nil {
		go func() { _ = browser.Wait() }()
	}
}
