package main

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/source"
)

// byHand reads lays that the user has written down into what is to be made;
// asWritten pins all that has a place in them.
func byHand(in *making.Inputs, files []string, asWritten bool) (finding.List, error) {
	var out finding.List
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		f, found := lay.Load(source.File{Path: filepath.ToSlash(name), Data: data})
		if out = append(out, found...); found.Stops() > 0 {
			continue
		}
		if _, there := in.Cloths[f.Role]; !there {
			return nil, fmt.Errorf("%s: the docket has no cloth for %s", name, f.Role)
		}
		if _, twice := in.Hand[f.Role]; twice {
			return nil, fmt.Errorf("%s: a second lay of the cloth for %s", name, f.Role)
		}
		if asWritten {
			f = f.AllPinned()
		}
		in.Hand[f.Role] = f
	}
	return out, nil
}

// told says, of a lay by hand, that a piece stays where it was pinned.
func (c *layCmd) told(l lay.Lay, p lay.Placed) string {
	if l.Source == lay.FromHand && p.Pinned {
		return "; pinned"
	}
	return ""
}

// fileFor is the file of one cloth's lay: those that are not for the main cloth
// have what they are for in their name.
func fileFor(name string, role cloth.Role) string {
	if role == cloth.Main {
		return name
	}
	ending := filepath.Ext(name)
	return strings.TrimSuffix(name, ending) + "-" + string(role) + ending
}

// write saves the lays found into files of the user's, and keeps them in the
// workroom, as the command was told to.
func (c *layCmd) write(s *session, in making.Inputs, r making.Result) error {
	for _, l := range r.Lays {
		if c.Save == "" {
			break
		}
		name := fileFor(c.Save, l.Role)
		if err := source.WriteFile(name, l.ToFile(in.Docket.Name, in.Docket.Unit).YAML()); err != nil {
			return err
		}
		if !c.JSON {
			fmt.Fprintf(s.out, "saved    %s\n", name)
		}
	}
	if !c.Keep {
		return nil
	}
	files := making.Keep(in, r)
	root, _, err := workroom(c.Docket)
	if err != nil {
		return err
	}
	if err := source.WriteAll(root, files); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if !c.JSON {
			fmt.Fprintf(s.out, "kept     %s\n", filepath.Join(root, name))
		}
	}
	return nil
}
