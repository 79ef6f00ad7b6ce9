package making

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
	"sync"

	"gusset/internal/body"
	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/source"
)

// Inputs are everything that one make is made from, as read. What a Stop
// finding was told about is left zero.
type Inputs struct {
	Docket   docket.Docket
	Body     body.Body
	Pattern  pattern.Pattern
	Cloths   map[cloth.Role]cloth.Cloth
	Machines []machine.Machine // in the order of their file names
	Methods  method.Library    // ours and the workroom's
	// Kept are the lays kept in the workroom, Hand those that the user has written
	// down to be laid by; both by what their cloth is for.
	Kept, Hand map[cloth.Role]lay.File
	// Found are lays that earlier searches have come to; where one still holds, it
	// goes before the kept one, which whoever keeps a lay sees to.
	Found map[cloth.Role]lay.File

	read *patternRead // the pattern as its files have it
}

// patternRead is a pattern as it was read, and what was found then.
type patternRead struct {
	folder string
	value  pattern.Pattern
	found  finding.List
}

// Open reads a docket and all that it names from a workroom. The docket's path
// is relative to the workroom, with forward slashes. What the docket names and
// the workroom does not have is told where the docket names it. The error is
// about the docket file itself or about the disk; a docket that is there but
// unsound is no error.
func Open(fsys fs.FS, docketPath string) (Inputs, finding.List, error) {
	return Again(fsys, docketPath, Inputs{}, func(string) bool { return false })
}

// Again is Open for a docket that was read before: the pattern is taken over from
// those inputs where it is the same one and same says that no file of its folder
// has changed since. Reading a pattern takes far longer than the rest.
func Again(fsys fs.FS, docketPath string, before Inputs, same func(folder string) bool) (Inputs, finding.List, error) {
	r := &room{fsys: fsys, before: before.read, same: same}
	in := Inputs{Cloths: map[cloth.Role]cloth.Cloth{}, Kept: map[cloth.Role]lay.File{}, Hand: map[cloth.Role]lay.File{}}
	f, err := r.read(docketPath)
	if err != nil {
		return in, nil, err
	}
	var found finding.List
	in.Docket, found = docket.Load(f)
	r.found = append(r.found, found...)
	r.body(&in)
	r.pattern(&in)
	r.cloths(&in)
	r.machines(&in)
	r.methods(&in)
	r.fittings(&in)
	r.resolve(in)
	r.matches(&in)
	r.kept(&in)
	return in, r.found, r.err
}

// Cloths reads every cloth of a workroom, in the order of their names. One that
// is unsound is passed over: it is told when a docket names it.
func Cloths(fsys fs.FS) ([]cloth.Cloth, error) {
	r := &room{fsys: fsys}
	var out []cloth.Cloth
	for f := range r.all("cloths") {
		if c, found := cloth.Load(f); found.Stops() == 0 {
			out = append(out, c)
		}
	}
	return out, r.err
}

// room reads from a workroom and keeps what was found; err is the first that
// was not merely a missing file.
type room struct {
	fsys   fs.FS
	before *patternRead
	same   func(folder string) bool
	found  finding.List
	err    error
}

// read reads one file, no more of it than is needed to refuse it for its size.
func (r *room) read(name string) (source.File, error) {
	f, err := r.fsys.Open(name)
	if err != nil {
		return source.File{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, source.MaxSVG+1))
	if err != nil {
		return source.File{}, fmt.Errorf("%s: %w", name, err)
	}
	return source.File{Path: name, Data: data}, nil
}

// names lists what lies in a folder: files with the ending, without it; with
// no ending, folders. A folder that is not there holds nothing.
func (r *room) names(folder, ending string) []string {
	entries, err := fs.ReadDir(r.fsys, folder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		r.fail(err)
	}
	var names []string
	for _, e := range entries {
		name, ok := strings.CutSuffix(e.Name(), ending)
		if ok && e.IsDir() == (ending == "") && !strings.HasPrefix(name, ".") {
			names = append(names, name)
		}
	}
	return names
}

func (r *room) fail(err error) {
	if r.err == nil {
		r.err = err
	}
}

// named reads a file that the docket names at the given place. The name is the
// one that the docket uses, among those that it might have used.
func (r *room) named(file, name string, at finding.Place, among func() []string) (source.File, bool) {
	if name == "" { // told by the docket's loader
		return source.File{}, false
	}
	f, err := r.read(file)
	switch {
	case err == nil:
		return f, true
	case errors.Is(err, fs.ErrNotExist):
		r.found = append(r.found, noFile.At(at, file, meant(name, among())))
	default:
		r.fail(err)
	}
	return f, false
}

func (r *room) body(in *Inputs) {
	name := in.Docket.Body
	f, ok := r.named("bodies/"+name+".yaml", name, in.Docket.Places["body"], r.yaml("bodies"))
	if !ok {
		return
	}
	b, found := body.Load(f)
	if r.sound(found) {
		in.Body = b
	}
}

func (r *room) pattern(in *Inputs) {
	name := in.Docket.Pattern
	folder := "patterns/" + name
	f, ok := r.named(folder+"/pattern.yaml", name, in.Docket.Places["pattern"], func() []string { return r.names("patterns", "") })
	if !ok {
		return
	}
	in.read = r.before
	if r.before == nil || r.before.folder != folder || !r.same(folder) {
		p, found := pattern.Load(f, func(svg string) (source.File, error) { return r.read(path.Join(folder, svg)) })
		in.read = &patternRead{folder, p, found}
	}
	if r.sound(in.read.found) {
		in.Pattern = in.read.value
	}
}

// cloths reads the cloth of each role; one that serves two roles is read, and
// told about, once.
func (r *room) cloths(in *Inputs) {
	read := map[string]cloth.Cloth{}
	for _, role := range cloth.Roles {
		name := in.Docket.Cloths[role]
		if c, done := read[name]; done {
			in.Cloths[role] = c
			continue
		}
		f, ok := r.named("cloths/"+name+".yaml", name, in.Docket.Places["cloth."+string(role)], r.yaml("cloths"))
		if !ok {
			continue
		}
		c, found := cloth.Load(f)
		if r.sound(found) {
			read[name], in.Cloths[role] = c, c
		}
	}
}

func (r *room) machines(in *Inputs) {
	for f := range r.all("machines") {
		k, found := machine.Load(f)
		if r.sound(found) {
			in.Machines = append(in.Machines, k)
		}
	}
}

// builtin reads our own methods once: they are part of the program.
var builtin = sync.OnceValues(method.Builtin)

func (r *room) methods(in *Inputs) {
	lib, found := builtin()
	r.found = append(r.found, found...)
	for f := range r.all("methods") {
		m, found := method.Load(f)
		if r.sound(found) {
			lib = lib.With(m)
		}
	}
	in.Methods = lib
}

// all yields every YAML file of a folder in the order of their names.
func (r *room) all(folder string) func(yield func(source.File) bool) {
	return func(yield func(source.File) bool) {
		for _, name := range r.names(folder, ".yaml") {
			f, err := r.read(folder + "/" + name + ".yaml")
			if err != nil {
				r.fail(err)
				continue
			}
			if !yield(f) {
				return
			}
		}
	}
}

func (r *room) yaml(folder string) func() []string {
	return func() []string { return r.names(folder, ".yaml") }
}

// sound keeps the findings and reports whether none of them stops.
func (r *room) sound(found finding.List) bool {
	r.found = append(r.found, found...)
	return found.Stops() == 0
}

// Pattern reads one pattern of a workroom by the name of its folder. The error is
// about its pattern.yaml or about the disk.
func Pattern(fsys fs.FS, name string) (pattern.Pattern, finding.List, error) {
	r := &room{fsys: fsys}
	folder := path.Join("patterns", name)
	f, err := r.read(folder + "/pattern.yaml")
	if err != nil {
		return pattern.Pattern{}, nil, err
	}
	p, found := pattern.Load(f, func(svg string) (source.File, error) { return r.read(path.Join(folder, svg)) })
	return p, found, r.err
}
