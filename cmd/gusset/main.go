// Command gusset turns a docket — a body, a printed pattern, a length of cloth
// and what the make should be — into checked pieces, a lay, an order of work
// and sheets to cut and sew from.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"

	"github.com/alecthomas/kong"
)

// Exit codes: stop findings, and usage or input and output.
const (
	exitStops = 1
	exitUsage = 2
)

// errStops says that the work was done and found something that stops it.
var errStops = errors.New("stop findings")

// cli is the command line.
type cli struct {
	Measure measureCmd `cmd:"" help:"Say how measures are taken, and what is to be thought of a body's."`
	Make    makeCmd    `cmd:"" help:"Run everything and write the sheets."`
	Check   checkCmd   `cmd:"" help:"Run everything and print the findings only."`
	Import  importCmd  `cmd:"" help:"Take pieces in from open formats, or from ruler and tape."`
	Export  exportCmd  `cmd:"" help:"Give pieces out as DXF, SVG or PDF."`
	Fit     fitCmd     `cmd:"" help:"Print sizes and ease."`
	Walk    walkCmd    `cmd:"" help:"Print every seam as walked."`
	Lay     layCmd     `cmd:"" help:"Print how each cloth is laid; also lays packing instances (.json)."`
	Bench   benchCmd   `cmd:"" help:"Measure the search on packing problems of the literature."`
	Next    nextCmd    `cmd:"" help:"Propose the changes that answer what a fitting showed, and write the next docket."`
	Compare compareCmd `cmd:"" help:"Lay two versions of the pieces over each other: a printed size, the body's sizes, after a step, another docket."`
	Advise  adviseCmd  `cmd:"" help:"Say what would make a cloth suffice that is too short."`
	Order   orderCmd   `cmd:"" help:"Print the order of work."`
	Needs   needsCmd   `cmd:"" help:"Print what the make needs."`
	Cards   cardsCmd   `cmd:"" help:"Print calibration cards to lay beside a piece before it is photographed."`
	Serve   serveCmd   `cmd:"" help:"Open the workroom in the browser."`
	Room    roomCmd    `cmd:"" help:"Move a workroom between a folder and a store, and look at its changes."`
	Trace   traceCmd   `cmd:"" help:"Make a piece of photos taken beside calibration cards."`
	New     newCmd     `cmd:"" help:"Start a workroom from the demo."`
}

// session is what every command works with.
type session struct {
	ctx context.Context
	out io.Writer
	err io.Writer
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// run is main with its surroundings given, for tests.
func run(ctx context.Context, args []string, out, errs io.Writer) int {
	var c cli
	code := -1
	parser, err := kong.New(&c, kong.Name("gusset"), kong.Writers(out, errs),
		kong.Description("From a body, a pattern and a length of cloth to sheets to cut and sew from."),
		kong.Exit(func(n int) { code = n }), kong.UsageOnError())
	if err != nil {
		fmt.Fprintln(errs, err)
		return exitUsage
	}
	if len(args) == 0 || args[0] == "help" {
		args = append(args[min(1, len(args)):len(args):len(args)], "--help") // asked as people ask
	}
	k, err := parser.Parse(args)
	if code >= 0 { // help was printed
		return code
	}
	if err != nil {
		fmt.Fprintf(errs, "gusset: %v\n", err)
		return exitUsage
	}
	switch err := k.Run(&session{ctx: ctx, out: out, err: errs}); {
	case errors.Is(err, errStops):
		return exitStops
	case err != nil:
		fmt.Fprintf(errs, "gusset: %v\n", err)
		return exitUsage
	}
	return 0
}
