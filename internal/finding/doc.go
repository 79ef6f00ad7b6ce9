// Package finding holds what the program has to say about the user's work.
//
// A finding is about the work on the table: a seam whose sides differ, a key
// nobody knows, a zip sewn before it can be reached. It says what, where, how
// much, and what would mend it. An error, by contrast, means that the program
// itself cannot go on (the disk is full). The two are never mixed: stages give
// back findings beside their results, and only the outermost command deals in
// errors.
//
// A finding is made from a Kind, which carries the code (a slug such as
// seam.gap that stays the same for good), the severity and the wording. Each
// package keeps its kinds in one table file:
//
//	var gap = finding.Kind{
//		Code: "seam.gap", Severity: finding.Stop,
//		Text: "%[1]s is %.1[2]f mm longer than %[3]s",
//		Mend: "true the longer side, or state the difference as ease",
//	}
//	found = append(found, gap.At(place, "front:outseam", 3.2, "back:outseam"))
//
// Wording is lower case, has no full stop, and names the unit of every number.
// Text and Mend use explicit argument indexes (%[1]s, %.1[2]f), so that a translation
// may put the arguments in another order; Kind.Validate checks all this and is
// meant for a test over each package's table.
package finding
