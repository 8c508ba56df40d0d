package datasets

import (
	"fmt"
	"regexp"
	"strings"

	"firstbolt/datasets/sheet"
)

// beadFact is the diameter on which a tyre sits: what "27.5 inch" names, but does not measure.
const beadFact = "bead_mm"

// wheelNames are the bead seats behind the names in inches (ISO 5775-2, annex of rim diameters; from memory): the figure
// is a tyre's outside of long ago, so that no factor turns one into the other.
var wheelNames = map[string]string{
	"20": "406", "24": "507", "26": "559", "27.5": "584", "28": "622", "29": "622", "650b": "584", "700c": "622",
}

var (
	inchName    = regexp.MustCompile(`(?i)^(\d{2}|\d{2}[.,]\d{1,3}|\d{3}[abc])\s*(?:"|″|”|“|''|’’|in\.?|inch|inches|zoll)?\s*\??$`)
	inchSize    = regexp.MustCompile(`(?i)^(\d{2}(?:[.,]5)?)\s*(?:"|″|”|''|in|inch)?\s*x\s*\d.*$`)
	inchMark    = regexp.MustCompile(`(?i)["″”“]|''|’’|\bin(ch(es)?)?\b\.?|\dinch|\din$|zoll`)
	designation = regexp.MustCompile(`^\d{2,3}\s*-\s*(\d{3})\s*\??$`)
)

// beadNamed warns of a wheel's name where its bead seat is wanted and says which that is; false where the cell holds no
// such name.
func (r *reader) beadNamed(c sheet.Cell) bool {
	text := c.Plain()
	fix := ""
	if m := designation.FindStringSubmatch(text); m != nil {
		fix = fmt.Sprintf("of the marking %s write the second number: %s", text, m[1])
	} else if name := wheelName(text); name != "" || inchMark.MatchString(text) || strings.EqualFold(c.Unit, "in") {
		fix = "write the second number of the marking on the tyre, such as 50-584"
		if bead, known := wheelNames[name]; known {
			fix = fmt.Sprintf("%s is %s: write that", inches(name), bead)
		}
		fix += " (24 = 507, 26 = 559, 27.5 and 650b = 584, 29 = 622; ISO 5775)"
	}
	if fix == "" {
		return false
	}
	r.complain(c.Warn("bead_in_inches", "the bead seat in mm", "the value is not used; "+fix))
	return true
}

// wheelName is the name of a wheel that a text begins with, "27.5"; empty where it begins with none.
func wheelName(text string) string {
	m := inchName.FindStringSubmatch(text)
	if m == nil {
		m = inchSize.FindStringSubmatch(text)
	}
	if m == nil {
		return ""
	}
	return strings.ToLower(strings.ReplaceAll(m[1], ",", "."))
}

// inches is a wheel's name as people say it: "27.5 inch", "650b".
func inches(name string) string {
	if strings.ContainsAny(name, "abc") {
		return name
	}
	return name + " inch"
}
