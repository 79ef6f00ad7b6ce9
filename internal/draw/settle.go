package draw

import (
	"bytes"
	"fmt"
	"time"
)

// noDate stands in the finished file where a date would be, until settle
// blanks it: the PDF library would put the time of day there.
var noDate = time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC)

// settle makes two changes to the finished file that the PDF library has no
// call for. Each writes over bytes of the same length, so that every offset in
// the file's table of contents stays true.
//
// Dates that nobody stated are blanked. And the catalogue's empty list of
// attached files gives its place to /PrintScaling /None, which tells print
// dialogs not to fit the page to the paper (ISO 32000-1 table 150).
func settle(pdf []byte, undated bool) ([]byte, error) {
	catalog := bytes.LastIndex(pdf, []byte("/Type /Catalog"))
	if catalog < 0 {
		return nil, fmt.Errorf("the PDF library wrote no catalogue")
	}
	const unused = "/Names <<\n/EmbeddedFiles << /Names [\n  \n] >>\n>>"
	const wanted = "/ViewerPreferences <</PrintScaling /None>>"
	if err := overwrite(pdf[catalog:], unused, wanted); err != nil {
		return nil, err
	}
	if !undated {
		return pdf, nil
	}
	stamp := noDate.Format("20060102150405")
	for _, key := range []string{"/CreationDate", "/ModDate"} {
		if err := overwrite(pdf[:catalog], key+" (D:"+stamp+")", ""); err != nil {
			return nil, err
		}
	}
	return pdf, nil
}

// overwrite puts the text to in the last place of from and fills up with
// spaces.
func overwrite(pdf []byte, from, to string) error {
	at := bytes.LastIndex(pdf, []byte(from))
	if at < 0 || len(to) > len(from) {
		return fmt.Errorf("the PDF library did not write %q where it used to", from)
	}
	n := copy(pdf[at:], to)
	for i := at + n; i < at+len(from); i++ {
		pdf[i] = ' '
	}
	return nil
}
