package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"net/url"
	"strings"
	"time"

	_ "github.com/jackc/pgx/v5/stdlib" // PostgreSQL
	"github.com/pressly/goose/v3"
	_ "modernc.org/sqlite" // SQLite
)

//go:embed migrations
var migrations embed.FS

// Store is an open workroom. It may be used by several goroutines at once, and
// several programs may have the same workroom open.
type Store struct {
	db   *sql.DB
	kind kind
	now  func() time.Time
	kept keptTrees
}

// kind is what differs between the databases.
type kind struct {
	driver  string
	dialect goose.Dialect
	folder  string // of the migrations
	lock    string // a statement that lets one writer in at a time; empty where beginning does
	ordinal bool   // parameters are $1, $2 rather than ?
	clock   string // what the time is, in ms since 1970
}

var (
	sqlite = kind{driver: "sqlite", dialect: goose.DialectSQLite3, folder: "migrations/sqlite",
		clock: "CAST(unixepoch('subsec') * 1000 AS INTEGER)"}
	// The number locks the changes of one database among its programs; it means
	// nothing else.
	postgres = kind{driver: "pgx", dialect: goose.DialectPostgres, folder: "migrations/postgres",
		lock: "SELECT pg_advisory_xact_lock(7168213)", ordinal: true,
		clock: "CAST(extract(epoch FROM clock_timestamp()) * 1000 AS BIGINT)"}
)

// Open opens the workroom at a place, which is the name of a file or the address
// of a PostgreSQL database (postgres://...), making it when it is not there and
// bringing one of an older version up to date. Changes are dated by now.
func Open(ctx context.Context, place string, now func() time.Time) (*Store, error) {
	k, source := sqlite, fileSource(place)
	if strings.HasPrefix(place, "postgres://") || strings.HasPrefix(place, "postgresql://") {
		k, source = postgres, place
	}
	db, err := sql.Open(k.driver, source)
	if err != nil {
		return nil, fmt.Errorf("open workroom: %w", err)
	}
	db.SetMaxIdleConns(mostIdle)
	s := &Store{db: db, kind: k, now: now}
	if err := s.migrate(ctx); err != nil {
		db.Close()
		return nil, fmt.Errorf("open workroom: %w", err)
	}
	return s, nil
}

// mostIdle is how many connections are kept open for the next who asks: making
// one takes longer than most of what is asked.
const mostIdle = 16

// fileSource says how a file is opened: written ahead, safe against a power cut
// once acknowledged, writers waiting for each other.
func fileSource(name string) string {
	q := url.Values{
		"_txlock": {"immediate"},
		"_pragma": {"busy_timeout(10000)", "journal_mode(WAL)", "synchronous(FULL)", "foreign_keys(1)"},
	}
	return (&url.URL{Scheme: "file", Opaque: (&url.URL{Path: name}).EscapedPath(), RawQuery: q.Encode()}).String()
}

// migrate brings the tables up to date, one program at a time.
func (s *Store) migrate(ctx context.Context) error {
	steps, err := fs.Sub(migrations, s.kind.folder)
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(s.kind.dialect, s.db, steps)
	if err != nil {
		return err
	}
	_, err = p.Up(ctx)
	return err
}

// Close closes the workroom.
func (s *Store) Close() error { return s.db.Close() }

// sql writes a statement, in which parameters are question marks, as the
// database wants it.
func (s *Store) sql(statement string) string {
	if !s.kind.ordinal {
		return statement
	}
	var b strings.Builder
	n := 0
	for _, r := range statement {
		if r != '?' {
			b.WriteRune(r)
			continue
		}
		n++
		fmt.Fprintf(&b, "$%d", n)
	}
	return b.String()
}

// write runs do as the only writer, all of it or nothing.
func (s *Store) write(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // does nothing once committed
	if s.kind.lock != "" {
		if _, err := tx.ExecContext(ctx, s.kind.lock); err != nil {
			return err
		}
	}
	if err := do(tx); err != nil {
		return err
	}
	return tx.Commit()
}

func when(milli int64) time.Time { return time.UnixMilli(milli).UTC() }
