package main

import (
	"bufio"
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/user"
	"runtime"
	"strings"
	"time"

	"golang.org/x/term"

	"gusset/internal/store"
	"gusset/internal/web"
)

// storeArg is the workroom in a database that some commands work with.
type storeArg struct {
	Store string `help:"The workroom: a file, or postgres://..." default:"workroom.gusset" placeholder:"PLACE"`
}

func (a storeArg) open(s *session) (*store.Store, error) { return store.Open(s.ctx, a.Store, time.Now) }

// serveCmd opens the workroom in the browser.
type serveCmd struct {
	storeArg
	Listen string `help:"Where to listen; anything but this machine needs accounts (gusset room account) and a certificate." default:"127.0.0.1:8460" placeholder:"ADDRESS"`
	Cert   string `help:"The certificate for https, in PEM." placeholder:"FILE" type:"existingfile"`
	Key    string `help:"Its key." placeholder:"FILE" type:"existingfile"`
	Worker bool   `help:"Serve no pages: only do searches for lays that are asked for in a workroom that others serve."`
	Plain  bool   `help:"Serve a network without a certificate: passwords can then be read on it, and phones do not keep the work for when it is away."`
}

func (c *serveCmd) Run(s *session) error {
	if (c.Cert == "") != (c.Key == "") {
		return errors.New("--cert and --key go together")
	}
	room, err := c.open(s)
	if err != nil {
		return err
	}
	defer room.Close()
	log := slog.New(slog.NewTextHandler(s.err, nil))
	o := web.Options{Now: time.Now, Log: log, Searches: runtime.NumCPU() / 2}
	if c.Worker {
		o.Searches = max(1, runtime.NumCPU()-1)
		fmt.Fprintf(s.out, "workroom %s\nworking  %d searches at once, until stopped with Ctrl-C\n", c.Store, o.Searches)
		web.Work(s.ctx, room, o)
		return nil
	}
	web.MakeRoom()
	pages := web.New(s.ctx, room, o)
	h := pages.Handler()
	if !web.IsLoopback(c.Listen) {
		if err := c.shared(s, room); err != nil {
			return err
		}
		h = pages.Shared()
	}
	l, err := new(net.ListenConfig).Listen(s.ctx, "tcp", c.Listen)
	if err != nil {
		return err
	}
	scheme := "http"
	if c.Cert != "" {
		pair, err := tls.LoadX509KeyPair(c.Cert, c.Key)
		if err != nil {
			l.Close()
			return err
		}
		scheme, l = "https", tls.NewListener(l, &tls.Config{Certificates: []tls.Certificate{pair}, MinVersion: tls.VersionTLS12, NextProtos: []string{"http/1.1"}})
	}
	fmt.Fprintf(s.out, "workroom %s\nopen     %s://%s/\n", c.Store, scheme, l.Addr())
	return serve(s.ctx, l, h, pages.Wait)
}

// shared says what is missing for a workroom that others can reach.
func (c *serveCmd) shared(s *session, room *store.Store) error {
	if c.Cert == "" && !c.Plain {
		return fmt.Errorf("%s can be reached from elsewhere: give --cert and --key, or --plain to do without", c.Listen)
	}
	names, err := room.Accounts(s.ctx)
	if err == nil && len(names) == 0 {
		err = errors.New("nobody could sign in: make an account with gusset room account NAME")
	}
	return err
}

// serve answers until ctx ends, and then lets what is under way come to its end.
func serve(ctx context.Context, l net.Listener, h http.Handler, wait func()) error {
	srv := &http.Server{Handler: h, ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx }}
	ended := make(chan error, 1)
	go func() { ended <- srv.Serve(l) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 5*time.Second)
	defer cancel()
	err := srv.Shutdown(last)
	if errors.Is(err, context.DeadlineExceeded) {
		err = srv.Close()
	}
	wait()
	return err
}

// roomCmd moves a workroom between a folder and a store.
type roomCmd struct {
	TakeIn   takeInCmd   `cmd:"" help:"Take the files of a folder into the workroom."`
	WriteOut writeOutCmd `cmd:"" help:"Write the files of the workroom into a folder, and what is ticked (ticks.csv)."`
	History  historyCmd  `cmd:"" help:"List the changes of the workroom, the last first."`
	Account  accountCmd  `cmd:"" help:"Make an account for a workroom on a network, or give it another password."`
}

type takeInCmd struct {
	storeArg
	Folder string `arg:"" help:"The folder of a workroom." type:"existingdir"`
}

func (c *takeInCmd) Run(s *session) error {
	room, err := c.open(s)
	if err != nil {
		return err
	}
	defer room.Close()
	change, aside, err := room.TakeIn(s.ctx, who(), os.DirFS(c.Folder))
	if err != nil {
		return err
	}
	for _, p := range aside {
		fmt.Fprintf(s.out, "left     %s\n", p)
	}
	fmt.Fprintf(s.out, "workroom %s: change %d\n", c.Store, change)
	return nil
}

type writeOutCmd struct {
	storeArg
	Folder string `arg:"" help:"The folder to write to." type:"path"`
	At     int64  `help:"As this change left it; the last one when not given." placeholder:"CHANGE"`
}

func (c *writeOutCmd) Run(s *session) error {
	room, err := c.open(s)
	if err != nil {
		return err
	}
	defer room.Close()
	at := c.At
	if at == 0 {
		if at, err = room.Head(s.ctx); err != nil {
			return err
		}
	}
	snap, err := room.At(s.ctx, at)
	if err != nil {
		return err
	}
	ticks, err := room.AllTicks(s.ctx)
	if err != nil {
		return err
	}
	if err := store.WriteOut(snap, ticks, c.Folder); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "%d files in %s, as change %d left them\n", len(snap.Paths()), c.Folder, at)
	return nil
}

type historyCmd struct {
	storeArg
	File string `arg:"" optional:"" help:"Only changes of this file."`
	Last int    `help:"So many of them." default:"20"`
}

func (c *historyCmd) Run(s *session) error {
	room, err := c.open(s)
	if err != nil {
		return err
	}
	defer room.Close()
	list, err := room.History(s.ctx, c.File, 0, c.Last)
	if err != nil {
		return err
	}
	for _, h := range list {
		fmt.Fprintf(s.out, "%5d  %s  %-12s %s\n", h.Number, h.At.Local().Format("2006-01-02 15:04"), h.By, h.Note)
		for _, f := range h.Files {
			sign := map[bool]string{true: "-", false: " "}[f.Gone]
			if f.Before == 0 {
				sign = "+"
			}
			fmt.Fprintf(s.out, "       %s %s\n", sign, f.Path)
		}
	}
	return nil
}

type accountCmd struct {
	storeArg
	Name   string `arg:"" help:"Who signs in."`
	Remove bool   `help:"Take the account away."`
}

func (c *accountCmd) Run(s *session) error {
	room, err := c.open(s)
	if err != nil {
		return err
	}
	defer room.Close()
	if c.Remove {
		return room.RemoveAccount(s.ctx, c.Name)
	}
	password, err := askPassword(s)
	if err != nil {
		return err
	}
	if err := room.SetAccount(s.ctx, c.Name, password); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "%s can sign in\n", c.Name)
	return nil
}

// askPassword reads a password from the terminal without showing it, or from
// the first line of what comes in.
func askPassword(s *session) (string, error) {
	if in := int(os.Stdin.Fd()); term.IsTerminal(in) {
		fmt.Fprint(s.err, "password: ")
		typed, err := term.ReadPassword(in)
		fmt.Fprintln(s.err)
		return string(typed), err
	}
	line, err := bufio.NewReader(os.Stdin).ReadString('\n')
	if errors.Is(err, io.EOF) {
		err = nil
	}
	return strings.TrimRight(line, "\r\n"), err
}

// who is the name of the person at this machine.
func who() string {
	if u, err := user.Current(); err == nil && u.Username != "" {
		return u.Username
	}
	return "someone"
}
