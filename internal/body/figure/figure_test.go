package figure

import (
	"bytes"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"gusset/internal/body"
	"gusset/internal/draw"
	"gusset/internal/geom"
)

// surveyMean is the mean of women's and men's means of a measure of the survey.
func surveyMean(t *testing.T, key string) float64 {
	t.Helper()
	data, err := os.ReadFile("../stats/adults.csv")
	if err != nil {
		t.Fatal(err)
	}
	var sum float64
	n := 0
	for _, line := range strings.Split(string(data), "\n") {
		if cells := strings.Split(line, ","); cells[0] == key {
			v, _ := strconv.ParseFloat(cells[1], 64)
			sum += v
			n++
		}
	}
	if n != 2 {
		t.Fatalf("%s: %d groups", key, n)
	}
	return sum / 2
}

// The figure has the heights of the mean adult of ANSUR II.
func TestHeights(t *testing.T) {
	for key, at := range map[string]float64{
		"stature": crown, "cervicaleHt": nape, "acromialHt": shoulder, "axillaHt": armpit, "bustHt": bust,
		"waistHt": waist - 50, "hipHt": hip, "insideLeg": fork, "kneeHt": knee,
	} {
		if mean := surveyMean(t, key); math.Abs(mean-at) > 1 {
			t.Errorf("%s is drawn at %.0f, the mean is %.0f", key, at, mean)
		}
	}
}

// Every measure has one course, and says how it is taken.
func TestEveryMeasure(t *testing.T) {
	drawn := map[body.Measure]int{}
	for _, c := range courses {
		drawn[c.measure]++
	}
	for _, m := range body.Measures() {
		if drawn[m] != 1 || body.NumberOf(m) == 0 {
			t.Errorf("%s is drawn %d times and has the number %d", m, drawn[m], body.NumberOf(m))
		}
	}
	if len(courses) != len(body.Takings) || len(courses) != len(body.Measures()) {
		t.Errorf("%d courses, %d takings, %d measures", len(courses), len(body.Takings), len(body.Measures()))
	}
}

// A ring ends on the outline at both sides.
func TestTapesLieOnTheFigure(t *testing.T) {
	for _, c := range courses {
		if !c.ringed() {
			continue
		}
		for _, end := range []geom.Pt{c.left, c.right} {
			if d := off(c.view, end); d > 3 {
				t.Errorf("%s: the ring ends %.0f mm off the outline", c.measure, d)
			}
		}
	}
}

func off(v View, p geom.Pt) float64 {
	best := math.Inf(1)
	for _, c := range outline(v) {
		q := c.Flatten(0.5)
		for i := 1; i < len(q); i++ {
			t := p.Sub(q[i-1]).Dot(q[i].Sub(q[i-1])) / math.Pow(q[i].Dist(q[i-1]), 2)
			best = min(best, p.Dist(q[i-1].Lerp(q[i], min(max(t, 0), 1))))
		}
	}
	return best
}

// Numbers stand clear of each other and inside their view.
func TestNumbersStandClear(t *testing.T) {
	const width = 180.0 // mm of paper for the four views
	var all float64
	for _, v := range []View{Front, Back, Side, Sitting} {
		all += reach(v).W()
	}
	for i, a := range courses {
		if !reach(a.view).Inset(tagRadius * all / width).Contains(a.tag) {
			t.Errorf("the number of %s stands outside its view", a.measure)
		}
		for _, b := range courses[:i] {
			if d := a.tag.Dist(b.tag) * width / all; a.view == b.view && d < 2*tagRadius+0.2 {
				t.Errorf("the numbers of %s and %s stand %.1f mm apart", a.measure, b.measure, d)
			}
		}
	}
}

// Only the views that are needed are drawn; nothing is drawn of nothing.
func TestViews(t *testing.T) {
	for _, c := range []struct {
		ms   []body.Measure
		want []View
	}{
		{nil, nil},
		{[]body.Measure{body.Hip, body.Waist}, []View{Front}},
		{[]body.Measure{body.BodyRise, body.BackWaist}, []View{Back, Sitting}},
		{body.Measures(), []View{Front, Back, Side, Sitting}},
	} {
		got := views(c.ms)
		if len(got) != len(c.want) {
			t.Errorf("%v: views %v, want %v", c.ms, got, c.want)
		}
		l := &draw.List{}
		Draw(l, draw.Box(0, 0, 180, 110), c.ms)
		if l.Empty() != (len(c.want) == 0) {
			t.Errorf("%v: drawn %v", c.ms, !l.Empty())
		}
		if l.Empty() {
			continue
		}
		var b bytes.Buffer
		if err := draw.SVG(&b, draw.Page{Width: 180, Height: 110, List: l}); err != nil {
			t.Error(err)
		}
		for _, m := range c.ms {
			if n := strconv.Itoa(body.NumberOf(m)); !strings.Contains(b.String(), ">"+n+"<") {
				t.Errorf("number %s of %s is not drawn", n, m)
			}
		}
	}
}
