package finding

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
)

var (
	codeForm = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*(\.[a-z][a-z0-9]*(-[a-z0-9]+)*)+$`)
	verbForm = regexp.MustCompile(`%[^%]`)
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
	for _, r := range s {
		if unicode.IsUpper(r) {
			return fmt.Errorf("%q starts in upper case", s)
		}
		break
	}
	if strings.HasSuffix(s, ".") {
		return fmt.Errorf("%q ends with a full stop", s)
	}
	for _, verb := range verbForm.FindAllString(strings.ReplaceAll(s, "%%", ""), -1) {
		if verb != "%[" {
			return fmt.Errorf("%q uses %s without an argument index", s, verb)
		}
	}
	return nil
}
