package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"strings"

	"gusset/internal/advise"
	"gusset/internal/making"
	"gusset/internal/unit"
)

// adviseCmd says what would make a cloth suffice that is too short.
type adviseCmd struct {
	docketArg
	effort
	Pairs int `help:"How many remedies are also tried two by two; 0 for none." default:"5"`
}

func (c *adviseCmd) Run(s *session) error {
	in, r, err := c.run(s, making.Lay, c.making())
	if err != nil {
		return err
	}
	if r.Reached < making.Lay {
		return findings(s, c.JSON, r.Findings)
	}
	root, _, err := workroom(c.Docket)
	if err != nil {
		return err
	}
	others, err := making.Cloths(os.DirFS(root))
	if err != nil {
		return err
	}
	bar := newMeter(s.err)
	advice := advise.Short(s.ctx, in, r, advise.Options{
		Effort: c.making(), Others: others, Pairs: c.Pairs,
		Report: func(p advise.Progress) { bar.show(fmt.Sprintf("%d of %d: %s", p.Done+1, p.Of, p.What)) },
	})
	bar.clear()
	if c.JSON {
		return printJSON(s, map[string]any{"advice": advice})
	}
	if len(advice) == 0 {
		for _, l := range r.Lays {
			fmt.Fprintln(s.out, clothLine(l))
		}
		fmt.Fprintln(s.out, "no cloth is too short")
		return nil
	}
	for _, a := range advice {
		writeAdvice(s.out, a, in.Docket.Unit)
	}
	return nil
}

// writeAdvice prints the advice on one cloth.
func writeAdvice(w io.Writer, a advise.Advice, u unit.Unit) {
	fmt.Fprintf(w, "%s: short by %s (takes %s of %s)\n", a.Cloth.Title, up(a.Short, u), unit.Format(a.Length, u), unit.Format(a.Cloth.UsableLength(), u))
	if a.Least > a.Cloth.UsableLength() {
		fmt.Fprintf(w, "the pieces alone, without a gap between them, take %s: no lay of them as they are can fit\n", unit.Format(a.Least, u))
	}
	section := func(title string, list []advise.Offer) {
		if len(list) > 0 {
			fmt.Fprintf(w, "\n%s\n", title)
		}
		for _, o := range list {
			writeOffer(w, o, u)
		}
	}
	section("each alone", a.Alone)
	section("two together", a.Pairs)
	if len(a.Vain) > 0 {
		fmt.Fprintln(w, "\nno gain")
	}
	for _, v := range a.Vain {
		text := "  with " + v.Text
		if v.Why != "" {
			text += ": " + v.Why
		}
		fmt.Fprintln(w, text)
	}
	fmt.Fprintf(w, "\nevery remedy but another fold is laid as the short lay is: write fold: %s in the docket to have it so\n", a.Plan)
	ending := fmt.Sprintf("%d lays tried, each as long as the first", a.Trials)
	if a.Stopped {
		ending += "; stopped before all were"
	}
	fmt.Fprintln(w, ending)
}

func writeOffer(w io.Writer, o advise.Offer, u unit.Unit) {
	var texts []string
	for _, st := range o.Steps {
		texts = append(texts, st.Text)
	}
	outcome := fmt.Sprintf("fits, %s left", down(o.Left, u))
	if !o.Fits() {
		outcome = fmt.Sprintf("still short by %s", up(-o.Left, u))
	}
	fmt.Fprintf(w, "  with %s: %s (gains %s)\n", strings.Join(texts, ", and "), outcome, unit.Format(o.Gain, u))
	if len(o.Steps) > 1 { // said of each alone
		return
	}
	for _, st := range o.Steps {
		if st.Warning != "" {
			fmt.Fprintf(w, "      mind: %s\n", st.Warning)
		}
		if st.File != "" {
			fmt.Fprintf(w, "      in %s: %s\n", st.File, strings.ReplaceAll(st.Write, "\n", "\n          "))
		}
	}
}

// up and down write a length rounded so that neither what is missing is said
// too small nor what is left too large.
func up(mm float64, u unit.Unit) string { return unit.Format(math.Ceil(mm-1e-6), u) }

func down(mm float64, u unit.Unit) string { return unit.Format(math.Floor(mm+1e-6), u) }
