package draw

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
)

func svgOf(t *testing.T, p Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := SVG(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestSVGIsWellFormed(t *testing.T) {
	text := svgOf(t, sampler())
	look(t, "sampler.svg", []byte(text))
	counts := map[string]int{}
	var title, body string
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			counts[e.Name.Local]++
			switch e.Name.Local {
			case "title":
				if err := d.DecodeElement(&title, &e); err != nil {
					t.Fatal(err)
				}
			case "text":
				var s string
				if err := d.DecodeElement(&s, &e); err != nil {
					t.Fatal(err)
				}
				body += s + "\n"
			}
		}
	}
	if title != "shapes < & >" {
		t.Errorf("title %q", title)
	}
	if counts["text"] != 5 || counts["clipPath"] != 2 || counts["svg"] != 1 {
		t.Errorf("elements %v", counts)
	}
	if !strings.Contains(body, "Front × 2 – 12½ cm, 45°") {
		t.Errorf("text %q", body)
	}
	for _, want := range []string{`width="120mm" height="150mm" viewBox="0 0 120 150"`, `data-layer="cut line"`} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s", want)
		}
	}
	if text != svgOf(t, sampler()) {
		t.Error("two runs differ")
	}
}
