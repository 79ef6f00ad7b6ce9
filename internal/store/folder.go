package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"gusset/internal/source"
)

// TakeIn makes the workroom hold what a folder holds, as one change: files are
// added and replaced, byte for byte, and none is taken away. It returns the
// number of the change and what was left aside: hidden files, output (the
// folder out), what is no plain file, and what is too large.
func (s *Store) TakeIn(ctx context.Context, by string, folder fs.FS) (change int64, aside []string, err error) {
	now, err := s.Now(ctx)
	if err != nil {
		return 0, nil, err
	}
	var edits []Edit
	var ticks map[string][]Tick
	err = fs.WalkDir(folder, ".", func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case p == ".":
			return nil
		case strings.HasPrefix(d.Name(), ".") || p == "out":
			aside = append(aside, p)
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case d.IsDir():
			return nil
		case !d.Type().IsRegular():
			aside = append(aside, p)
			return nil
		}
		data, err := readUpTo(folder, p, MaxFile+1)
		if err != nil {
			return err
		}
		if p == TicksFile {
			if ticks, err = readTicks(data); err != nil {
				aside = append(aside, p)
			}
			return nil
		}
		e := Edit{Path: p, Data: data}
		if v, ok := now.Version(p); ok {
			e.Base = v.Change
		}
		if err := e.check(); err != nil {
			aside = append(aside, p)
			return nil
		}
		edits = append(edits, e)
		return nil
	})
	if err != nil {
		return 0, aside, fmt.Errorf("take in: %w", err)
	}
	if change, err = s.Save(ctx, by, "take in a folder", edits...); err != nil {
		return change, aside, err
	}
	return change, aside, s.takeTicks(ctx, ticks)
}

// readUpTo reads no more of a file than is needed to refuse it for its size.
func readUpTo(folder fs.FS, name string, most int64) ([]byte, error) {
	f, err := folder.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most))
}

// ErrThere says that a file would be written over by another of the same name.
var ErrThere = errors.New("there is another file of this name")

// WriteOut writes a snapshot into a folder, byte for byte, and the ticks as
// AllTicks gives them, all of it or nothing. A file that is there already with other content is not written over:
// the error is then ErrThere.
func WriteOut(snap *Snapshot, ticks []byte, folder string) error {
	files := map[string][]byte{}
	if ticks != nil {
		files[TicksFile] = ticks
	}
	for p := range snap.files {
		data, err := snap.ReadFile(p)
		if err != nil {
			return fmt.Errorf("write out: %w", err)
		}
		files[p] = data
	}
	if len(files) == 0 {
		return nil
	}
	for p, data := range files {
		f, err := source.Read(filepath.Join(folder, filepath.FromSlash(p)), p)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return fmt.Errorf("write out: %w", err)
		case !bytes.Equal(f.Data, data):
			return fmt.Errorf("write out %s: %w", path.Join(filepath.ToSlash(folder), p), ErrThere)
		}
	}
	return source.WriteAll(folder, files)
}

// Paths lists the files of the snapshot in the order of the alphabet.
func (s *Snapshot) Paths() []string {
	var out []string
	for p := range s.files {
		out = append(out, p)
	}
	slices.Sort(out)
	return out
}
