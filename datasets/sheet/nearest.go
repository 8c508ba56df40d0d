package sheet

import (
	"slices"

	"github.com/agnivade/levenshtein"
)

// Nearest is the known name that the given one most likely stands for; empty where none is near. Names are compared
// as Key writes them; of equally near names the first wins.
func Nearest(name string, known []string) string {
	key := Key(name)
	best, nearest := allowedEdits(key)+1, ""
	for _, k := range known {
		other := Key(k)
		if d := len(other) - len(key); d >= best || -d >= 4*best {
			continue
		}
		if d := edits(key, other); d < best {
			best, nearest = d, k
		}
	}
	return nearest
}

// edits is the Levenshtein distance, but one for the same letters in another order: "shpo" is a slip, not two.
func edits(a, b string) int {
	d := levenshtein.ComputeDistance(a, b)
	if d == 2 && sortedLetters(a) == sortedLetters(b) {
		return 1
	}
	return d
}

func sortedLetters(text string) string {
	letters := []rune(text)
	slices.Sort(letters)
	return string(letters)
}

// allowedEdits is how many signs may differ: about a third of the name, so that "brakng" is braking but "x" is nothing.
func allowedEdits(key string) int {
	switch n := len(key); {
	case n < 3:
		return 0
	case n < 5:
		return 1
	default:
		return min(4, max(2, n/3))
	}
}

// DidYouMean is the end of a complaint's fix: `did you mean "chain"?`, or what is given instead where nothing is near.
func DidYouMean(name string, known []string, instead string) string {
	if n := Nearest(name, known); n != "" {
		return `did you mean "` + n + `"?`
	}
	return instead
}
