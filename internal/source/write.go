package source

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// WriteFile writes data to path so that path is at any moment either what it
// was before or the whole of data: it writes a temporary file in the same
// folder, makes it safe on the disk, and renames it. The folder must be there.
func WriteFile(path string, data []byte) error {
	temp, err := writeTemp(path, data)
	if err != nil {
		return err
	}
	if err := os.Rename(temp, path); err != nil {
		return errors.Join(err, os.Remove(temp))
	}
	return syncFolder(filepath.Dir(path))
}

// WriteAll writes files, whose names are relative to dir with forward slashes,
// making folders as needed. All contents are safe on the disk under temporary
// names before the first is renamed; when any cannot be written or renamed, all
// are again what they were, and the temporary files and new folders are taken
// away.
func WriteAll(dir string, files map[string][]byte) (err error) {
	var made, temps []string
	defer func() {
		if err != nil {
			discard(temps)
			discard(made)
		}
	}()
	names := slices.Sorted(maps.Keys(files))
	for _, name := range names {
		path, err := inside(dir, name)
		if err != nil {
			return err
		}
		created, err := makeFolders(filepath.Dir(path))
		made = append(made, created...)
		if err != nil {
			return err
		}
		temp, err := writeTemp(path, files[name])
		if err != nil {
			return err
		}
		temps = append(temps, temp)
	}
	return renameAll(dir, names, temps)
}

// renameAll gives every temporary file its name, and then makes the folders
// that hold them safe. When one cannot be renamed, those before it become again
// what they were.
func renameAll(dir string, names, temps []string) (err error) {
	var done []replaced
	defer func() {
		for _, r := range slices.Backward(done) {
			err = errors.Join(err, r.settle(err == nil))
		}
	}()
	folders := map[string]bool{}
	for i, name := range names {
		path := filepath.Join(dir, filepath.FromSlash(name))
		r, err := keepOld(path, temps[i])
		if err != nil {
			return err
		}
		if err := os.Rename(temps[i], path); err != nil {
			return errors.Join(err, r.forget())
		}
		done = append(done, r)
		folders[filepath.Dir(path)] = true
	}
	for folder := range folders {
		if err := syncFolder(folder); err != nil {
			return err
		}
	}
	return nil
}

// replaced is a file that has a new content, and where the old one is kept
// until all of them have; old is empty where there was none.
type replaced struct{ path, old string }

// keepOld gives what is at path a second name beside temp, so that it can come
// back; where the disk knows no second names, it is copied.
func keepOld(path, temp string) (replaced, error) {
	old := temp + ".old"
	err := os.Link(path, old)
	if errors.Is(err, fs.ErrNotExist) {
		return replaced{path: path}, nil
	}
	if err != nil {
		err = copyFile(path, old)
	}
	return replaced{path: path, old: old}, err
}

func copyFile(from, to string) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	return os.WriteFile(to, data, mode(from))
}

// settle ends the keeping: the old content is forgotten when all went well, and
// is put back when not.
func (r replaced) settle(well bool) error {
	switch {
	case well:
		return r.forget()
	case r.old == "":
		return os.Remove(r.path)
	}
	return os.Rename(r.old, r.path)
}

func (r replaced) forget() error {
	if r.old == "" {
		return nil
	}
	return os.Remove(r.old)
}

// inside refuses names that lead out of dir, or that cannot become a file
// because a folder is there already: a rename onto it would fail half-way.
func inside(dir, name string) (string, error) {
	local := filepath.FromSlash(name)
	if !filepath.IsLocal(local) || local == "." {
		return "", fmt.Errorf("%q does not name a file inside %s", name, dir)
	}
	path := filepath.Join(dir, local)
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return "", fmt.Errorf("%s is a folder; no file can be written there", path)
	}
	return path, nil
}

// makeFolders makes path and what is missing above it, and tells which folders
// it made, outermost first.
func makeFolders(path string) (made []string, err error) {
	for missing := path; ; missing = filepath.Dir(missing) {
		if _, err := os.Stat(missing); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		made = append([]string{missing}, made...)
	}
	return made, os.MkdirAll(path, 0o777)
}

// discard removes files and empty folders, innermost first, as far as it can:
// it runs on the way out with an error that matters more.
func discard(paths []string) {
	for _, p := range slices.Backward(paths) {
		_ = os.Remove(p)
	}
}

// writeTemp writes data to a new file beside path and gives its name.
func writeTemp(path string, data []byte) (name string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*.tmp")
	if err != nil {
		return "", err
	}
	defer func() {
		if err = errors.Join(err, f.Close()); err != nil {
			name = ""
			_ = os.Remove(f.Name())
		}
	}()
	if err := f.Chmod(mode(path)); err != nil {
		return "", err
	}
	if _, err := f.Write(data); err != nil {
		return "", err
	}
	return f.Name(), f.Sync()
}

// mode keeps the permissions of a file that is written again; a new one can be
// read by all and written by its owner.
func mode(path string) fs.FileMode {
	if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
		return info.Mode().Perm()
	}
	return 0o644
}

// syncFolder makes a rename safe on the disk. Some file systems cannot sync a
// folder and say so; the rename has been done all the same.
func syncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	_ = d.Sync()
	return d.Close()
}
