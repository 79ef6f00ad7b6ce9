package store

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"sync"
	"syscall"
	"testing"
	"time"
)

// server is a PostgreSQL server of the tests' own: Debian's package postgresql,
// its data in a temporary folder, reached by a socket in there only.
type server struct {
	folder string
	cmd    *exec.Cmd
	count  int
}

var (
	startServer sync.Once
	running     *server
	noServer    error
)

func TestMain(m *testing.M) {
	if os.Getenv(writerEnv) != "" {
		writeForEver()
	}
	code := m.Run()
	if running != nil {
		running.stop()
	}
	os.Exit(code)
}

// place makes a new database and gives its address; the test is skipped where
// PostgreSQL is not installed.
func place(t testing.TB) string {
	t.Helper()
	startServer.Do(func() { running, noServer = start() })
	if noServer != nil {
		t.Skipf("needs Debian's postgresql: %v", noServer)
	}
	db, err := sql.Open("pgx", running.address("postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	running.count++
	name := fmt.Sprintf("room%d", running.count)
	if _, err := db.Exec("CREATE DATABASE " + name); err != nil {
		t.Fatal(err)
	}
	return running.address(name)
}

func (s *server) address(database string) string {
	return "postgres://gusset@/" + database + "?host=" + url.QueryEscape(s.folder)
}

// program finds one of PostgreSQL's programs, which Debian keeps out of the path.
func program(name string) (string, error) {
	if found, err := exec.LookPath(name); err == nil {
		if real, err := filepath.EvalSymlinks(found); err == nil {
			return real, nil
		}
	}
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin/" + name)
	if len(found) == 0 {
		return "", fmt.Errorf("there is no %s", name)
	}
	return found[len(found)-1], nil
}

func start() (*server, error) {
	initdb, err := program("initdb")
	if err != nil {
		return nil, err
	}
	postgres, err := program("postgres")
	if err != nil {
		return nil, err
	}
	folder, err := os.MkdirTemp("", "gusset-postgres")
	if err != nil {
		return nil, err
	}
	s := &server{folder: folder}
	as, err := unprivileged(folder)
	if err != nil {
		return nil, err
	}
	data := filepath.Join(folder, "data")
	init := exec.Command(initdb, "-D", data, "-U", "gusset", "-A", "trust", "-E", "UTF8", "--locale=C")
	init.SysProcAttr, init.Dir = as, folder
	if out, err := init.CombinedOutput(); err != nil {
		os.RemoveAll(folder)
		return nil, fmt.Errorf("initdb: %v\n%s", err, out)
	}
	s.cmd = exec.Command(postgres, "-D", data, "-k", folder, "-c", "listen_addresses=")
	s.cmd.SysProcAttr, s.cmd.Dir = as, folder
	var log bytes.Buffer
	s.cmd.Stderr = &log
	if err := s.cmd.Start(); err != nil {
		os.RemoveAll(folder)
		return nil, err
	}
	if err := s.ready(); err != nil {
		s.stop()
		return nil, fmt.Errorf("%v\n%s", err, log.String())
	}
	return s, nil
}

// unprivileged runs as another user when the tests run as root, which
// PostgreSQL refuses.
func unprivileged(folder string) (*syscall.SysProcAttr, error) {
	if os.Getuid() != 0 {
		return nil, nil
	}
	u, err := user.Lookup("postgres")
	if err != nil {
		return nil, err
	}
	uid, _ := strconv.Atoi(u.Uid)
	gid, _ := strconv.Atoi(u.Gid)
	return &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}, os.Chown(folder, uid, gid)
}

func (s *server) ready() error {
	db, err := sql.Open("pgx", s.address("postgres"))
	if err != nil {
		return err
	}
	defer db.Close()
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	for {
		if err := db.PingContext(ctx); err == nil {
			return nil
		}
		select {
		case <-ctx.Done():
			return fmt.Errorf("the server does not answer: %w", ctx.Err())
		case <-time.After(100 * time.Millisecond):
		}
	}
}

func (s *server) stop() {
	_ = s.cmd.Process.Signal(syscall.SIGQUIT) // at once
	_ = s.cmd.Wait()
	os.RemoveAll(s.folder)
}
