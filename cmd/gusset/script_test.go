package main

import (
	"context"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"gusset": func() { os.Exit(run(context.Background(), os.Args[1:], os.Stdout, os.Stderr)) },
	})
}

// The command as a user runs it; each script says what it guards. The quick run
// (GUSSET_QUICK) is for the race detector, under which the searches take
// minutes: it keeps the scripts that put every stage and sheet to work once.
func TestScripts(t *testing.T) {
	p := testscript.Params{Dir: "testdata/script"}
	if os.Getenv("GUSSET_QUICK") != "" {
		p = testscript.Params{Files: []string{"testdata/script/demo.txtar", "testdata/script/measure.txtar"}}
	}
	testscript.Run(t, p)
}
