package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// ErrNoChange says that there is no change of this number.
var ErrNoChange = errors.New("there is no such change")

// History lists changes, the last first: those that touched the file at path,
// or all of them when path is empty; only those numbered below before, unless
// before is 0; at most limit of them.
func (s *Store) History(ctx context.Context, path string, before int64, limit int) ([]Change, error) {
	list, err := s.history(ctx, path, before, limit)
	if err != nil {
		return nil, fmt.Errorf("history: %w", err)
	}
	return list, nil
}

func (s *Store) history(ctx context.Context, path string, before int64, limit int) ([]Change, error) {
	rows, err := s.db.QueryContext(ctx, s.sql(`SELECT number, at, made_by, note FROM changes
		WHERE (? = '' OR number IN (SELECT change FROM versions WHERE path = ?)) AND (? = 0 OR number < ?)
		ORDER BY number DESC LIMIT ?`), path, path, before, before, limit)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var list []Change
	for rows.Next() {
		var c Change
		var at int64
		if err := rows.Scan(&c.Number, &at, &c.By, &c.Note); err != nil {
			return nil, err
		}
		c.At = when(at)
		list = append(list, c)
	}
	if err := rows.Err(); err != nil {
		return nil, err
	}
	for i := range list {
		if list[i].Files, err = s.files(ctx, s.db, list[i].Number); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// files are the versions that one change wrote, in the order of their paths.
func (s *Store) files(ctx context.Context, from asker, change int64) ([]Version, error) {
	rows, err := from.QueryContext(ctx,
		s.sql("SELECT path, change, before, gone, size FROM versions WHERE change = ? ORDER BY path"), change)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var list []Version
	for rows.Next() {
		var v Version
		if err := rows.Scan(&v.Path, &v.Change, &v.Before, &v.Gone, &v.Size); err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	return list, rows.Err()
}

// Undo makes a change that gives every file of an earlier change what it held
// before it. A file that no longer holds what that change wrote is a *Conflict,
// and nothing is undone. So changes can be undone one after the other from the
// last, and undoing an undo does the change again.
func (s *Store) Undo(ctx context.Context, by string, change int64) (int64, error) {
	var number int64
	err := s.write(ctx, func(tx *sql.Tx) error {
		files, err := s.files(ctx, tx, change)
		if err != nil {
			return err
		}
		if len(files) == 0 {
			return ErrNoChange
		}
		var edits []Edit
		for _, v := range files {
			e, err := s.back(ctx, tx, v)
			if err != nil {
				return err
			}
			edits = append(edits, e)
		}
		number, err = s.saveIn(ctx, tx, by, fmt.Sprintf("undo %d", change), edits)
		return err
	})
	if err != nil {
		return 0, fmt.Errorf("undo change %d: %w", change, err)
	}
	return number, nil
}

// back is the edit that puts the version before v in its place, made for the
// file as it is now where it still holds what v does.
func (s *Store) back(ctx context.Context, tx *sql.Tx, v Version) (Edit, error) {
	e := Edit{Path: v.Path, Gone: true}
	now, err := s.latest(ctx, tx, v.Path)
	if err != nil {
		return e, err
	}
	base := now
	if now.Change != v.Change {
		same, err := s.alike(ctx, tx, now, v)
		if err != nil {
			return e, err
		}
		if !same {
			base = v // which is not what is there
		}
	}
	if !base.Gone {
		e.Base = base.Change
	}
	if v.Before == 0 {
		return e, nil
	}
	err = tx.QueryRowContext(ctx, s.sql("SELECT gone, data FROM versions WHERE path = ? AND change = ?"), v.Path, v.Before).
		Scan(&e.Gone, &e.Data)
	return e, err
}

// alike reports whether two versions of a file hold the same.
func (s *Store) alike(ctx context.Context, from asker, a, b Version) (bool, error) {
	if a.Gone != b.Gone || a.Size != b.Size {
		return false, nil
	}
	var data [2][]byte
	for i, v := range []Version{a, b} {
		row := from.QueryRowContext(ctx, s.sql("SELECT data FROM versions WHERE path = ? AND change = ?"), v.Path, v.Change)
		if err := row.Scan(&data[i]); err != nil {
			return false, err
		}
	}
	return bytes.Equal(data[0], data[1]), nil
}
