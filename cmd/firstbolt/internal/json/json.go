// Package json writes any answer as one JSON object, indented, the same bytes for the same answer.
package json

import (
	"encoding/json"
	"io"
	"reflect"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// Write writes the answer. Lists that nobody filled come out as [], not null.
func Write(w io.Writer, a answer.Answer) error {
	fillLists(reflect.ValueOf(a))
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(a)
}

// fillLists makes every nil slice that can be reached an empty one.
func fillLists(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			fillLists(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fillLists(v.Field(i))
		}
	case reflect.Slice:
		if v.IsNil() && v.CanSet() {
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		}
		for i := range v.Len() {
			fillLists(v.Index(i))
		}
	}
}
