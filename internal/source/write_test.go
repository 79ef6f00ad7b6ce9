package source

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// listing lists what is in a folder.
func listing(t *testing.T, dir string) []string {
	t.Helper()
	var names []string
	err := filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		if path != dir {
			names = append(names, filepath.ToSlash(strings.TrimPrefix(path, dir+string(filepath.Separator))))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestWriteFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "wren.yaml")
	for _, text := range []string{"first", "second, and longer", ""} {
		if err := WriteFile(path, []byte(text)); err != nil || content(t, path) != text {
			t.Errorf("%q: %v", text, err)
		}
	}
	if err := os.Chmod(path, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := WriteFile(path, []byte("third")); err != nil {
		t.Fatal(err)
	}
	if info, _ := os.Stat(path); info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, want it kept", info.Mode())
	}
	if err := WriteFile(filepath.Join(dir, "gone", "x"), nil); err == nil {
		t.Error("a missing folder should be an error")
	}
	if err := os.Mkdir(filepath.Join(dir, "folder"), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := WriteFile(filepath.Join(dir, "folder"), []byte("x")); err == nil {
		t.Error("writing over a folder should be an error")
	}
	if got := listing(t, dir); !slices.Equal(got, []string{"folder", "wren.yaml"}) {
		t.Errorf("left behind: %v", got)
	}
}

// A file that is open while it is written again still shows the old content
// whole: the new one is another file.
func TestWriteFileLeavesReadersAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	if err := WriteFile(path, []byte("old")); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := WriteFile(path, []byte("new and longer")); err != nil {
		t.Fatal(err)
	}
	buf := make([]byte, 20)
	if n, _ := f.Read(buf); string(buf[:n]) != "old" {
		t.Errorf("an open reader saw %q", buf[:n])
	}
}

func TestWriteAll(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out", "quay")
	if err := WriteAll(dir, map[string][]byte{"lay.pdf": []byte("1"), "a/b/c.pdf": []byte("2"), "a/d": nil}); err != nil {
		t.Fatal(err)
	}
	want := []string{"a", "a/b", "a/b/c.pdf", "a/d", "lay.pdf"}
	if got := listing(t, dir); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if content(t, filepath.Join(dir, "a", "b", "c.pdf")) != "2" {
		t.Error("content")
	}
	if err := WriteAll(dir, nil); err != nil {
		t.Errorf("nothing to write: %v", err)
	}
}

// When one file cannot be written, none is, and nothing is left behind.
func TestWriteAllOrNothing(t *testing.T) {
	for name, bad := range map[string]string{
		"above":         "../z",
		"absolute":      "/z",
		"the folder":    ".",
		"empty name":    "",
		"over a folder": "folder",
		"under a file":  "old.yaml/z",
		"endless name":  "z" + strings.Repeat("z", 300),
	} {
		root := t.TempDir()
		dir := filepath.Join(root, "room")
		if err := WriteAll(dir, map[string][]byte{"old.yaml": []byte("old"), "folder/x": nil}); err != nil {
			t.Fatal(err)
		}
		before := listing(t, root)
		err := WriteAll(dir, map[string][]byte{"a": []byte("a"), "new/deep/b": []byte("b"), "old.yaml": []byte("new"), bad: []byte("z")})
		if err == nil {
			t.Errorf("%s: no error", name)
		}
		if got := listing(t, root); !slices.Equal(got, before) {
			t.Errorf("%s: left %v, before %v", name, got, before)
		}
		if got := content(t, filepath.Join(dir, "old.yaml")); got != "old" {
			t.Errorf("%s: old.yaml is now %q", name, got)
		}
	}
}

func TestRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.yaml")
	if err := os.WriteFile(path, []byte("one\r\ntwo\rthree\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	f, err := Read(path, "bodies/a.yaml")
	if err != nil || f.Path != "bodies/a.yaml" {
		t.Fatal(err, f.Path)
	}
	var lines []string
	for n := range 6 {
		lines = append(lines, f.Line(n))
	}
	if !slices.Equal(lines, []string{"", "one", "two", "three", "", ""}) {
		t.Errorf("lines %q", lines)
	}
	if _, err := Read(path+"x", "x"); err == nil {
		t.Error("a missing file should be an error")
	}
	big, err := os.Create(filepath.Join(t.TempDir(), "big"))
	if err != nil {
		t.Fatal(err)
	}
	defer big.Close()
	if err := big.Truncate(1 << 40); err != nil {
		t.Skip(err)
	}
	if f, err := Read(big.Name(), "big"); err != nil || len(f.Data) != MaxSVG+1 {
		t.Errorf("read %d bytes of a huge file, %v", len(f.Data), err)
	}
}

// When a file cannot be given its name, those that have theirs already become
// again what they were, and nothing else is left.
func TestRenameAllPutsBack(t *testing.T) {
	dir := t.TempDir()
	old := filepath.Join(dir, "b.yaml")
	if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	names := []string{"a.yaml", "b.yaml", "c.yaml"}
	var temps []string
	for _, n := range names {
		temp := filepath.Join(dir, "."+n+".tmp")
		temps = append(temps, temp)
		if n == "c.yaml" {
			continue // gone before its turn
		}
		if err := os.WriteFile(temp, []byte("new"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := renameAll(dir, names, temps); err == nil {
		t.Fatal("a file that is not there was renamed")
	}
	if got := listing(t, dir); !slices.Equal(got, []string{"b.yaml"}) || content(t, old) != "old" {
		t.Errorf("left: %v, b.yaml %q", got, content(t, old))
	}
}
