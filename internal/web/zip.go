package web

import (
	"archive/zip"
	"bytes"
	"io"
	"io/fs"
	"net/http"

	"gusset/internal/store"
)

// Bounds of an archive that is taken in: a hundred large patterns.
const (
	maxArchive  = 64 << 20  // as it comes, bytes
	maxUnpacked = 512 << 20 // as it says that it will be
	maxInside   = 20_000    // files
)

// takeIn takes the files of a zip archive into the workroom. An archive of a
// workroom folder may hold the folder or what is in it.
func (s *Server) takeIn(w http.ResponseWriter, r *http.Request) {
	who := readerOf(r)
	r.Body = http.MaxBytesReader(w, r.Body, maxArchive)
	f, _, err := r.FormFile("archive")
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, who.T("take-in.no-file"))
		return
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil {
		s.refuse(w, r, http.StatusRequestEntityTooLarge, who.T("take-in.large"))
		return
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, who.T("take-in.no-file"))
		return
	}
	total := uint64(0)
	for _, file := range z.File {
		total += min(file.UncompressedSize64, maxUnpacked)
	}
	if total > maxUnpacked || len(z.File) > maxInside {
		s.refuse(w, r, http.StatusRequestEntityTooLarge, who.T("take-in.large"))
		return
	}
	if _, _, err := s.store.TakeIn(r.Context(), s.by(r), within(z)); err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, who.T("take-in.no-file"))
		s.log.Error("take in", "error", err)
		return
	}
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

// within is what lies in the one folder of an archive, or the archive itself.
func within(z fs.FS) fs.FS {
	entries, err := fs.ReadDir(z, ".")
	if err != nil || len(entries) != 1 || !entries[0].IsDir() {
		return z
	}
	for _, known := range []string{"bodies", "cloths", "dockets", "machines", "methods", "orders", "patterns", "notes", "lays"} {
		if entries[0].Name() == known {
			return z
		}
	}
	sub, err := fs.Sub(z, entries[0].Name())
	if err != nil {
		return z
	}
	return sub
}

// archive gives the whole workroom as a zip archive.
func (s *Server) archive(w http.ResponseWriter, r *http.Request) {
	snap, err := s.store.Now(r.Context())
	if err != nil {
		s.fail(w, err)
		return
	}
	ticks, err := s.store.AllTicks(r.Context())
	if err != nil {
		s.fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "application/zip")
	w.Header().Set("Content-Disposition", `attachment; filename="workroom.zip"`)
	w.Header().Set("Cache-Control", "no-store")
	if err := pack(w, snap, ticks); err != nil {
		s.log.Error("archive", "error", err)
		panic(http.ErrAbortHandler) // an archive that breaks off must not look whole
	}
}

func pack(w io.Writer, snap *store.Snapshot, ticks []byte) error {
	z := zip.NewWriter(w)
	if err := z.AddFS(snap); err != nil {
		return err
	}
	if ticks != nil {
		f, err := z.Create(store.TicksFile)
		if err != nil {
			return err
		}
		if _, err := f.Write(ticks); err != nil {
			return err
		}
	}
	return z.Close()
}
