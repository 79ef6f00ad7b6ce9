package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"gusset/internal/cloth"
	"gusset/internal/draw"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/sheet"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// layCmd says whether the cloth is enough and how to lay it.
type layCmd struct {
	docketArg
	effort
	Seconds     float64  `help:"Go on looking for better lays for so many seconds."`
	KeepLooking bool     `help:"Go on looking until stopped with Ctrl-C; the best lays so far are kept."`
	From        []string `help:"Lay by a file that begins gusset: lay/1: it is judged as it is written, its pinned pieces stay, the others are laid on from there. Once for each cloth." placeholder:"FILE" type:"path"`
	AsWritten   bool     `help:"Move nothing of what has a place in the file."`
	Save        string   `help:"Write the lays found into FILE.yaml, to be edited and given back with --from; where there are several cloths, into one file for each." placeholder:"FILE" type:"path"`
	Keep        bool     `help:"Keep the lays found in the workroom, to be used again as long as nothing changes that they depend on."`
	Picture     string   `help:"Draw the lays into FILE.svg or FILE.png; where there are several cloths, into one file for each." placeholder:"FILE" type:"path"`
}

func (c *layCmd) Run(s *session) error {
	if strings.HasSuffix(c.Docket, ".json") {
		return c.instance(s)
	}
	if !(c.Seconds >= 0) || c.Seconds > 0 && c.KeepLooking {
		return errors.New("--seconds wants a number above 0, and not with --keep-looking")
	}
	if ending := filepath.Ext(c.Picture); c.Picture != "" && pictures[ending] == nil {
		return fmt.Errorf("%s: a picture's file ends in .svg or .png", c.Picture)
	}
	w := c.watch(s)
	if ending := filepath.Ext(c.Save); c.Save != "" && ending != ".yaml" {
		return fmt.Errorf("%s: a lay's file ends in .yaml", c.Save)
	}
	if c.AsWritten && len(c.From) == 0 {
		return errors.New("--as-written wants a file --from which to lay")
	}
	in, r, err := c.runWith(s, making.Lay, w.effort(c.making()), c.From, c.AsWritten)
	if err != nil {
		return err
	}
	if r.Reached == making.Lay {
		r = w.look(s.ctx, in, r, c)
	}
	w.meter.clear()
	if c.JSON {
		err = printJSON(s, map[string]any{"digest": r.Digest, "lays": r.Lays, "findings": r.Findings})
	} else {
		c.print(s, in.Docket.Unit, r.Lays)
	}
	if err == nil && c.Picture != "" {
		err = c.draw(s, in.Docket.Unit, r.Lays)
	}
	if err == nil {
		err = c.write(s, in, r)
	}
	if err != nil {
		return err
	}
	return findings(s, c.JSON, r.Findings)
}

func (c *layCmd) print(s *session, u unit.Unit, lays []lay.Lay) {
	for i, l := range lays {
		if i > 0 {
			fmt.Fprintln(s.out)
		}
		fmt.Fprintln(s.out, clothLine(l))
		for _, line := range planLines(l, u) {
			fmt.Fprintln(s.out, line)
		}
		for _, p := range l.Placed {
			fmt.Fprintln(s.out, tapeLine(l, p, u)+c.told(l, p))
		}
	}
}

// planLines list every plan tried with its length, and why the chosen one was.
func planLines(l lay.Lay, u unit.Unit) []string {
	var out []string
	for _, t := range l.Tried {
		text := fmt.Sprintf("  plan %-12s %10s", t.Plan, unit.Format(t.Length, u))
		switch over := t.Length - l.Length; {
		case t.Unplaced > 0:
			text = fmt.Sprintf("  plan %-12s %10s  no place for %d pieces", t.Plan, "-", t.Unplaced)
		case l.Source == lay.FromHand:
			text += "  as it is written"
		case l.Source == lay.FromKept:
			text += "  as it is kept"
		case t.Plan == l.Plan && len(l.Tried) == 1:
			text += "  the only one that can be"
		case t.Plan == l.Plan:
			text += "  chosen: none that was tried takes less"
		case over < littleMore && handier(t.Plan, l.Plan):
			text += littleMoreWords(over, u)
		case over < 1:
			text += "  no more, but less handy to cut"
		case l.Behind(t):
			text += fmt.Sprintf("  %s more after %d of %d rounds, too far behind to go on", unit.Format(over, u), t.Rounds, l.Kept().Rounds)
		default:
			text += fmt.Sprintf("  %s more", unit.Format(over, u))
		}
		out = append(out, text)
	}
	if left := l.Left(); left > 0 && len(l.Unplaced) == 0 {
		out = append(out, fmt.Sprintf("  left in one piece at the end: %s by %s", down(left, u), down(l.Cloth.UsableWidth(), u)))
	}
	if len(l.Unplaced) == 0 {
		out = append(out, restLines(l, u)...)
	}
	return out
}

// littleMore is how much more cloth, mm, a handier fold may be worth to a cutter.
const littleMore = 20

func littleMoreWords(over float64, u unit.Unit) string {
	if over < 1 {
		return "  hardly more, and handier to cut"
	}
	return fmt.Sprintf("  %s more, and handier to cut", unit.Format(over, u))
}

// handier tells that a cutter would rather have plan a than b.
func handier(a, b lay.Plan) bool { return slices.Index(lay.Plans, a) < slices.Index(lay.Plans, b) }

// leastRest is the least rectangle worth telling of: a pocket bag, mm².
const leastRest = 200 * 250

// restLines tell the largest rectangle left over beside the pieces, and that of
// the whole cloth where it is larger than the end.
func restLines(l lay.Lay, u unit.Unit) []string {
	var out []string
	tell := func(what string, r lay.Rest) {
		out = append(out, fmt.Sprintf("  largest rectangle %s: %s by %s, from %s along and %s across", what, down(r.Long, u), down(r.Wide, u),
			unit.Format(max(0, r.From-lay.Squaring), u), unit.Format(r.Low+l.Cloth.Selvedge.MM()*(1-l.Cloth.ShrinkWeft), u)))
	}
	end := max(0, l.Left()) * l.Cloth.UsableWidth()
	if all := l.Rest(0, math.Inf(1)); all.Area() > 1.05*end && all.Area() > leastRest {
		tell("left", all)
	}
	if beside := l.Rest(0, l.Length); beside.Area() > leastRest {
		tell("between the pieces", beside)
	}
	return out
}

// pictures draws a page by the ending of the file's name.
var pictures = map[string]func(*bytes.Buffer, draw.Page) error{
	".svg": func(b *bytes.Buffer, p draw.Page) error { return draw.SVG(b, p) },
	".png": func(b *bytes.Buffer, p draw.Page) error { return draw.PNG(b, p, pictureDots) },
}

// pictureDots is the resolution of a PNG picture in dots an inch.
const pictureDots = 110

// draw draws each lay into a file.
func (c *layCmd) draw(s *session, u unit.Unit, lays []lay.Lay) error {
	ending := filepath.Ext(c.Picture)
	for _, l := range lays {
		if len(l.Placed) == 0 {
			continue
		}
		name := fileFor(c.Picture, l.Role)
		var b bytes.Buffer
		if err := pictures[ending](&b, sheet.LayPicture(l, u)); err != nil {
			return err
		}
		if err := source.WriteFile(name, b.Bytes()); err != nil {
			return err
		}
		if !c.JSON {
			fmt.Fprintf(s.out, "picture  %s\n", name)
		}
	}
	return nil
}

// watch tells how the looking goes on.
type watch struct {
	meter *meter
	best  map[cloth.Role]float64
	pass  string
	until time.Time // zero for no end
	begun time.Time
	told  string     // the last better lay
	role  cloth.Role // being laid
	since time.Time  // when its search began
	share float64    // of it that is done
}

func (c *layCmd) watch(s *session) *watch {
	w := &watch{meter: newMeter(s.err), pass: "first look", begun: time.Now()}
	if c.Seconds > 0 {
		w.until = w.begun.Add(time.Duration(c.Seconds * float64(time.Second)))
	}
	return w
}

func (w *watch) effort(e making.Effort) making.Effort {
	e.Report, e.Progress = w.report, w.progress
	return e
}

// progress shows how far the search for a cloth's lay has come, and about how
// long it will take yet, reckoned from the time that what is done took.
func (w *watch) progress(role cloth.Role, share float64) {
	if role != w.role || share < w.share {
		w.role, w.since, w.told = role, time.Now(), ""
	}
	w.share = share
	gone := time.Since(w.since).Seconds()
	text := fmt.Sprintf("%s, %s: %s cloth %.0f %%", w.pass, w.time(), role, 100*share)
	if left := gone * (1 - share) / share; share > 0.02 && gone > 0.5 && w.until.IsZero() {
		text += fmt.Sprintf(", about %.0f s more", left)
	}
	w.meter.show(text + w.told)
}

// report shows the length that the plan in hand has come down to, and beside it
// the best of the looks before.
func (w *watch) report(role cloth.Role, p lay.Plan, length float64) {
	w.told = fmt.Sprintf(", %s, %s", p, unit.Format(length, unit.Metre))
	if best, ok := w.best[role]; ok {
		w.told += ", best before " + unit.Format(best, unit.Metre)
	}
	w.meter.show(fmt.Sprintf("%s, %s: %s cloth%s", w.pass, w.time(), role, w.told))
}

// time says how much is left, or how much has gone where there is no end.
func (w *watch) time() string {
	if w.until.IsZero() {
		return fmt.Sprintf("%.0f s", time.Since(w.begun).Seconds())
	}
	return fmt.Sprintf("%.0f s left", max(0, time.Until(w.until).Seconds()))
}

// look goes on looking for as long as the command was told to.
func (w *watch) look(ctx context.Context, in making.Inputs, r making.Result, c *layCmd) making.Result {
	if w.until.IsZero() && !c.KeepLooking {
		return r
	}
	if !w.until.IsZero() {
		var cancel context.CancelFunc
		ctx, cancel = context.WithDeadline(ctx, w.until)
		defer cancel()
	}
	return making.Look(ctx, in, r, w.effort(c.making()), 0, func(p making.Pass) {
		w.best = p.Best
		w.pass = fmt.Sprintf("look %d of %d rounds", p.Number+1, p.Rounds)
	})
}
