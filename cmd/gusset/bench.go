package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"gusset/internal/finish"
	"gusset/internal/lay"
	"gusset/internal/nest"
	"gusset/internal/referee"
)

// benchCmd measures the search for lays on packing problems of the literature.
type benchCmd struct {
	Folder  string    `arg:"" help:"Folder of packing problems (.json)." type:"existingdir"`
	Only    []string  `help:"Names of the problems to run; all of them when not given."`
	Floors  bool      `help:"Run only the problems that have a floor, for the times that have one."`
	Seconds []float64 `help:"Time for each search, or several times one after the other; 0 counts rounds instead." default:"5"`
	Rounds  int       `help:"Rounds of each search, when seconds are 0." default:"1000"`
	Seeds   int       `help:"Searches of each problem, from seed 1 on." default:"3"`
	Lanes   int       `help:"Searches that run side by side and share what they find." default:"2"`
}

// benchFloors are densities in per cent that the median of the seeds is to
// reach, by problem and seconds, with two lanes on a processor of their own
// each. The problems are those of the literature on irregular strip packing as
// the ESICUP working group on cutting and packing collects them.
var benchFloors = map[string]map[float64]float64{
	"albano":  {5: 86.5, 60: 88.5},
	"dagli":   {5: 84.9, 60: 87.3},
	"mao":     {5: 83.4, 60: 84.0},
	"marques": {5: 89.2, 60: 90.2},
	"shirts":  {5: 85.8, 60: 88.4},
	"swim":    {5: 73.6, 60: 75.1},
}

// benchTimes are the seconds that floors are stated for.
var benchTimes = []float64{5, 60}

func (c *benchCmd) Run(s *session) error {
	if slices.ContainsFunc(c.Seconds, func(s float64) bool { return !(s >= 0) }) || c.Rounds < 0 || c.Seeds < 1 || c.Lanes < 1 {
		return fmt.Errorf("seconds and rounds are 0 or more, seeds and lanes 1 or more")
	}
	if c.Floors {
		c.Seconds = benchTimes
	}
	files, err := filepath.Glob(filepath.Join(c.Folder, "*.json"))
	if err != nil {
		return err
	}
	if len(files) == 0 {
		return fmt.Errorf("%s holds no packing problem (.json)", c.Folder)
	}
	fmt.Fprintf(s.out, "%-10s %6s %8s %8s %8s %6s %8s\n", "problem", "pieces", "median", "best", "seconds", "lanes", "floor")
	var below []string
	held := 0
	for _, seconds := range c.Seconds {
		for _, file := range files {
			name := filepath.Base(file[:len(file)-len(".json")])
			floor, has := benchFloors[name][seconds]
			if s.ctx.Err() != nil || len(c.Only) > 0 && !slices.Contains(c.Only, name) || c.Floors && !has {
				continue
			}
			median, err := c.measure(s, file, name, seconds)
			if err != nil {
				return fmt.Errorf("%s: %w", file, err)
			}
			if !has {
				fmt.Fprintln(s.out)
				continue
			}
			held++
			fmt.Fprintf(s.out, " %7.2f%%", floor)
			if median < floor {
				fmt.Fprintf(s.out, "  %.2f short", floor-median)
				below = append(below, fmt.Sprintf("%s at %g s by %.2f", name, seconds, floor-median))
			}
			fmt.Fprintln(s.out)
		}
	}
	switch {
	case len(below) > 0:
		fmt.Fprintf(s.out, "%d of %d medians fall short of their floor: %s\n", len(below), held, strings.Join(below, ", "))
	case held > 0:
		fmt.Fprintf(s.out, "all %d medians reach their floor\n", held)
	}
	fmt.Fprintln(s.out, "every layout was judged by the referee")
	return s.ctx.Err()
}

// measure prints the row of one problem, up to its floor, and returns the median
// density in per cent.
func (c *benchCmd) measure(s *session, file, name string, seconds float64) (float64, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return 0, err
	}
	in, err := lay.ReadPacking(data)
	if err != nil {
		return 0, err
	}
	scale := benchWidth / in.Nominal
	problem, area := packing(in, scale), in.Area()*scale*scale
	var dense []float64
	began := time.Now()
	for seed := range c.Seeds {
		l, _, err := nest.Search(s.ctx, problem, c.budget(uint64(seed+1), seconds), nil, nil)
		if err != nil {
			return 0, err
		}
		if len(l.Unplaced) > 0 {
			return 0, fmt.Errorf("%d pieces have no place", len(l.Unplaced))
		}
		if err := judgeStrip(problem, l); err != nil {
			return 0, fmt.Errorf("seed %d: %w", seed+1, err)
		}
		dense = append(dense, 100*area/(l.Length*benchWidth))
	}
	slices.Sort(dense)
	median := (dense[(c.Seeds-1)/2] + dense[c.Seeds/2]) / 2
	fmt.Fprintf(s.out, "%-10s %6d %7.2f%% %7.2f%% %8.1f %6d", name, len(problem.Parts),
		median, dense[c.Seeds-1], time.Since(began).Seconds()/float64(c.Seeds), c.Lanes)
	return median, nil
}

// judgeStrip has the referee go over a layout, who shares nothing with the
// search: every outline rounded to whole micrometres, the strip likewise.
func judgeStrip(p nest.Problem, l nest.Layout) error {
	micron := func(mm float64) int64 { return int64(math.Round(mm * 1000)) }
	var outlines [][]finish.Micron
	for _, pl := range l.Placements {
		var ring []finish.Micron
		for _, q := range pl.Apply(p.Parts[pl.Part].Shape) {
			ring = append(ring, finish.Micron{X: micron(q.X), Y: micron(q.Y)})
		}
		outlines = append(outlines, ring)
	}
	return referee.Strip(outlines, micron(p.Containers[0].Width), int64(math.Ceil(l.Length*1000)))
}

func (c *benchCmd) budget(seed uint64, seconds float64) nest.Budget {
	b := nest.Budget{Rounds: c.Rounds, Lanes: c.Lanes, Seed: seed}
	if seconds > 0 {
		began := time.Now()
		b.Rounds = math.MaxInt
		b.Used = func() float64 { return time.Since(began).Seconds() / seconds }
	}
	return b
}

// benchWidth is what every strip's nominal width is scaled to, mm: about that
// of cloth, so that the clearance kept between pieces is as small beside them
// as in a lay for a garment.
const benchWidth = 1500

// packing scales a packing problem for the search.
func packing(in lay.Packing, scale float64) nest.Problem {
	p := nest.Problem{Containers: []nest.Container{{Width: in.Width * scale}}}
	for _, it := range in.Items {
		part := nest.Part{}
		for _, d := range it.Turns {
			part.Poses = append(part.Poses, nest.Orientation{Degrees: d})
		}
		for _, q := range it.Shape {
			part.Shape = append(part.Shape, nest.Pt(q.Mul(scale)))
		}
		for range it.Demand {
			p.Parts = append(p.Parts, part)
		}
	}
	return p
}
