package making

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// broken is one slip made in one file of the test workroom, and what is to be
// said about it.
type broken struct {
	name string
	file string
	old  string // what is replaced, once; empty: the whole file
	new  string
	code string // a finding of this code,
	at   string // on the line of the file that has this text; empty: on the line of new
	in   string // in this file; empty: in file
	all  bool   // old is replaced everywhere
}

func (b broken) want() (file, text string) {
	file, text = b.in, b.at
	if file == "" {
		file = b.file
	}
	if text == "" {
		text = strings.TrimSpace(b.new)
	}
	return file, text
}

// spoil makes the slip.
func (b broken) spoil(t *testing.T, m fstest.MapFS) {
	t.Helper()
	text := string(m[b.file].Data)
	if b.old == "" {
		m[b.file] = &fstest.MapFile{Data: []byte(b.new)}
		return
	}
	if strings.Count(text, b.old) == 0 {
		t.Fatalf("%s has no %q", b.file, b.old)
	}
	times := 1
	if b.all {
		times = -1
	}
	m[b.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, b.old, b.new, times))}
}

// Every slip is told with its code on its line, once or a few times and not once
// for each thing that leans on it; nothing panics, and a slip is no error of the
// program.
func TestBroken(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("every row opens the room again: left out of the quick run")
	}
	seen := map[string]bool{}
	rows := slips()
	for _, b := range rows {
		if seen[b.name] {
			t.Errorf("two rows are called %q", b.name)
		}
		seen[b.name] = true
		t.Run(b.name, func(t *testing.T) {
			m := roomFS(t)
			b.spoil(t, m)
			_, found, err := Open(m, tabard)
			if err != nil {
				t.Fatalf("an error where a finding is wanted: %v", err)
			}
			if len(found) > 6 {
				t.Errorf("%d findings from one slip: %v", len(found), found.Codes())
			}
			file, text := b.want()
			for _, f := range found {
				on := f.Place.Text
				if b.old == "" && b.at == "" {
					on, text = "", ""
				}
				if f.Code() == b.code && f.Place.File == file && strings.Contains(on, text) {
					return
				}
			}
			t.Errorf("want %s in %s on the line with %q; found", b.code, file, text)
			for _, f := range found {
				t.Errorf("  %s: %s: %s\n    %s", f.Place.Source(), f.Code(), f.Text(), f.Place.Text)
			}
		})
	}
	if len(rows) < 60 {
		t.Errorf("%d rows, want 60 or more", len(rows))
	}
}
