package source

import (
	"path"
	"strings"
)

// Name is the file's own name without folders and ending: a body is called by
// the name of its file.
func (f File) Name() string {
	base := path.Base(f.Path)
	return strings.TrimSuffix(base, path.Ext(base))
}

// Yes gives yes or no under key (true and false are read as well); no when
// missing.
func (m *Map) Yes(key string) bool {
	w := m.Word(key, "yes", "no", "true", "false")
	return w == "yes" || w == "true"
}
