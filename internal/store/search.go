package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Search is a long search for lays that somebody has asked for: one for each
// docket, the last one asked. Whoever works at it holds it for a while and says
// again and again that they still do; when they no longer do, another takes it
// over from the state that was last kept. What is asked and what the state is, is
// for those who ask and work.
type Search struct {
	Docket  string
	Number  int64 // counts the searches of a docket
	Asked   string
	State   string // as last kept; empty when nobody has worked at it yet
	Stopped bool   // to be ended with what is found by now
	Ended   bool
}

// ErrLost says that a search is no longer in one's hands: another one was asked
// for, or somebody else has taken it over.
var ErrLost = errors.New("the search is in other hands")

// AskSearch asks for a search for a docket, in place of any asked before, which
// goes on from the lays given, by what their cloth is for.
func (s *Store) AskSearch(ctx context.Context, docket, asked string, lays map[string][]byte) (Search, error) {
	x := Search{Docket: docket, Asked: asked}
	err := s.write(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, s.sql("SELECT coalesce(max(number), 0) + 1 FROM searches WHERE docket = ?"), docket).Scan(&x.Number)
		if err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, s.sql(`INSERT INTO searches (docket, number, asked, state, holder, until, stopped, ended) VALUES (?, ?, ?, '', '', 0, 0, 0)
			ON CONFLICT (docket) DO UPDATE SET number = excluded.number, asked = excluded.asked, state = '', holder = '', until = 0, stopped = 0, ended = 0`),
			docket, x.Number, asked)
		if err != nil {
			return err
		}
		return s.putLays(ctx, tx, docket, lays)
	})
	if err != nil {
		return x, fmt.Errorf("ask for a search: %w", err)
	}
	return x, nil
}

const free = "ended = 0 AND (holder = '' OR until < "

// TakeSearch takes a search that nobody holds, for so long; ok is false when
// there is none. Times are those of the database, so that machines need not agree
// about the hour.
func (s *Store) TakeSearch(ctx context.Context, holder string, hold time.Duration) (x Search, ok bool, err error) {
	var there int
	err = s.db.QueryRowContext(ctx, "SELECT count(*) FROM searches WHERE "+free+s.kind.clock+")").Scan(&there)
	if err != nil || there == 0 {
		return x, false, err
	}
	err = s.write(ctx, func(tx *sql.Tx) error {
		row := tx.QueryRowContext(ctx, "SELECT docket, number, asked, state, stopped FROM searches WHERE "+free+s.kind.clock+") ORDER BY until, docket LIMIT 1")
		if err := row.Scan(&x.Docket, &x.Number, &x.Asked, &x.State, &x.Stopped); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, s.sql("UPDATE searches SET holder = ?, until = "+s.kind.clock+" + ? WHERE docket = ?"), holder, hold.Milliseconds(), x.Docket)
		return err
	})
	if errors.Is(err, sql.ErrNoRows) { // another was quicker
		return x, false, nil
	}
	if err != nil {
		return x, false, fmt.Errorf("take a search: %w", err)
	}
	return x, true, nil
}

// KeepSearch keeps the state of a search that one holds, and the lays found with
// it, by what their cloth is for, all together; it holds the search for so much
// longer, and tells whether it is to be ended. ErrLost means that nothing was
// kept.
func (s *Store) KeepSearch(ctx context.Context, x Search, holder string, hold time.Duration, lays map[string][]byte) (stopped bool, err error) {
	err = s.write(ctx, func(tx *sql.Tx) error {
		row := tx.QueryRowContext(ctx, s.sql("SELECT stopped FROM searches WHERE docket = ? AND number = ? AND holder = ? AND ended = 0"), x.Docket, x.Number, holder)
		if err := row.Scan(&stopped); errors.Is(err, sql.ErrNoRows) {
			return ErrLost
		} else if err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, s.sql("UPDATE searches SET state = ?, until = "+s.kind.clock+" + ? WHERE docket = ?"), x.State, hold.Milliseconds(), x.Docket)
		if err != nil {
			return err
		}
		return s.putLays(ctx, tx, x.Docket, lays)
	})
	return stopped, err
}

func (s *Store) putLays(ctx context.Context, tx *sql.Tx, docket string, lays map[string][]byte) error {
	for role, data := range lays {
		_, err := tx.ExecContext(ctx, s.sql(`INSERT INTO lays_found (docket, role, data) VALUES (?, ?, ?)
			ON CONFLICT (docket, role) DO UPDATE SET data = excluded.data`), docket, role, string(data))
		if err != nil {
			return err
		}
	}
	return nil
}

// LeaveSearch gives a search back, ended or for another to go on with. It does
// nothing when it is in other hands.
func (s *Store) LeaveSearch(ctx context.Context, x Search, holder string, ended bool) error {
	end := 0
	if ended {
		end = 1
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, s.sql("UPDATE searches SET holder = '', until = 0, ended = ? WHERE docket = ? AND number = ? AND holder = ?"), end, x.Docket, x.Number, holder)
		return err
	})
}

// StopSearch has the search of a docket ended: at once when nobody works at it,
// else by whoever does, with what is found by then.
func (s *Store) StopSearch(ctx context.Context, docket string) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, s.sql("UPDATE searches SET stopped = 1, ended = CASE WHEN holder = '' THEN 1 ELSE ended END WHERE docket = ? AND ended = 0"), docket)
		return err
	})
}

// SearchOf is the search of a docket, the last one asked for; ok is false when
// none ever was.
func (s *Store) SearchOf(ctx context.Context, docket string) (x Search, ok bool, err error) {
	x.Docket = docket
	row := s.db.QueryRowContext(ctx, s.sql("SELECT number, asked, state, stopped, ended FROM searches WHERE docket = ?"), docket)
	err = row.Scan(&x.Number, &x.Asked, &x.State, &x.Stopped, &x.Ended)
	if errors.Is(err, sql.ErrNoRows) {
		return x, false, nil
	}
	return x, err == nil, err
}

// LaysFound are the lays that searches have found for a docket, as lay files, by
// what their cloth is for.
func (s *Store) LaysFound(ctx context.Context, docket string) (map[string][]byte, error) {
	rows, err := s.db.QueryContext(ctx, s.sql("SELECT role, data FROM lays_found WHERE docket = ?"), docket)
	if err != nil {
		return nil, fmt.Errorf("lays found: %w", err)
	}
	defer rows.Close()
	out := map[string][]byte{}
	for rows.Next() {
		var role, data string
		if err := rows.Scan(&role, &data); err != nil {
			return nil, fmt.Errorf("lays found: %w", err)
		}
		out[role] = []byte(data)
	}
	return out, rows.Err()
}

// DropLay forgets what was found for a cloth of a docket: another lay was chosen.
func (s *Store) DropLay(ctx context.Context, docket, role string) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, s.sql("DELETE FROM lays_found WHERE docket = ? AND role = ?"), docket, role)
		return err
	})
}
