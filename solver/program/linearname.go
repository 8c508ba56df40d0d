package program

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// longestWord keeps names readable; GLPK takes names up to 255 characters, CBC fewer in an LP file.
const longestWord = 24

// naming hands out names that every reader of MPS and LP files takes: letters, digits, underscore and dot, not
// beginning with a digit or dot, each once.
type naming map[string]bool

func (n naming) name(words ...string) string {
	plain := make([]string, len(words))
	for i, word := range words {
		plain[i] = plainWord(word)
	}
	name := strings.Join(plain, ".")
	for i := 2; n[name]; i++ {
		name = strings.Join(plain, ".") + "." + strconv.Itoa(i)
	}
	n[name] = true
	return name
}

func plainWord(word string) string {
	plain := []rune(strings.Map(func(r rune) rune {
		if 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9' || r == '.' {
			return r
		}
		return '_'
	}, word))
	return string(plain[:min(len(plain), longestWord)])
}

// merged sorts entries by column, adds up those of one column and leaves out zeros. lp_solve wipes a row in which a
// column stands twice.
func merged(entries []Entry) []Entry {
	sorted := slices.Clone(entries)
	slices.SortStableFunc(sorted, func(a, b Entry) int { return cmp.Compare(a.Column, b.Column) })
	var sums []Entry
	for _, e := range sorted {
		if last := len(sums) - 1; last >= 0 && sums[last].Column == e.Column {
			sums[last].Coef += e.Coef
		} else {
			sums = append(sums, e)
		}
	}
	return slices.DeleteFunc(sums, func(e Entry) bool { return e.Coef == 0 })
}

func commonDivisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

func floorDivide(a, b int64) int64 {
	quotient := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		quotient--
	}
	return quotient
}
