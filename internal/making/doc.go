// Package making brings a make together: it opens a workroom and reads
// everything that one docket names.
//
// A workroom is a folder:
//
//	bodies/NAME.yaml               a person's measurements
//	cloths/NAME.yaml               a length of cloth
//	machines/NAME.yaml             what there is to sew on; all of them are read
//	methods/NAME.yaml              ways of making that add to or replace ours
//	patterns/NAME/pattern.yaml     a printed pattern, with one SVG for each piece
//	dockets/NAME.yaml              what one make should be
//
// Files name each other by name alone, never by path, so nothing outside the
// folder is ever opened.
package making
