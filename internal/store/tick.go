package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Tick says that a step of a docket's work was done, or was not after all, and
// when that was said. Ticks are no files: they go with the making, not with what
// is made.
type Tick struct {
	Step string // the operation: "outseam.sew@left"
	Done bool
	At   time.Time
}

// ErrStep says that a tick names no step.
var ErrStep = errors.New("not the name of a step")

// maxTicks is the most that is taken at once.
const maxTicks = 2000

// Tick keeps ticks of a docket. Of two for one step, the one that was said last
// holds, in whatever order they come in: a phone that was out of reach may hand
// in its ticks late. Nothing is said later than now.
func (s *Store) Tick(ctx context.Context, docket string, ticks ...Tick) error {
	if len(ticks) > maxTicks {
		return fmt.Errorf("tick: %d at once", len(ticks))
	}
	now := s.now()
	err := s.write(ctx, func(tx *sql.Tx) error {
		for _, t := range ticks {
			if t.Step == "" || len(t.Step) > maxPath {
				return ErrStep
			}
			at, done := t.At, 0
			if at.After(now) {
				at = now
			}
			if t.Done {
				done = 1
			}
			_, err := tx.ExecContext(ctx, s.sql(`INSERT INTO ticks (docket, step, done, at) VALUES (?, ?, ?, ?)
				ON CONFLICT (docket, step) DO UPDATE SET done = excluded.done, at = excluded.at WHERE excluded.at >= ticks.at`),
				docket, t.Step, done, at.UnixMilli())
			if err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("tick: %w", err)
	}
	return nil
}

// Ticks gives the ticks of a docket by step.
func (s *Store) Ticks(ctx context.Context, docket string) (map[string]Tick, error) {
	rows, err := s.db.QueryContext(ctx, s.sql("SELECT step, done, at FROM ticks WHERE docket = ?"), docket)
	if err != nil {
		return nil, fmt.Errorf("ticks: %w", err)
	}
	defer rows.Close()
	out := map[string]Tick{}
	for rows.Next() {
		var t Tick
		var at int64
		if err := rows.Scan(&t.Step, &t.Done, &at); err != nil {
			return nil, fmt.Errorf("ticks: %w", err)
		}
		t.At = when(at)
		out[t.Step] = t
	}
	return out, rows.Err()
}
