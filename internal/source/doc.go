// Package source reads the files that people write, and remembers where each
// thing was written.
//
// A workroom is a folder of small YAML files (a body, a cloth, a pattern, a
// docket) and of SVG drawings of the pattern's pieces. They are written by hand
// or in a drawing program, so they have slips in them. A reader that stops at
// the first slip, or that cannot say where it is, wastes an evening. This
// package therefore turns slips into findings with file, line, column and the
// line itself, and goes on reading what is sound.
//
// # YAML
//
// Every YAML file begins with the line
//
//	gusset: body/1
//
// which says what it is and in which version. ParseYAML checks that line and
// everything about the file that does not depend on its kind, and gives the
// root Node. A loader then asks for the keys it knows:
//
//	root, found := source.ParseYAML(file, "body", 1)
//	m := root.Reader(&found)
//	name := m.Required().String("name")
//	waist := m.Length("waist", unit.Centimetre, 400, 2000)
//	m.Done()
//
// Whatever was asked for and is missing, mistyped or out of range becomes a
// finding, and so does, at Done, every key that nobody asked for, with the
// nearest right word. Only a plain part of YAML is read: mappings, lists and
// scalars. Anchors, aliases, merge keys and tags are refused, since a person at
// a work table has no use for them and they let a small file unfold without
// bound.
//
// # SVG
//
// ReadSVG reads the drawings: lines, Bézier curves, circles and text, with
// transforms applied and y turned so that it goes up, in millimetres.
//
// # Writing
//
// WriteFile and WriteAll write by temporary file and rename, so that a file is
// either the old one or the new one, never half of each.
package source
