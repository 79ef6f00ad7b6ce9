package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var fence = regexp.MustCompile("(?ms)^```(\\w+)([^\n]*)\n(.*?)^```")

// Every guide page is run: its files are written, its commands executed, and
// each line that it shows must be in what the program prints. A command written
// with "!" must fail.
func TestGuides(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: the guides' commands are run in full without the race detector")
	}
	pages, err := filepath.Glob("../../docs/guide/*.md")
	if err != nil || len(pages) == 0 {
		t.Fatal("no guide pages", err)
	}
	for _, page := range pages {
		text, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(filepath.Base(page), func(t *testing.T) {
			t.Chdir(t.TempDir())
			commands := 0
			for _, m := range fence.FindAllStringSubmatch(string(text), -1) {
				switch kind, name := m[1], strings.TrimSpace(m[2]); kind {
				case "yaml":
					if err := os.WriteFile(filepath.FromSlash(name), []byte(m[3]), 0o666); err != nil {
						t.Fatal(err)
					}
				case "console":
					commands += console(t, m[3])
				}
			}
			if commands == 0 {
				t.Error("the page runs no command")
			}
		})
	}
}

// console runs the commands of one console block and returns how many.
func console(t *testing.T, block string) int {
	t.Helper()
	var printed bytes.Buffer
	n := 0
	for _, line := range strings.Split(strings.TrimSpace(block), "\n") {
		command, isCommand := strings.CutPrefix(line, "$ ")
		if !isCommand {
			if !strings.Contains(printed.String(), strings.TrimSpace(line)) {
				t.Errorf("the page shows %q, the program printed\n%s", line, printed.String())
			}
			continue
		}
		n++
		command, fails := strings.CutPrefix(command, "! ")
		args := strings.Fields(command)
		if args[0] != "gusset" {
			t.Fatalf("%q is not a command of ours", command)
		}
		printed.Reset()
		if code := run(context.Background(), args[1:], &printed, &printed); (code != 0) != fails {
			t.Errorf("%s: exit code %d\n%s", command, code, printed.String())
		}
	}
	return n
}
