package draw

import "gusset/internal/geom"

// run is one flattened run of a path: a chain of points, closed or not.
type run struct {
	pts    []geom.Pt
	closed bool
}

// runs flattens the path; chords stay within tol of the curves. A run of one
// point (a dot for a round pen) is kept.
func (p Path) runs(tol float64) []run {
	var f flattener
	for _, s := range p.Steps {
		f.step(s, tol)
	}
	f.flush(false)
	return f.out
}

// flattener collects runs; start is where the latest run began, from where a
// step after a Close goes on.
type flattener struct {
	out   []run
	pts   []geom.Pt
	start geom.Pt
}

func (f *flattener) flush(closed bool) {
	if len(f.pts) > 0 {
		f.out = append(f.out, run{f.pts, closed})
	}
	f.pts = nil
}

func (f *flattener) step(s Step, tol float64) {
	switch s.Op {
	case Move:
		f.flush(false)
		f.start = s.P[0]
		f.pts = []geom.Pt{f.start}
	case Close:
		f.flush(true)
	case LineTo:
		f.resume()
		f.pts = append(f.pts, s.P[0])
	case CubicTo:
		f.resume()
		c := geom.Curve{geom.Cubic(f.pts[len(f.pts)-1], s.P[0], s.P[1], s.P[2])}
		f.pts = append(f.pts, c.Flatten(tol)[1:]...)
	}
}

// resume begins a run where the last one began when none is open.
func (f *flattener) resume() {
	if len(f.pts) == 0 {
		f.pts = []geom.Pt{f.start}
	}
}
