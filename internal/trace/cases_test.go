package trace_test

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"gusset/internal/trace/scene"
)

// photoOf renders a scene. Where GUSSET_SCENES names a folder, what was rendered
// once is kept there.
func photoOf(t testing.TB, s *scene.Scene, name string) []byte {
	t.Helper()
	kept := ""
	if dir := os.Getenv("GUSSET_SCENES"); dir != "" {
		kept = filepath.Join(dir, name+".jpg")
		if data, err := os.ReadFile(kept); err == nil {
			return data
		}
	}
	printed(t, s)
	data, err := s.Render()
	if err != nil {
		t.Fatal(err)
	}
	if kept != "" {
		if err := os.WriteFile(kept, data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return data
}

var prints = sync.OnceValues(func() (scene.Printing, error) {
	dir, err := os.MkdirTemp("", "cards")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	return scene.Prints(8, dir)
})

// printed gives a scene its cards, rasterised from the page that is printed.
func printed(t testing.TB, s *scene.Scene) {
	t.Helper()
	p, err := prints()
	if err != nil {
		t.Fatal(err)
	}
	s.Printed(p)
}

// tuned are the scenes that were looked at while the tracing was made.
var tuned = []scene.Condition{
	{Panel: 2, Tilt: 10, Azimuth: 200, MorePixel: 1500, Table: scene.Cloth},
	{Panel: 1, Tilt: 25, Azimuth: 110, K1: -0.05, MorePixel: 2400, Table: scene.Oak, Wood: 0.4, Shadow: 0.35},
	{Panel: 0, Tilt: 20, Azimuth: 190, K1: 0.05, MorePixel: 3000, Table: scene.Grey, Shadow: 0.35},
}

func tunedScene(i int) (*scene.Scene, scene.Truth, string) {
	s, t := scene.Standard(uint64(1000+i), tuned[i])
	return s, t, fmt.Sprintf("tuned%d", i)
}
