package making

import (
	"strings"

	"gusset/internal/finding"
	"gusset/internal/source"
)

func stop(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "making." + code, Severity: finding.Stop, Text: text, Mend: mend}
}

// What a docket names and the workroom does not have.
var (
	noFile    = stop("no-file", "there is no %[1]s", "%[2]s")
	noView    = stop("unknown-view", "pattern %[1]s has no view called %[2]s", "%[3]s")
	noItem    = stop("unknown-item", "view %[1]s has no join, finish, closure or part called %[2]s", "%[3]s")
	noJoin    = stop("unknown-join", "view %[1]s has no join called %[2]s", "%[3]s")
	itemTaken = stop("name-taken", "view %[1]s has something else called %[2]s", "give the fitting another name")
	noMethod  = stop("unknown-method", "there is no method called %[1]s", "%[2]s")
	noCloth   = stop("no-cloth", "view %[1]s cuts %[2]s from %[3]s, but the docket names no cloth for it", "add %[3]s and the name of a cloth to cloths")
)

// meant says what was probably meant.
func meant(word string, among []string) string {
	if near := source.Nearest(word, among); near != "" {
		return "did you mean " + near + "?"
	}
	if len(among) == 0 {
		return "there is none to choose from"
	}
	return "choose from " + strings.Join(among, ", ")
}
