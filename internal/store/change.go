package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"time"
)

// MaxFile is the largest file that is kept, in bytes: that of the largest
// drawing which is read (source.MaxSVG).
const MaxFile = 16 << 20

// maxPath is the longest path that is kept, in bytes.
const maxPath = 400

// Edit is what is to become of one file.
type Edit struct {
	Path string // relative to the workroom, with forward slashes
	Data []byte
	Gone bool // the file is taken away
	// Base is the version that the editor saw: the number of the change that
	// wrote it; 0 when there was no such file.
	Base int64
}

// Version is a file as one change left it.
type Version struct {
	Path   string
	Change int64
	Before int64 // the change of the version before; 0 for none
	Gone   bool
	Size   int64
}

// Change is a numbered change of the workroom.
type Change struct {
	Number int64
	At     time.Time
	By     string
	Note   string
	Files  []Version
}

// Conflict says that a file is no longer the one that the editor saw.
type Conflict struct {
	Path string
	Base int64
	Now  Version // Change is 0 when there is no such file
	By   string
	At   time.Time
}

func (c *Conflict) Error() string {
	switch {
	case c.Now.Gone:
		return fmt.Sprintf("%s was taken away by %s since it was read", c.Path, c.By)
	case c.Now.Change == 0:
		return fmt.Sprintf("%s is not there", c.Path)
	case c.Base == 0:
		return fmt.Sprintf("there is a %s already, written by %s", c.Path, c.By)
	}
	return fmt.Sprintf("%s was written by %s since it was read", c.Path, c.By)
}

// ErrPath says that a path cannot name a file of a workroom; ErrSize that a file
// is larger than MaxFile; ErrTwice that a change edits one file twice.
var (
	ErrPath  = errors.New("not the path of a file in a workroom")
	ErrSize  = errors.New("file is too large")
	ErrTwice = errors.New("one change edits this file twice")
)

// Save makes a change of all the edits or of none, and returns its number. The
// error is a *Conflict when one of the files is not the one the editor saw.
// Edits that leave everything as it is make no change; the number is then that
// of the last one.
func (s *Store) Save(ctx context.Context, by, note string, edits ...Edit) (int64, error) {
	seen := map[string]bool{}
	for _, e := range edits {
		if err := e.check(); err != nil {
			return 0, err
		}
		if seen[e.Path] {
			return 0, fmt.Errorf("%s: %w", e.Path, ErrTwice)
		}
		seen[e.Path] = true
	}
	var number int64
	err := s.write(ctx, func(tx *sql.Tx) error {
		var err error
		number, err = s.saveIn(ctx, tx, by, note, edits)
		return err
	})
	if err != nil {
		return 0, fmt.Errorf("save: %w", err)
	}
	return number, nil
}

func (e Edit) check() error {
	switch {
	case !fs.ValidPath(e.Path) || e.Path == "." || e.Path == TicksFile || len(e.Path) > maxPath || bytes.ContainsFunc([]byte(e.Path), unprintable):
		return fmt.Errorf("%q: %w", e.Path, ErrPath)
	case len(e.Data) > MaxFile:
		return fmt.Errorf("%s: %w", e.Path, ErrSize)
	}
	return nil
}

func unprintable(r rune) bool { return r < ' ' || r == 0x7f || r == '\\' }

func (s *Store) saveIn(ctx context.Context, tx *sql.Tx, by, note string, edits []Edit) (int64, error) {
	head, err := s.head(ctx, tx)
	if err != nil {
		return 0, err
	}
	number := head + 1
	var versions []Version
	for _, e := range edits {
		v, same, err := s.compare(ctx, tx, e)
		if err != nil {
			return 0, err
		}
		if !same {
			v.Change = number
			versions = append(versions, v)
		}
	}
	if len(versions) == 0 {
		return head, nil
	}
	_, err = tx.ExecContext(ctx, s.sql("INSERT INTO changes (number, at, made_by, note) VALUES (?, ?, ?, ?)"),
		number, s.now().UnixMilli(), by, note)
	if err != nil {
		return 0, err
	}
	data := map[string][]byte{}
	for _, e := range edits {
		data[e.Path] = e.Data
	}
	for _, v := range versions {
		gone, bytes := 0, append([]byte{}, data[v.Path]...)
		if v.Gone {
			gone, bytes = 1, nil
		}
		_, err := tx.ExecContext(ctx, s.sql("INSERT INTO versions (path, change, before, gone, size, data) VALUES (?, ?, ?, ?, ?, ?)"),
			v.Path, v.Change, v.Before, gone, v.Size, bytes)
		if err != nil {
			return 0, err
		}
	}
	return number, nil
}

// compare holds an edit against the file as it is now, and gives the version
// that the edit makes of it.
func (s *Store) compare(ctx context.Context, tx *sql.Tx, e Edit) (v Version, same bool, err error) {
	now, err := s.latest(ctx, tx, e.Path)
	if err != nil {
		return v, false, err
	}
	there := now.Change
	if now.Gone {
		there = 0
	}
	if e.Base != there {
		c := &Conflict{Path: e.Path, Base: e.Base, Now: now}
		if now.Change > 0 {
			var at int64
			row := tx.QueryRowContext(ctx, s.sql("SELECT made_by, at FROM changes WHERE number = ?"), now.Change)
			if err := row.Scan(&c.By, &at); err != nil {
				return v, false, err
			}
			c.At = when(at)
		}
		return v, false, c
	}
	v = Version{Path: e.Path, Before: now.Change, Gone: e.Gone, Size: int64(len(e.Data))}
	if e.Gone {
		v.Size = 0
		return v, there == 0, nil
	}
	if there == 0 || now.Size != v.Size {
		return v, false, nil
	}
	var old []byte
	row := tx.QueryRowContext(ctx, s.sql("SELECT data FROM versions WHERE path = ? AND change = ?"), e.Path, there)
	if err := row.Scan(&old); err != nil {
		return v, false, err
	}
	return v, bytes.Equal(old, e.Data), nil
}

// asker is a database or a transaction.
type asker interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

func (s *Store) head(ctx context.Context, from asker) (int64, error) {
	var n int64
	err := from.QueryRowContext(ctx, "SELECT coalesce(max(number), 0) FROM changes").Scan(&n)
	return n, err
}

// latest is the last version of a file; zero when there never was one.
func (s *Store) latest(ctx context.Context, from asker, path string) (Version, error) {
	v := Version{Path: path}
	err := from.QueryRowContext(ctx,
		s.sql("SELECT change, before, gone, size FROM versions WHERE path = ? ORDER BY change DESC LIMIT 1"), path).
		Scan(&v.Change, &v.Before, &v.Gone, &v.Size)
	if errors.Is(err, sql.ErrNoRows) {
		return v, nil
	}
	return v, err
}

// Head is the number of the last change; 0 for an empty workroom.
func (s *Store) Head(ctx context.Context) (int64, error) {
	n, err := s.head(ctx, s.db)
	if err != nil {
		return 0, fmt.Errorf("last change: %w", err)
	}
	return n, nil
}
