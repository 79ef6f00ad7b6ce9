package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"
)

// meter shows how long work goes on: on a terminal one line that is written
// over, elsewhere a plain line now and then.
type meter struct {
	out      io.Writer
	terminal bool
	wide     int
	last     time.Time
}

// between is the least time between two plain lines, or two rewritings.
const (
	betweenPlain = 2 * time.Second
	betweenShown = 100 * time.Millisecond
	meterWidth   = 100
)

func newMeter(out io.Writer) *meter {
	m := &meter{out: out}
	if f, ok := out.(*os.File); ok {
		if st, err := f.Stat(); err == nil {
			m.terminal = st.Mode()&os.ModeCharDevice != 0
		}
	}
	return m
}

// show shows the state of the work, unless something was shown just now.
func (m *meter) show(text string) {
	now := time.Now()
	least := betweenPlain
	if m.terminal {
		least = betweenShown
	}
	if now.Sub(m.last) < least {
		return
	}
	m.last = now
	if !m.terminal {
		fmt.Fprintln(m.out, text)
		return
	}
	if r := []rune(text); len(r) > meterWidth {
		text = string(r[:meterWidth-1]) + "…"
	}
	n := len([]rune(text))
	fmt.Fprint(m.out, "\r"+text+strings.Repeat(" ", max(0, m.wide-n)))
	m.wide = n
}

// clear takes the line away.
func (m *meter) clear() {
	if m.terminal && m.wide > 0 {
		fmt.Fprint(m.out, "\r"+strings.Repeat(" ", m.wide)+"\r")
		m.wide = 0
	}
}
