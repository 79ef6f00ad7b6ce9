//go:build ignore

// Copy writes adults.csv from the summary of the survey: run in this folder,
//
//	go run copy.go ../../../../shared/data/body/ansur2_stats.json
package main

import (
	"encoding/json"
	"fmt"
	"log"
	"os"
	"strconv"
	"strings"
)

// table is one group of the summary.
type table struct {
	N                  int
	Mean, SD, P01, P99 []float64
	CovLower           [][]float64
}

func main() {
	log.SetFlags(0)
	if len(os.Args) != 2 {
		log.Fatal("usage: go run copy.go SUMMARY.json")
	}
	data, err := os.ReadFile(os.Args[1])
	if err != nil {
		log.Fatal(err)
	}
	var in struct {
		Source string
		Keys   []string
		Sexes  map[string]table
	}
	if err := json.Unmarshal(data, &in); err != nil {
		log.Fatal(err)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", in.Source)
	b.WriteString("# group, number of bodies; then measure, mean, 1st and 99th percentile, covariances with it and those before it\n")
	for _, g := range [][2]string{{"women", "female"}, {"men", "male"}} {
		t := in.Sexes[g[1]]
		fmt.Fprintf(&b, "%s,%d\n", g[0], t.N)
		for i, key := range in.Keys {
			row := append([]float64{t.Mean[i], t.P01[i], t.P99[i]}, t.CovLower[i]...)
			b.WriteString(key)
			for _, v := range row {
				b.WriteString("," + strconv.FormatFloat(v, 'f', -1, 64))
			}
			b.WriteString("\n")
		}
	}
	if err := os.WriteFile("adults.csv", []byte(b.String()), 0o644); err != nil {
		log.Fatal(err)
	}
}
