package store

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"regexp"
	"time"

	"github.com/alexedwards/argon2id"
)

// Bounds of passwords, in bytes: long ones are what counts (common practice),
// and the longest keeps the hashing short.
const (
	LeastPassword = 12
	MostPassword  = 200
)

var (
	// ErrName and ErrPassword say that an account cannot be made so.
	ErrName     = errors.New("a name has 1 to 40 letters, digits, points and hyphens")
	ErrPassword = fmt.Errorf("a password has %d to %d letters", LeastPassword, MostPassword)
	// ErrSignIn says that name and password do not go together, and not which of
	// them is wrong.
	ErrSignIn = errors.New("name and password do not go together")
)

var accountForm = regexp.MustCompile(`^[\p{L}0-9][\p{L}0-9.-]{0,39}$`)

// hashing are the parameters of argon2id that RFC 9106, section 4, recommends
// where memory is scarce: 64 MiB, three passes, four lanes.
var hashing = &argon2id.Params{Memory: 64 << 10, Iterations: 3, Parallelism: 4, SaltLength: 16, KeyLength: 32}

// nobody is the hash that a name without an account is held against, so that it
// takes as long to refuse as any other.
const nobody = "$argon2id$v=19$m=65536,t=3,p=4$MDEyMzQ1Njc4OWFiY2RlZg$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA"

// hashes lets two passwords be hashed at once: each takes its memory.
var hashes = make(chan struct{}, 2)

// SetAccount makes an account or gives it another password; its sessions end.
func (s *Store) SetAccount(ctx context.Context, name, password string) error {
	if !accountForm.MatchString(name) {
		return ErrName
	}
	if len(password) < LeastPassword || len(password) > MostPassword {
		return ErrPassword
	}
	hash, err := argon2id.CreateHash(password, hashing)
	if err != nil {
		return fmt.Errorf("account %s: %w", name, err)
	}
	err = s.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, s.sql("DELETE FROM sessions WHERE account = ?"), name); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, s.sql("INSERT INTO accounts (name, hash) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET hash = excluded.hash"), name, hash)
		return err
	})
	if err != nil {
		return fmt.Errorf("account %s: %w", name, err)
	}
	return nil
}

// RemoveAccount takes an account away, and its sessions with it. What its owner
// has changed stays under the name.
func (s *Store) RemoveAccount(ctx context.Context, name string) error {
	if _, err := s.db.ExecContext(ctx, s.sql("DELETE FROM accounts WHERE name = ?"), name); err != nil {
		return fmt.Errorf("account %s: %w", name, err)
	}
	return nil
}

// Accounts lists the names of all accounts.
func (s *Store) Accounts(ctx context.Context) ([]string, error) {
	rows, err := s.db.QueryContext(ctx, "SELECT name FROM accounts ORDER BY name")
	if err != nil {
		return nil, fmt.Errorf("accounts: %w", err)
	}
	defer rows.Close()
	var out []string
	for rows.Next() {
		var name string
		if err := rows.Scan(&name); err != nil {
			return nil, fmt.Errorf("accounts: %w", err)
		}
		out = append(out, name)
	}
	return out, rows.Err()
}

// SignIn checks a password and begins a session that lasts so long. The token is
// known to the one who signs in alone: only its digest is kept.
func (s *Store) SignIn(ctx context.Context, name, password string, lasts time.Duration) (token string, err error) {
	hash := nobody
	err = s.db.QueryRowContext(ctx, s.sql("SELECT hash FROM accounts WHERE name = ?"), name).Scan(&hash)
	known := err == nil
	if err != nil && !errors.Is(err, sql.ErrNoRows) {
		return "", fmt.Errorf("sign in: %w", err)
	}
	select {
	case hashes <- struct{}{}:
		defer func() { <-hashes }()
	case <-ctx.Done():
		return "", ctx.Err()
	}
	if len(password) > MostPassword {
		return "", ErrSignIn
	}
	match, err := argon2id.ComparePasswordAndHash(password, hash)
	if err != nil {
		return "", fmt.Errorf("sign in: %w", err)
	}
	if !match || !known {
		return "", ErrSignIn
	}
	raw := make([]byte, 32)
	if _, err := rand.Read(raw); err != nil {
		return "", fmt.Errorf("sign in: %w", err)
	}
	token = base64.RawURLEncoding.EncodeToString(raw)
	now := s.now()
	err = s.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, s.sql("DELETE FROM sessions WHERE until < ?"), now.UnixMilli()); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, s.sql("INSERT INTO sessions (token, account, until) VALUES (?, ?, ?)"), digest(token), name, now.Add(lasts).UnixMilli())
		return err
	})
	if err != nil {
		return "", fmt.Errorf("sign in: %w", err)
	}
	return token, nil
}

// Signed is whose session a token is; empty when it is nobody's, or over.
func (s *Store) Signed(ctx context.Context, token string) (string, error) {
	var name string
	err := s.db.QueryRowContext(ctx, s.sql("SELECT account FROM sessions WHERE token = ? AND until >= ?"), digest(token), s.now().UnixMilli()).Scan(&name)
	if err != nil && !errors.Is(err, sql.ErrNoRows) {
		return "", fmt.Errorf("session: %w", err)
	}
	return name, nil
}

// SignOut ends a session.
func (s *Store) SignOut(ctx context.Context, token string) error {
	if _, err := s.db.ExecContext(ctx, s.sql("DELETE FROM sessions WHERE token = ?"), digest(token)); err != nil {
		return fmt.Errorf("sign out: %w", err)
	}
	return nil
}

func digest(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}
