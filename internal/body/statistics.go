package body

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
)

// adults is the summary of a survey of adults: see stats/README.md for where it
// comes from, and for what it cannot say.
//
//go:embed stats/adults.csv
var adults string

// group is what the survey says of one group of adults: of each measure the
// mean and the 1st and 99th percentile, and of each two their covariance. All
// in mm, but for the mass.
type group struct {
	name            string
	n               int
	index           map[string]int
	mean, low, high []float64
	lower           [][]float64 // row i has the covariances with measures 0..i
}

// groups are the survey's groups in its order: women, men.
var groups = mustRead(adults)

func (g group) cov(i, j int) float64 {
	if i < j {
		i, j = j, i
	}
	return g.lower[i][j]
}

// mustRead panics on a file that is not what stats/copy.go writes: the file is
// part of the program.
func mustRead(text string) []group {
	var all []group
	for n, line := range strings.Split(strings.TrimSpace(text), "\n") {
		cells := strings.Split(line, ",")
		switch {
		case strings.HasPrefix(line, "#"):
		case len(cells) == 2:
			all = append(all, group{name: cells[0], n: int(mustNumber(cells[1], n)), index: map[string]int{}})
		default:
			g := &all[len(all)-1]
			var v []float64
			for _, c := range cells[1:] {
				v = append(v, mustNumber(c, n))
			}
			g.index[cells[0]] = len(g.mean)
			g.mean, g.low, g.high = append(g.mean, v[0]), append(g.low, v[1]), append(g.high, v[2])
			g.lower = append(g.lower, v[3:])
		}
	}
	return all
}

func mustNumber(s string, line int) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(fmt.Sprintf("stats/adults.csv:%d: %v", line+1, err))
	}
	return v
}
