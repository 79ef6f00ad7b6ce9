package change

import "fmt"

// setAllowance gives an edge an allowance of its own in place of what the paper
// prints: more, so that a seam can be let out at the fitting, or some where the
// paper prints the stitching line. The stitching line stays where it is. A
// method that asks for a width of its own goes before it.
func setAllowance(j *job) string {
	p, e, ok := j.edgeAt(j.step.Edge)
	if !ok {
		return ""
	}
	i := p.Index(e.Name)
	if fold := foldEdge(j.g, p.Name); fold == e.Name {
		j.tell(noEdge, e.Name+" of "+p.Name+" lies on the fold and has no allowance")
		return ""
	}
	p.Edges[i].Printed = j.step.To.MM()
	j.mark(&p.Edges[i])
	j.g.Pieces[p.Name] = p
	return fmt.Sprintf("allowance of %s of %s %s, printed %s", e.Name, p.Title, j.step.To, j.say(e.Printed))
}
