package store

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"strconv"
	"time"
)

// TicksFile is the file that ticks have in a folder of a workroom: comma-separated
// values (RFC 4180) with a heading; whether the step is done is yes or no, when
// that was said is written as in RFC 3339.
const TicksFile = "ticks.csv"

var ticksHead = []string{"docket", "step", "done", "at"}

var yesNo = map[bool]string{true: "yes", false: "no"}

// AllTicks are the ticks of all dockets as a file; nil when there are none.
func (s *Store) AllTicks(ctx context.Context) ([]byte, error) {
	rows, err := s.db.QueryContext(ctx, "SELECT docket, step, done, at FROM ticks ORDER BY docket, step")
	if err != nil {
		return nil, fmt.Errorf("ticks: %w", err)
	}
	defer rows.Close()
	lines := [][]string{ticksHead}
	for rows.Next() {
		var docket, step string
		var done int
		var at int64
		if err := rows.Scan(&docket, &step, &done, &at); err != nil {
			return nil, fmt.Errorf("ticks: %w", err)
		}
		lines = append(lines, []string{docket, step, yesNo[done != 0], when(at).Format(time.RFC3339Nano)})
	}
	if err := rows.Err(); err != nil || len(lines) == 1 {
		return nil, err
	}
	var b bytes.Buffer
	err = csv.NewWriter(&b).WriteAll(lines)
	return b.Bytes(), err
}

// ErrTicks says that a file of ticks cannot be read.
var ErrTicks = errors.New("not a file of ticks")

// readTicks reads a file of ticks, by docket.
func readTicks(data []byte) (map[string][]Tick, error) {
	lines, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil || len(lines) == 0 || fmt.Sprint(lines[0]) != fmt.Sprint(ticksHead) {
		return nil, ErrTicks
	}
	out := map[string][]Tick{}
	for i, l := range lines[1:] {
		at, err := time.Parse(time.RFC3339Nano, l[3])
		if err != nil || l[0] == "" || l[1] == "" || len(l[0]) > maxPath || len(l[1]) > maxPath || l[2] != "yes" && l[2] != "no" {
			return nil, fmt.Errorf("line %s: %w", strconv.Itoa(i+2), ErrTicks)
		}
		out[l[0]] = append(out[l[0]], Tick{Step: l[1], Done: l[2] == "yes", At: at})
	}
	return out, nil
}

// takeTicks takes ticks of a folder in beside those that are there; of two for
// one step, the one that was said last holds.
func (s *Store) takeTicks(ctx context.Context, all map[string][]Tick) error {
	for docket, list := range all {
		for len(list) > 0 {
			n := min(len(list), maxTicks)
			if err := s.Tick(ctx, docket, list[:n]...); err != nil {
				return err
			}
			list = list[n:]
		}
	}
	return nil
}
