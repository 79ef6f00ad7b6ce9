package demo

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"
)

// TestWorkroomHoldsTogether checks that every file says what it is and that
// every name a docket uses has its file.
func TestWorkroomHoldsTogether(t *testing.T) {
	kinds := map[string]string{
		"bodies/": "body", "cloths/": "cloth", "machines/": "machine", "patterns/": "pattern", "dockets/": "docket",
	}
	seen := map[string]int{}
	err := fs.WalkDir(Files, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".yaml") {
			return err
		}
		text := read(t, path)
		for folder, kind := range kinds {
			if !strings.HasPrefix(path, folder) {
				continue
			}
			seen[kind]++
			if !strings.Contains("\n"+text, "\ngusset: "+kind+"/1\n") {
				t.Errorf("%s does not say that it is a %s", path, kind)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for kind, least := range map[string]int{"body": 6, "cloth": 4, "machine": 3, "pattern": 3, "docket": 5} {
		if seen[kind] < least {
			t.Errorf("%d files of kind %s, want at least %d", seen[kind], kind, least)
		}
	}
	for _, docket := range dockets {
		names(t, read(t, docket))
	}
}

func names(t *testing.T, docket string) {
	t.Helper()
	find := func(key string) string {
		m := regexp.MustCompile(`(?m)^` + key + `: (.*)$`).FindStringSubmatch(docket)
		if m == nil {
			t.Fatalf("no %s in\n%s", key, docket)
		}
		return m[1]
	}
	read(t, "bodies/"+find("body")+".yaml")
	pattern := read(t, "patterns/"+find("pattern")+"/pattern.yaml")
	if !strings.Contains(pattern, "\n  "+find("view")+":\n") {
		t.Errorf("the pattern has no view %s", find("view"))
	}
	for _, m := range regexp.MustCompile(`: ([a-z-]+)`).FindAllStringSubmatch(find("cloths"), -1) {
		read(t, "cloths/"+m[1]+".yaml")
	}
	for _, m := range regexp.MustCompile(`file: (\S+)`).FindAllStringSubmatch(pattern, -1) {
		read(t, "patterns/"+find("pattern")+"/"+m[1])
	}
}

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := Files.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
