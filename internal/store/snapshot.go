package store

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// Snapshot is the workroom as one change left it: a file system that is only
// read, and never changes however the workroom goes on. It lasts as long as the
// context it was made with.
type Snapshot struct {
	tree
	store  *Store
	ctx    context.Context
	change int64
}

var (
	_ fs.ReadDirFS  = (*Snapshot)(nil)
	_ fs.ReadFileFS = (*Snapshot)(nil)
	_ fs.StatFS     = (*Snapshot)(nil)
)

// At is the workroom as the change of this number left it; 0 is the workroom
// before the first change.
func (s *Store) At(ctx context.Context, change int64) (*Snapshot, error) {
	snap, err := s.at(ctx, change)
	if err != nil {
		return nil, fmt.Errorf("read workroom at change %d: %w", change, err)
	}
	return snap, nil
}

// Now is the workroom as the last change left it.
func (s *Store) Now(ctx context.Context) (*Snapshot, error) {
	head, err := s.Head(ctx)
	if err != nil {
		return nil, err
	}
	t, err := s.tree(ctx, head)
	if err != nil {
		return nil, fmt.Errorf("read workroom at change %d: %w", head, err)
	}
	return &Snapshot{tree: t, store: s, ctx: ctx, change: head}, nil
}

func (s *Store) at(ctx context.Context, change int64) (*Snapshot, error) {
	head, err := s.head(ctx, s.db)
	if err != nil {
		return nil, err
	}
	if change < 0 || change > head {
		return nil, ErrNoChange
	}
	t, err := s.tree(ctx, change)
	if err != nil {
		return nil, err
	}
	return &Snapshot{tree: t, store: s, ctx: ctx, change: change}, nil
}

// tree is the files as a change that has been made left them.
func (s *Store) tree(ctx context.Context, change int64) (tree, error) {
	if t, ok := s.kept.get(change); ok {
		return t, nil
	}
	rows, err := s.db.QueryContext(ctx, s.sql(`SELECT v.path, v.change, v.before, v.size, c.at
		FROM (SELECT path, max(change) AS change FROM versions WHERE change <= ? GROUP BY path) last
		JOIN versions v ON v.path = last.path AND v.change = last.change
		JOIN changes c ON c.number = v.change
		WHERE v.gone = 0`), change)
	if err != nil {
		return tree{}, err
	}
	defer rows.Close()
	t := tree{files: map[string]Version{}, times: map[int64]time.Time{}}
	for rows.Next() {
		var v Version
		var at int64
		if err := rows.Scan(&v.Path, &v.Change, &v.Before, &v.Size, &at); err != nil {
			return tree{}, err
		}
		t.files[v.Path] = v
		t.times[v.Change] = when(at)
	}
	if err := rows.Err(); err != nil {
		return tree{}, err
	}
	t.dirs = folders(t.files)
	s.kept.put(change, t)
	return t, nil
}

// folders lists what lies in each folder.
func folders(files map[string]Version) map[string][]string {
	dirs := map[string][]string{".": nil}
	for p := range files {
		for p != "." {
			dir, name := path.Dir(p), path.Base(p)
			if slices.Contains(dirs[dir], name) {
				break
			}
			dirs[dir] = append(dirs[dir], name)
			p = dir
		}
	}
	for _, names := range dirs {
		slices.Sort(names)
	}
	return dirs
}

// Change is the number of the change that left the workroom so.
func (s *Snapshot) Change() int64 { return s.change }

// Version is the version of a file in the snapshot; false when it has no such
// file.
func (s *Snapshot) Version(path string) (Version, bool) {
	v, ok := s.files[path]
	return v, ok
}

// Names lists the files of a folder that have the ending, without it, in the
// order of the alphabet.
func (s *Snapshot) Names(folder, ending string) []string {
	var out []string
	for _, name := range s.dirs[folder] {
		if short, ok := strings.CutSuffix(name, ending); ok {
			if _, file := s.files[path.Join(folder, name)]; file {
				out = append(out, short)
			}
		}
	}
	return out
}

// Folders lists the folders in a folder, in the order of the alphabet.
func (s *Snapshot) Folders(folder string) []string {
	var out []string
	for _, name := range s.dirs[folder] {
		if _, ok := s.dirs[path.Join(folder, name)]; ok {
			out = append(out, name)
		}
	}
	return out
}

// ReadFile reads a whole file.
func (s *Snapshot) ReadFile(name string) ([]byte, error) {
	v, ok := s.files[name]
	if !ok {
		return nil, missing("readfile", name)
	}
	var data []byte
	row := s.store.db.QueryRowContext(s.ctx, s.store.sql("SELECT data FROM versions WHERE path = ? AND change = ?"), v.Path, v.Change)
	if err := row.Scan(&data); err != nil {
		return nil, &fs.PathError{Op: "readfile", Path: name, Err: err}
	}
	return data, nil
}

// Open opens a file or a folder.
func (s *Snapshot) Open(name string) (fs.File, error) {
	i, err := s.stat(name)
	if err != nil {
		return nil, missing("open", name)
	}
	if i.dir {
		entries, err := s.ReadDir(name)
		return &openDir{info: i, left: entries}, err
	}
	data, err := s.ReadFile(name)
	if err != nil {
		return nil, err
	}
	return &openFile{info: i, Reader: bytes.NewReader(data)}, nil
}

// Stat describes a file or a folder.
func (s *Snapshot) Stat(name string) (fs.FileInfo, error) {
	i, err := s.stat(name)
	if err != nil {
		return nil, err
	}
	return i, nil
}

func (s *Snapshot) stat(name string) (info, error) {
	if v, ok := s.files[name]; ok && fs.ValidPath(name) {
		return info{name: path.Base(name), size: v.Size, at: s.times[v.Change]}, nil
	}
	if _, ok := s.dirs[name]; ok && fs.ValidPath(name) {
		return info{name: path.Base(name), dir: true}, nil
	}
	return info{}, missing("stat", name)
}

// ReadDir lists a folder in the order of the names.
func (s *Snapshot) ReadDir(name string) ([]fs.DirEntry, error) {
	names, ok := s.dirs[name]
	if !ok || !fs.ValidPath(name) {
		return nil, missing("readdir", name)
	}
	var out []fs.DirEntry
	for _, n := range names {
		i, err := s.Stat(path.Join(name, n))
		if err != nil {
			return nil, err
		}
		out = append(out, fs.FileInfoToDirEntry(i))
	}
	return out, nil
}

func missing(op, name string) error {
	err := fs.ErrNotExist
	if !fs.ValidPath(name) {
		err = fs.ErrInvalid
	}
	return &fs.PathError{Op: op, Path: name, Err: err}
}

// info describes a file or folder.
type info struct {
	name string
	size int64
	at   time.Time
	dir  bool
}

func (i info) Name() string       { return i.name }
func (i info) Size() int64        { return i.size }
func (i info) ModTime() time.Time { return i.at }
func (i info) IsDir() bool        { return i.dir }
func (i info) Sys() any           { return nil }

func (i info) Mode() fs.FileMode {
	if i.dir {
		return fs.ModeDir | 0o555
	}
	return 0o444
}

type openFile struct {
	info
	*bytes.Reader
}

func (f *openFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFile) Close() error               { return nil }
func (f *openFile) Size() int64                { return f.info.size }

type openDir struct {
	info
	left []fs.DirEntry
}

func (d *openDir) Stat() (fs.FileInfo, error) { return d.info, nil }
func (d *openDir) Close() error               { return nil }

func (d *openDir) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: d.name, Err: fs.ErrInvalid}
}

// ReadDir lists the next n entries, or all that are left when n is not above 0.
func (d *openDir) ReadDir(n int) ([]fs.DirEntry, error) {
	if n > 0 && len(d.left) == 0 {
		return nil, io.EOF
	}
	if n <= 0 || n > len(d.left) {
		n = len(d.left)
	}
	out := d.left[:n:n]
	d.left = d.left[n:]
	return out, nil
}
