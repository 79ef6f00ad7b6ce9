package pattern

import (
	"strings"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// leastChart and mostChart are what any row of a chart may hold, in mm.
const leastChart, mostChart = 20, 3000

// charts reads the body chart and the finished measures. The size is chosen by
// a row of either.
func (l *loader) charts() {
	c := &l.p.Chart
	c.Places = map[body.Measure]finding.Place{}
	c.Unit, c.Rows = l.chart("chart")
	u, finished := l.chart("finished")
	c.Finished = finished
	if c.Unit == "" {
		c.Unit = u
	}
	l.p.Choose = body.Measure(l.m.Required().Word("choose", measures()...))
	if l.p.Choose != "" && c.Places[l.p.Choose].IsZero() {
		l.tell(noChoose, l.m.Key("choose").Place(), l.p.Choose)
	}
}

func (l *loader) chart(key string) (unit.Unit, map[body.Measure][]unit.Length) {
	rows := map[body.Measure][]unit.Length{}
	if !l.m.Has(key) {
		return "", rows
	}
	m := l.m.Map(key)
	u := unit.Unit(m.Required().Word("unit", "in", "cm", "mm"))
	for _, name := range measures() {
		if !m.Has(name) {
			continue
		}
		n := m.Key(name)
		if l.p.Chart.Places[body.Measure(name)].IsZero() {
			l.p.Chart.Places[body.Measure(name)] = n.Place()
		}
		if u == "" || len(l.p.Sizes) == 0 {
			continue // told already
		}
		if row := l.row(name, n, u); row != nil {
			rows[body.Measure(name)] = row
		}
	}
	m.Done()
	return u, rows
}

// row reads one row of a chart; nil when no size can be read from it.
func (l *loader) row(name string, n source.Node, u unit.Unit) []unit.Length {
	items := n.Items(l.out)
	row := make([]unit.Length, 0, len(items))
	for _, item := range items {
		v := unit.Length{}
		if !item.IsEmpty() {
			var ok bool
			if v, ok = item.Length(l.out, u, leastChart, mostChart); !ok {
				continue
			}
		}
		row = append(row, v)
	}
	if len(row) != len(l.p.Sizes) {
		l.tell(rowCount, n.Place(), name, len(row), len(l.p.Sizes))
		return nil
	}
	if !l.growing(name, row, n.Place()) {
		return nil
	}
	return l.filled(name, row, u, n.Place())
}

// growing refuses a girth row that does not grow: sizes out of order. Lengths
// may stay the same over sizes.
func (l *loader) growing(name string, row []unit.Length, at finding.Place) bool {
	last := -1
	for i, v := range row {
		if v.IsZero() {
			continue
		}
		if last >= 0 && (v.MM() < row[last].MM() || v.MM() == row[last].MM() && body.Measure(name) == l.lead()) {
			l.tell(rowOrder, at, name, l.p.Sizes[last], l.p.Sizes[i])
			return false
		}
		last = i
	}
	return true
}

// filled puts a value into each gap between two others, on the straight line
// from one to the other, and tells of every gap.
func (l *loader) filled(name string, row []unit.Length, u unit.Unit, at finding.Place) []unit.Length {
	var known []int
	for i, v := range row {
		if !v.IsZero() {
			known = append(known, i)
		}
	}
	if len(known) < min(2, len(row)) {
		l.tell(chartFew, at, name, len(known))
		return nil
	}
	var sizes, values []string
	for k := 1; k < len(known); k++ {
		a, b := known[k-1], known[k]
		for i := a + 1; i < b; i++ {
			part := float64(i-a) / float64(b-a)
			row[i] = unit.MM(row[a].MM() + float64(part*(row[b].MM()-row[a].MM()))).In(u)
			sizes, values = append(sizes, l.p.Sizes[i]), append(values, row[i].String())
		}
	}
	if sizes != nil {
		l.tell(chartGap, at, name, strings.Join(sizes, ", "), strings.Join(values, ", "))
	}
	if first, last := known[0], known[len(known)-1]; first > 0 || last < len(row)-1 {
		l.tell(chartEnd, at, name, l.p.Sizes[first], l.p.Sizes[last])
	}
	return row
}

// lead is the measure that the size is chosen by, before it is checked.
func (l *loader) lead() body.Measure {
	return body.Measure(l.m.String("choose"))
}
