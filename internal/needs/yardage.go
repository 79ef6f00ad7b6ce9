package needs

import "math"

const (
	millimetresInch = 25.4
	millimetresYard = 914.4
	// widthSlack is how far outside its printed band a width may lie, in
	// inches, to be read as that band.
	widthSlack = 1.5
)

// widthBands are the widths of cloth in the table, in inches.
var widthBands = [8][2]float64{{35, 36}, {39, 39}, {41, 42}, {44, 45}, {50, 50}, {52, 54}, {58, 60}, {65, 66}}

// yards of cloth that serve alike, a column for each width. Source: the width
// conversion table of the United States extension service, read in two
// independent copies that agree. It is a rule of thumb: a lay must beat it or
// say why not.
var yards = [12][8]float64{
	{1.75, 1.5, 1.5, 1.375, 1.25, 1.125, 1, 0.875},
	{2, 1.75, 1.75, 1.625, 1.5, 1.375, 1.25, 1.125},
	{2.25, 2, 2, 1.75, 1.625, 1.5, 1.375, 1.25},
	{2.5, 2.25, 2.25, 2.125, 1.75, 1.75, 1.625, 1.5},
	{2.875, 2.5, 2.5, 2.25, 2, 1.875, 1.75, 1.625},
	{3.125, 2.75, 2.75, 2.5, 2.25, 2, 1.875, 1.75},
	{3.375, 3, 2.875, 2.75, 2.375, 2.25, 2, 1.875},
	{3.75, 3.25, 3.125, 2.875, 2.625, 2.375, 2.25, 2.125},
	{4.25, 3.5, 3.375, 3.125, 2.75, 2.625, 2.375, 2.25},
	{4.5, 3.75, 3.625, 3.375, 3, 2.75, 2.625, 2.5},
	{4.75, 4, 3.875, 3.625, 3.25, 2.875, 2.75, 2.625},
	{5, 4.25, 4.125, 3.875, 3.375, 3.125, 2.875, 2.75},
}

// Yardage says how much cloth of the width to serves where length of the width
// from did, all in mm. False where the table has no such width or length. For
// one-way cloth or sleeves cut in one with the body the same source adds a
// quarter of a yard.
func Yardage(length, from, to float64) (float64, bool) {
	a, okA := band(from / millimetresInch)
	b, okB := band(to / millimetresInch)
	if !okA || !okB {
		return 0, false
	}
	given := length / millimetresYard
	for i := range len(yards) - 1 {
		low, high := yards[i], yards[i+1]
		if given < low[a] || given > high[a] {
			continue
		}
		share := (given - low[a]) / (high[a] - low[a])
		return (low[b] + float64(share*(high[b]-low[b]))) * millimetresYard, true
	}
	return 0, false
}

// band finds the column whose widths come nearest.
func band(inches float64) (int, bool) {
	best, off := 0, math.Inf(1)
	for i, w := range widthBands {
		if d := max(w[0]-inches, inches-w[1], 0); d < off {
			best, off = i, d
		}
	}
	return best, off <= widthSlack
}
