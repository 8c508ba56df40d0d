package sheet

import "strings"

// Words that say "not measured", in front of a value and behind it. They are the rider's own; the value is used and
// stands first among what to measure.
var (
	doubtBefore = []string{
		"about ", "approximately ", "approx. ", "approx ", "around ", "roughly ", "maybe ", "probably ",
		"circa ", "ca. ", "ca ", "c. ", "etwa ", "~", "≈", "±",
	}
	doubtBehind = []string{
		"?", " stamped", " (stamped)", " approximately", " approx.", " approx", " or so", " maybe",
		" probably", " guess", " (guess)", " guessed", " remembered", " from memory",
	}
)

// stripDoubt takes words of doubt off a value.
func stripDoubt(text string) (rest string, doubt bool) {
	for again := true; again; {
		again = false
		lower := strings.ToLower(text)
		if len(lower) != len(text) {
			return text, doubt
		}
		for _, w := range doubtBefore {
			if strings.HasPrefix(lower, w) && len(text) > len(w) {
				text, doubt, again = strings.TrimSpace(text[len(w):]), true, true
				break
			}
		}
		if again {
			continue
		}
		for _, w := range doubtBehind {
			if strings.HasSuffix(lower, w) && len(text) > len(w) {
				text, doubt, again = strings.TrimSpace(text[:len(text)-len(w)]), true, true
				break
			}
		}
	}
	return text, doubt
}

// unknownMarks are the ways to say that nobody knows. "-" alone is one too.
var unknownMarks = map[string]bool{
	"": true, "?": true, "??": true, "???": true, "–": true, "—": true, "n/a": true, "na": true,
	"n.a.": true, "unknown": true, "tbd": true, "tbc": true, "k.a.": true, "unbekannt": true, "notknown": true, "dontknow": true, "don'tknow": true,
}

// saysNothing tells whether a cell is empty or says that nobody knows; that is never "no" and never 0.
func saysNothing(text string) bool { return unknownMarks[Key(text)] }
