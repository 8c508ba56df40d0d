package text

import (
	"cmp"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// longest is how many letters of a name are shown.
const longest = 60

// named are the members of answers that hold names of parts and bikes as the sheets give them.
var named = []string{"Part", "Bike", "Bikes", "Name", "To", "Buy", "Replaces", "NeededFor", "Within", "Shop", "Slots", "Asked", "Thing"}

// shortened cuts every long name of an answer wherever it stands, also within a sentence.
func shortened(a answer.Answer) *strings.Replacer {
	var names []string
	longNames(reflect.ValueOf(a), false, &names)
	// At one place the first that matches is taken: a name that starts with another one must come before it.
	slices.SortFunc(names, func(a, b string) int { return cmp.Or(cmp.Compare(len(b), len(a)), strings.Compare(a, b)) })
	var pairs []string
	for _, n := range slices.Compact(names) {
		pairs = append(pairs, n, string([]rune(n)[:longest-1])+"\u2026")
	}
	return strings.NewReplacer(pairs...)
}

// longNames gathers the long strings in members that hold names.
func longNames(v reflect.Value, name bool, list *[]string) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			longNames(v.Elem(), name, list)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			longNames(v.Field(i), slices.Contains(named, v.Type().Field(i).Name), list)
		}
	case reflect.Slice:
		for i := range v.Len() {
			longNames(v.Index(i), name, list)
		}
	case reflect.String:
		if name && utf8.RuneCountInString(v.String()) > longest {
			*list = append(*list, v.String())
		}
	}
}
