package web

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/store"
)

// docketPath is the file of a docket.
func docketPath(name string) string { return "dockets/" + name + ".yaml" }

// depends reports whether the make of a docket may depend on a file.
func depends(file, docket string) bool {
	folder, _, _ := strings.Cut(file, "/")
	switch folder {
	case "bodies", "cloths", "machines", "methods", "patterns":
		return true
	}
	if folder == "lays" {
		return keptFor(file, docket)
	}
	return file == docketPath(docket)
}

// keptFor reports whether a file is where a lay of the docket is kept.
func keptFor(file, docket string) bool {
	role, ok := strings.CutPrefix(file, "lays/"+docket+"-")
	role, yaml := strings.CutSuffix(role, ".yaml")
	return ok && yaml && slices.Contains(cloth.Roles, cloth.Role(role))
}

// keyOf names the versions of all files that a docket may depend on.
func keyOf(snap *store.Snapshot, docket string) string {
	var b strings.Builder
	for _, p := range snap.Paths() {
		if depends(p, docket) {
			v, _ := snap.Version(p)
			fmt.Fprintf(&b, "%s %d\n", p, v.Change)
		}
	}
	return b.String()
}

// under is what a key says of the files of a folder.
func under(key, folder string) string {
	var b strings.Builder
	for line := range strings.Lines(key) {
		if strings.HasPrefix(line, folder+"/") {
			b.WriteString(line)
		}
	}
	return b.String()
}
