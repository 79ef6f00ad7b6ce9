package store

import (
	"encoding/hex"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/crypto/argon2"
)

// The hash is argon2id as RFC 9106 has it: the reference implementation's known
// answer for one pass, 64 KiB and one lane (from golang.org/x/crypto/argon2,
// which is held to the C reference) comes out of the same function that our
// parameters go to.
func TestArgon2id(t *testing.T) {
	got := hex.EncodeToString(argon2.IDKey([]byte("password"), []byte("somesalt"), 1, 64, 1, 24))
	if want := "655ad15eac652dc59f7170a7332bf49b8469be1fdb9c28bb"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if hashing.Memory != 64*1024 || hashing.Iterations != 3 || hashing.Parallelism != 4 {
		t.Errorf("not the second choice of RFC 9106: %+v", hashing)
	}
}

// A password opens its own account only; what is kept is neither the password
// nor the token; a session ends with its time, with signing out, and when the
// password is changed.
func TestAccounts(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		const good = "nine brass thimbles"
		for _, r := range []struct{ name, password string }{{"", good}, {"a b", good}, {strings.Repeat("a", 41), good}, {"wren", "short"}, {"wren", strings.Repeat("a", 201)}} {
			if err := s.SetAccount(ctx, r.name, r.password); !errors.Is(err, ErrName) && !errors.Is(err, ErrPassword) {
				t.Errorf("%q, %d letters: %v", r.name, len(r.password), err)
			}
		}
		if err := s.SetAccount(ctx, "wren", good); err != nil {
			t.Fatal(err)
		}
		for _, r := range [][2]string{{"wren", "nine brass thimble"}, {"tarn", good}, {"", ""}, {"wren", strings.Repeat("a", 1000)}} {
			if _, err := s.SignIn(ctx, r[0], r[1], time.Hour); !errors.Is(err, ErrSignIn) {
				t.Errorf("%q: %v", r, err)
			}
		}
		token, err := s.SignIn(ctx, "wren", good, time.Hour)
		if err != nil {
			t.Fatal(err)
		}
		if who, err := s.Signed(ctx, token); who != "wren" || err != nil {
			t.Errorf("signed in as %q, %v", who, err)
		}
		for _, other := range []string{"", token + "x", strings.ToUpper(token)} {
			if who, _ := s.Signed(ctx, other); who != "" {
				t.Errorf("token %q is %s's", other, who)
			}
		}
		var kept string
		if err := s.db.QueryRow("SELECT hash || token FROM accounts JOIN sessions ON account = name").Scan(&kept); err != nil || strings.Contains(kept, token) || strings.Contains(kept, good) {
			t.Errorf("kept: %s, %v", kept, err)
		}
		if !strings.HasPrefix(kept, "$argon2id$v=19$m=65536,t=3,p=4$") {
			t.Errorf("hashed as %s", kept)
		}
		short, _ := s.SignIn(ctx, "wren", good, -time.Second)
		if who, _ := s.Signed(ctx, short); who != "" {
			t.Error("a session that is over still holds")
		}
		if err := s.SetAccount(ctx, "wren", good+" more"); err != nil {
			t.Fatal(err)
		}
		if who, _ := s.Signed(ctx, token); who != "" {
			t.Error("a session outlives its password")
		}
		token, _ = s.SignIn(ctx, "wren", good+" more", time.Hour)
		s.SignOut(ctx, token)
		if who, _ := s.Signed(ctx, token); who != "" {
			t.Error("signed out, and still in")
		}
		if list, err := s.Accounts(ctx); err != nil || !slices.Equal(list, []string{"wren"}) {
			t.Errorf("accounts %v, %v", list, err)
		}
		if err := s.RemoveAccount(ctx, "wren"); err != nil {
			t.Fatal(err)
		}
		if list, _ := s.Accounts(ctx); len(list) > 0 {
			t.Errorf("removed, and there is %v", list)
		}
	})
}
