package finding

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

var (
	codeForm = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*(\.[a-z][a-z0-9]*(-[a-z0-9]+)*)+$`)
	// The index stands right before the verb: %.1[2]f, not %[2].1f (package fmt).
	indexedVerb = regexp.MustCompile(`%[-+# 0]*[0-9]*(\.[0-9]+)?\[[1-9][0-9]*\][a-zA-Z]`)
)

// ValidCode reports whether code is a slug of the form package.what-it-is:
// lower-case words joined by hyphens, in two or more parts joined by points.
func ValidCode(code string) bool { return codeForm.MatchString(code) }

// Validate checks a kind against the rules of wording: a valid code, a known
// severity, text that is not empty, starts in lower case, ends without a full
// stop, and uses explicit argument indexes only.
func (k Kind) Validate() error {
	switch {
	case !ValidCode(k.Code):
		return fmt.Errorf("code %q is not of the form package.what-it-is", k.Code)
	case k.Severity < Advice || k.Severity > Stop:
		return fmt.Errorf("%s: unknown severity %d", k.Code, k.Severity)
	case k.Text == "":
		return fmt.Errorf("%s: no text", k.Code)
	}
	for _, s := range []string{k.Text, k.Mend} {
		if err := wording(s); err != nil {
			return fmt.Errorf("%s: %w", k.Code, err)
		}
	}
	return nil
}

func wording(s string) error {
	if r, _ := utf8.DecodeRuneInString(s); unicode.IsUpper(r) {
		return fmt.Errorf("%q starts in upper case", s)
	}
	if strings.HasSuffix(s, ".") {
		return fmt.Errorf("%q ends with a full stop", s)
	}
	rest := indexedVerb.ReplaceAllString(strings.ReplaceAll(s, "%%", ""), "")
	if strings.Contains(rest, "%") {
		return fmt.Errorf("%q has a verb that is not of the form %%[1]s or %%.1[2]f", s)
	}
	return nil
}
