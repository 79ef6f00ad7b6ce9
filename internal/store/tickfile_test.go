package store

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// tickFiles are files of ticks, whole ones and such as have been spoiled in a few
// places.
func tickFiles() *rapid.Generator[string] {
	cell := rapid.SampledFrom([]string{"quay", "hem.sew@left", "\"seat, \"\"long\"\"\"", "", "yes", "no", "2023-05-06T07:08:09.123Z", "2023-05-06T07:08:09+02:00", "0000-00-00T00:00:00Z", "docket", "\"", "\x00\xff", "é"})
	return rapid.Custom(func(t *rapid.T) string {
		lines := []string{strings.Join(ticksHead, ",")}
		for range rapid.IntRange(0, 5).Draw(t, "lines") {
			cells := []string{"quay", "hem", "yes", "2023-05-06T07:08:09.5Z"}
			for range rapid.IntRange(0, 2).Draw(t, "other cells") {
				cells[rapid.IntRange(0, 3).Draw(t, "cell")] = cell.Draw(t, "is")
			}
			lines = append(lines, strings.Join(cells, ","))
		}
		data := []byte(strings.Join(lines, "\n"))
		for range rapid.IntRange(0, 2).Draw(t, "spoiled") {
			at := rapid.IntRange(0, len(data)-1).Draw(t, "at")
			data[at] = rapid.Byte().Draw(t, "byte")
		}
		return string(data)
	})
}

// Whatever is read as a file of ticks is written and read again as it was; of what
// is none, nothing is taken.
func TestReadTicks(t *testing.T) {
	taken := 0
	rapid.Check(t, func(t *rapid.T) {
		got, err := readTicks([]byte(tickFiles().Draw(t, "file")))
		if err != nil {
			if got != nil {
				t.Fatalf("%v of a file that is none", got)
			}
			return
		}
		lines := [][]string{ticksHead}
		for docket, list := range got {
			for _, k := range list {
				if docket == "" || k.Step == "" {
					t.Fatalf("a tick of docket %q, step %q", docket, k.Step)
				}
				taken++
				lines = append(lines, []string{docket, k.Step, yesNo[k.Done], k.At.Format(time.RFC3339Nano)})
			}
		}
		var b bytes.Buffer
		if err := csv.NewWriter(&b).WriteAll(lines); err != nil {
			t.Fatal(err)
		}
		again, err := readTicks(b.Bytes())
		if err != nil || len(again) != len(got) {
			t.Fatalf("%v, %v; want %v", again, err, got)
		}
		for docket, list := range got {
			for i, k := range list {
				if o := again[docket][i]; o.Step != k.Step || o.Done != k.Done || !o.At.Equal(k.At) {
					t.Fatalf("%+v, want %+v", o, k)
				}
			}
		}
	})
	if taken == 0 {
		t.Error("no file was read")
	}
}
