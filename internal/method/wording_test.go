package method

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"gusset/internal/machine"
)

// verbs are the actions of the sewing room, in the imperative.
var verbs = strings.Fields(`sew stitch topstitch understitch stay-stitch edge-stitch slip-stitch overlock baste
	press turn fold roll open close pin match mark lay lap layer trim clip notch cut unpick work bar catch draw try
	square lower set thread stretch fuse measure wash check carry put alter knot spread wind`)

func isVerb(word string) bool { return slices.Contains(verbs, strings.Trim(word, ".,:")) }

// An action is one: it begins with what to do, and nothing else is to be done
// in it.
var further = regexp.MustCompile(`(?:\band|\bthen|,|;|:) ([a-z-]+)`)

func TestOneActionAStep(t *testing.T) {
	lib := builtin(t)
	for _, name := range lib.Names() {
		m, _ := lib.Find(name)
		for _, o := range m.Operations {
			for _, a := range o.Actions {
				words := strings.Fields(a)
				if !isVerb(words[0]) {
					t.Errorf("%s.%s: %q does not begin with an action", name, o.ID, a)
				}
				for _, f := range further.FindAllStringSubmatch(a, -1) {
					if isVerb(f[1]) {
						t.Errorf("%s.%s: %q asks for two actions", name, o.ID, a)
					}
				}
				if strings.ContainsAny(a[len(a)-1:], ".!;,") || a != strings.TrimSpace(a) || strings.ToLower(a[:1]) != a[:1] {
					t.Errorf("%s.%s: %q is not written as part of a sentence", name, o.ID, a)
				}
			}
		}
	}
}

// Work that can hurt someone has its caution: the needle, the overlocker's
// knife, the hot iron, blades, struck tools.
func TestCautions(t *testing.T) {
	danger := map[string]*regexp.Regexp{
		"blade":  regexp.MustCompile(`^(cut|trim|clip|notch|layer|unpick)\b`),
		"strike": regexp.MustCompile(`^set .*(stud|button)`),
	}
	lib := builtin(t)
	for _, name := range lib.Names() {
		m, _ := lib.Find(name)
		for _, o := range m.Operations {
			if _, always := usual[o.Machine]; always && o.Caution == "" {
				t.Errorf("%s.%s: no caution at the %s", name, o.ID, o.Machine)
			}
			for what, form := range danger {
				if o.Machine != machine.Table && o.Machine != machine.Hand || o.Caution != "" {
					continue
				}
				if slices.ContainsFunc(o.Actions, form.MatchString) {
					t.Errorf("%s.%s: no caution, though it needs a %s", name, o.ID, what)
				}
			}
		}
	}
}

// Stitch lengths lie within the published ones: 8 to 10 stitches an inch for
// twill trousers (3.18 to 2.54 mm, stitch density table), 1.5 to 2 mm to
// reinforce, 2.5 to 3.2 mm for seams and easing, 4 to 5 mm to baste and
// topstitch (home sewing table). Bar tacks and buttonholes are close zigzag:
// 85 to 90 stitches in a 1/2 in buttonhole are 0.3 mm a stitch, both sides and
// bars counted.
func TestStitchLengths(t *testing.T) {
	bounds := map[string][2]float64{"301": {1.5, 5}, "304": {0.3, 2.5}, "504": {2, 3.2}}
	lib := builtin(t)
	for _, name := range lib.Names() {
		m, _ := lib.Find(name)
		for _, o := range m.Operations {
			if o.Stitch == "" {
				if o.Machine == machine.Lockstitch || o.Machine == machine.Overlocker {
					t.Errorf("%s.%s is sewn without a stitch", name, o.ID)
				}
				continue
			}
			b, known := bounds[o.Stitch]
			if l := o.Length.MM(); !known || l < b[0] || l > b[1] {
				t.Errorf("%s.%s: stitch %s at %.2f mm", name, o.ID, o.Stitch, l)
			}
			baste := slices.ContainsFunc(o.Actions, func(a string) bool { return strings.HasPrefix(a, "baste") })
			if l := o.Length.MM(); baste && (l < 4 || l > 5) {
				t.Errorf("%s.%s bastes at %.2f mm", name, o.ID, l)
			}
			if o.Needle == "" || o.Foot == "" || o.Thread == "" || o.Rows < 1 {
				t.Errorf("%s.%s does not say needle, foot, thread and rows: %+v", name, o.ID, o)
			}
			if o.On == "none" && len(o.Run) == 0 {
				t.Errorf("%s.%s is sewn, but how far nobody says", name, o.ID)
			}
		}
	}
}

// A buttonhole is as long as the button is wide and thick, and 3 mm for the
// cloth: 20 mm across and 3 mm thick take 26 mm (published sewing handbooks:
// diameter + thickness, and 1/8 in or 3 mm).
func TestButtonhole(t *testing.T) {
	lib := builtin(t)
	for _, name := range []string{"button-front", "fly-zip", "fly-basted", "fly-buttons", "tab-buttonhole"} {
		m, _ := lib.Find(name)
		found := false
		for _, o := range m.Operations {
			if o.Foot != "buttonhole" {
				continue
			}
			found = true
			if !slices.Equal(o.Run, []string{"button", "button-thickness", "hole-ease"}) || o.Rows != 2 {
				t.Errorf("%s.%s runs %v in %d rows", name, o.ID, o.Run, o.Rows)
			}
		}
		sum := 20 + m.Values["button-thickness"].MM() + m.Values["hole-ease"].MM()
		if !found || sum != 26 {
			t.Errorf("%s: a button 20 mm across takes a hole of %.0f mm", name, sum)
		}
	}
}
