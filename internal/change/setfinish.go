package change

import (
	"fmt"
	"maps"

	"gusset/internal/pattern"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// setFinish gives an item of the view another method, other values, or both.
// Whether the method exists and suits is for package construct to say.
func setFinish(j *job) string {
	s := j.step
	v := &j.g.View
	v.Parts = append([]pattern.Part(nil), v.Parts...)
	var ids []string
	found := false
	set := func(id string, method *string, values *map[string]unit.Length) {
		ids = append(ids, id)
		if id != s.Item {
			return
		}
		found = true
		if s.Method != "" {
			*method = s.Method
		}
		if len(s.Values) > 0 {
			merged := maps.Clone(*values)
			if merged == nil {
				merged = map[string]unit.Length{}
			}
			maps.Copy(merged, s.Values)
			*values = merged
		}
	}
	for i := range v.Finishes {
		set(v.Finishes[i].ID, &v.Finishes[i].Method, &v.Finishes[i].Values)
	}
	for i := range v.Joins {
		set(v.Joins[i].ID, &v.Joins[i].Method, &v.Joins[i].Values)
	}
	for i := range v.Closures {
		set(v.Closures[i].ID, &v.Closures[i].Method, &v.Closures[i].Values)
	}
	for i := range v.Parts {
		set(v.Parts[i].ID, &v.Parts[i].Method, &v.Parts[i].Values)
	}
	if !found {
		j.tell(noItem, s.Item, source.Nearest(s.Item, ids))
		return ""
	}
	if s.Method == "" {
		return fmt.Sprintf("%s with other measures", s.Item)
	}
	return fmt.Sprintf("%s as %s", s.Item, s.Method)
}
