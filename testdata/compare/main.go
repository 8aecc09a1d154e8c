// Command compare sets two builds of puffproof side by side: every command on the
// shipped designs, those of the tests and random ones, byte for byte. It says where
// they differ, and ends with status 1 where a difference was not expected. See
// README.md.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"sync"
	"time"
)

// config is what the flags ask for.
type config struct {
	old, new  string
	root      string // of the repository
	designs   int
	seed      uint64
	commands  string
	only      string
	allow     string
	cache     string
	write     string
	strength  string
	timeout   time.Duration
	dear      time.Duration
	atOnce    int
	deep      bool
	reuseNew  bool
	repoFiles bool
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

func flags(args []string, stderr io.Writer) (config, error) {
	var c config
	f := flag.NewFlagSet("compare", flag.ContinueOnError)
	f.SetOutput(stderr)
	f.StringVar(&c.old, "old", "", "the program as it was; its outputs are kept in the cache")
	f.StringVar(&c.new, "new", "", "the program as it is; without it the cache is filled for -old")
	f.StringVar(&c.root, "root", ".", "top folder of the repository, for the designs in it")
	f.IntVar(&c.designs, "designs", 120, "number of random designs")
	f.Uint64Var(&c.seed, "seed", 0, "seed of the first random design; the others follow")
	f.StringVar(&c.commands, "commands", "*", "comma-separated names of commands to run, * and ? allowed")
	f.StringVar(&c.only, "only", "", "comma-separated names of designs to run, * and ? allowed")
	f.StringVar(&c.allow, "allow", "", "file of the differences that are expected, each with its reason")
	f.StringVar(&c.cache, "cache", filepath.Join(os.TempDir(), "compare-cache"), "folder of the outputs that are kept")
	f.StringVar(&c.write, "write", "", "only write the design files into this folder")
	f.StringVar(&c.strength, "strength", "0.02", "how hard the searches look, in builds with the tag weaksearch")
	f.DurationVar(&c.timeout, "timeout", time.Minute, "longest time of one command, in whole seconds of the processor")
	f.DurationVar(&c.dear, "dear", 4*time.Second, "a design whose check computes longer in the old program is not asked further")
	f.IntVar(&c.atOnce, "at-once", 2, "commands that run at a time")
	f.BoolVar(&c.deep, "deep", false, "run every command on every design; without it random designs share the dear ones out")
	f.BoolVar(&c.reuseNew, "reuse", false, "take the outputs of -new from the cache too, such as after a change of the -allow file")
	f.BoolVar(&c.repoFiles, "files", true, "take the designs of the repository beside the random ones")
	if err := f.Parse(args); err != nil {
		return c, err
	}
	if c.old == "" && c.write == "" || f.NArg() > 0 {
		return c, fmt.Errorf("usage: compare -old PROGRAM [-new PROGRAM] [flags]; -help lists them")
	}
	return c, nil
}

// run is the program; it gives the exit status: 0 no unexpected difference, 1 some, 2
// it could not compare.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	c, err := flags(args, stderr)
	if err == nil {
		var differ bool
		if differ, err = c.compare(ctx, stdout, stderr); err == nil && differ {
			return 1
		}
	}
	if err != nil {
		fmt.Fprintln(stderr, "compare:", err)
		return 2
	}
	return 0
}

// compare does the work and tells whether there is an unexpected difference.
func (c config) compare(ctx context.Context, stdout, stderr io.Writer) (bool, error) {
	designs, err := c.gather()
	if err != nil {
		return false, err
	}
	if c.write != "" {
		return false, writeDesigns(c.write, designs)
	}
	expected, err := readAllowed(c.allow)
	if err != nil {
		return false, err
	}
	chosen, err := chosenSteps(c.commands)
	if err != nil {
		return false, err
	}
	runner := &runner{cache: c.cache, strength: c.strength, timeout: c.timeout, slots: make(chan struct{}, c.atOnce),
		day: time.Now().Format(time.DateOnly)}
	was, err := openProgram(ctx, c.old)
	if err != nil {
		return false, err
	}
	now := was
	if c.new != "" {
		if now, err = openProgram(ctx, c.new); err != nil {
			return false, err
		}
		now.fresh = !c.reuseNew
	}
	from := time.Now()
	results := newResults(expected)
	c.each(ctx, designs, func(d design) {
		s := &scene{ctx: ctx, runner: runner, design: d, was: was, now: now, dear: c.dear, memo: map[string]outcome{}}
		for _, step := range chosen {
			if step.suits(s, c.deep) {
				results.add(s.compare(step))
			}
		}
		results.done(s.err)
		results.progress(stderr, len(designs))
	})
	if ctx.Err() != nil {
		return false, fmt.Errorf("interrupted; what was computed is kept in %s", c.cache)
	}
	if err := results.err(); err != nil {
		return false, err
	}
	if c.new == "" {
		fmt.Fprintf(stdout, "Filled the cache for %s: %d designs in %s.\n", c.old, len(designs), time.Since(from).Round(time.Second))
		results.write(stdout, c.dear)
		return false, nil
	}
	results.write(stdout, c.dear)
	fmt.Fprintf(stdout, "%d designs in %s.\n", len(designs), time.Since(from).Round(time.Second))
	return results.unexpected(), nil
}

// each runs do for every design, so many at a time.
func (c config) each(ctx context.Context, designs []design, do func(design)) {
	var wait sync.WaitGroup
	queue := make(chan design)
	for range c.atOnce {
		wait.Go(func() {
			for d := range queue {
				do(d)
			}
		})
	}
	for _, d := range designs {
		if ctx.Err() == nil {
			queue <- d
		}
	}
	close(queue)
	wait.Wait()
}
