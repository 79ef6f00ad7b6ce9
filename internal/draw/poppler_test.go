package draw

import (
	"bufio"
	"bytes"
	"fmt"
	"image"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

// tool returns the path of an outside program, and skips the test where it is
// not installed. On the build server it has to be there.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	return path
}

// runTool runs a program and returns what it printed.
func runTool(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	var out, bad bytes.Buffer
	cmd := exec.Command(tool(t, name), args...)
	cmd.Stdout, cmd.Stderr = &out, &bad
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v\n%s", name, err, bad.String())
	}
	if bad.Len() > 0 {
		t.Errorf("%s complains: %s", name, bad.String())
	}
	return out.Bytes()
}

// pdfFile writes a document to a file of the test's own.
func pdfFile(t *testing.T, d Doc) string {
	t.Helper()
	var b bytes.Buffer
	if err := PDF(&b, d); err != nil {
		t.Fatal(err)
	}
	return keep(t, "page.pdf", b.Bytes())
}

// keep writes data to a file of the test's own and returns its path.
func keep(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// pixelCrop is a window of a rasterised page, in pixels from its top left;
// none is the whole page.
type pixelCrop struct{ x, y, w, h int }

// rasterised returns one page of a PDF as poppler paints it.
func rasterised(t *testing.T, file string, page int, dpi float64, c pixelCrop) *image.Gray {
	t.Helper()
	args := []string{"-gray", "-singlefile", "-r", fmt.Sprint(dpi), "-f", strconv.Itoa(page), "-l", strconv.Itoa(page)}
	if c.w > 0 {
		args = append(args, "-x", strconv.Itoa(c.x), "-y", strconv.Itoa(c.y), "-W", strconv.Itoa(c.w), "-H", strconv.Itoa(c.h))
	}
	return graymap(t, runTool(t, "pdftoppm", append(args, file)...))
}

// graymap reads a binary PGM picture.
func graymap(t *testing.T, data []byte) *image.Gray {
	t.Helper()
	r := bufio.NewReader(bytes.NewReader(data))
	var w, h, top int
	if _, err := fmt.Fscanf(r, "P5\n%d %d\n%d\n", &w, &h, &top); err != nil || top != 255 {
		t.Fatalf("not a PGM picture: %v", err)
	}
	img := image.NewGray(image.Rect(0, 0, w, h))
	if _, err := io.ReadFull(r, img.Pix); err != nil {
		t.Fatal(err)
	}
	return img
}

// darkness returns how much ink there is in each column (across) or row, as
// whole black pixels, over the window.
func darkness(img *image.Gray, across bool) []float64 {
	b := img.Bounds()
	out := make([]float64, b.Dy())
	if across {
		out = make([]float64, b.Dx())
	}
	for y := range b.Dy() {
		for x := range b.Dx() {
			ink := float64(255-img.Pix[img.PixOffset(x, y)]) / 255
			if across {
				out[x] += ink
			} else {
				out[y] += ink
			}
		}
	}
	return out
}

// center returns the middle of the ink of a row of darkness.
func center(ink []float64) float64 {
	var sum, moment float64
	for i, v := range ink {
		sum += v
		moment += v * (float64(i) + 0.5)
	}
	return moment / sum
}

// total returns all the ink.
func total(ink []float64) float64 {
	var sum float64
	for _, v := range ink {
		sum += v
	}
	return sum
}
