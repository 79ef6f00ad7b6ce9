package main

import (
	"errors"
	"fmt"
	"os"
	"path"
	"path/filepath"

	"gusset/internal/finding"
	"gusset/internal/making"
)

// docketArg is the docket that most commands take.
type docketArg struct {
	Docket string `arg:"" help:"The docket: WORKROOM/dockets/NAME.yaml." type:"path"`
	JSON   bool   `name:"json" help:"Print JSON."`
}

// workroom finds the workroom folder of a docket and the docket's place in it.
func workroom(docket string) (root, inside string, err error) {
	dir, file := filepath.Split(filepath.Clean(docket))
	if filepath.Base(filepath.Clean(dir)) != "dockets" {
		return "", "", fmt.Errorf("%s does not lie in the dockets folder of a workroom", docket)
	}
	if _, err := os.Stat(docket); errors.Is(err, os.ErrNotExist) {
		return "", "", fmt.Errorf("there is no docket %s", docket)
	}
	return filepath.Dir(filepath.Clean(dir)), path.Join("dockets", file), nil
}

// open reads the docket and all that it names.
func (a docketArg) open() (making.Inputs, finding.List, error) {
	root, inside, err := workroom(a.Docket)
	if err != nil {
		return making.Inputs{}, nil, err
	}
	return making.Open(os.DirFS(root), inside)
}

// run opens the docket and makes it up to a stage. With Stop findings on
// reading, nothing is made.
func (a docketArg) run(s *session, until making.Stage, e making.Effort) (making.Inputs, making.Result, error) {
	return a.runWith(s, until, e, nil, false)
}

// runWith is run with lays that the user has written down, by their files.
func (a docketArg) runWith(s *session, until making.Stage, e making.Effort, lays []string, asWritten bool) (making.Inputs, making.Result, error) {
	in, found, err := a.open()
	if err != nil {
		return in, making.Result{}, err
	}
	told, err := byHand(&in, lays, asWritten)
	if err != nil {
		return in, making.Result{}, err
	}
	if found = append(found, told...); found.Stops() > 0 {
		return in, making.Result{Findings: found}, nil
	}
	r := making.Run(s.ctx, in, until, e, nil)
	r.Findings = append(found, r.Findings...)
	return in, r, nil
}

// ended turns the findings into the command's outcome.
func ended(found finding.List) error {
	if found.Stops() > 0 {
		return errStops
	}
	return nil
}
