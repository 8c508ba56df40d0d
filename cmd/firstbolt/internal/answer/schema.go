package answer

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
)

// JSONSchema is the JSON Schema (2020-12) of every answer, made from the structs of this package. The tags are read so:
// json names a member, says describes it, enum and const restrict it. A pointer may be null. An answer that is none of
// the commands' own is a Failure.
func JSONSchema() ([]byte, error) {
	w := schemaWriter{defs: map[string]any{}}
	kinds := []struct {
		command string
		value   any
	}{{"plan", Plan{}}, {"fits", Fits{}}, {"want", Want{}}, {"measure", Measuring{}}, {"check", Check{}}, {"program", Program{}}, {"version", Versions{}}, {"schema", Schemas{}}, {"start", Started{}}, {"", Failure{}}}
	var one []any
	for _, k := range kinds {
		t := reflect.TypeOf(k.value)
		object := w.object(t)
		name := defName(t)
		if k.command == "" {
			object["properties"].(map[string]any)["error"] = w.of(reflect.TypeFor[Error]())
		} else {
			object["properties"].(map[string]any)["command"] = map[string]any{"const": k.command}
		}
		w.defs[name] = object
		one = append(one, map[string]any{"$ref": "#/$defs/" + name})
	}
	return json.MarshalIndent(map[string]any{
		"$schema":     "https://json-schema.org/draft/2020-12/schema",
		"$id":         "urn:" + strings.ReplaceAll(Schema, "/", ":"),
		"title":       "Answers of firstbolt",
		"description": "What is not known is null, never 0 or absent; lists are never null; steps add up to the total.",
		"oneOf":       one,
		"$defs":       w.defs,
	}, "", " ")
}

type schemaWriter struct{ defs map[string]any }

// of is the schema of a type; structs are kept as definitions.
func (w *schemaWriter) of(t reflect.Type) map[string]any {
	switch t {
	case reflect.TypeFor[Points](), reflect.TypeFor[Rate](), reflect.TypeFor[Share](), reflect.TypeFor[Seconds]():
		return map[string]any{"type": "number"}
	}
	switch t.Kind() {
	case reflect.String:
		return map[string]any{"type": "string"}
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.Int, reflect.Int64:
		return map[string]any{"type": "integer"}
	case reflect.Pointer:
		return map[string]any{"anyOf": []any{w.of(t.Elem()), map[string]any{"type": "null"}}}
	case reflect.Slice:
		if value, ok := keyed(t); ok {
			return map[string]any{"type": "object", "additionalProperties": w.of(value)}
		}
		return map[string]any{"type": "array", "items": w.of(t.Elem())}
	case reflect.Struct:
		name := defName(t)
		if _, ok := w.defs[name]; !ok {
			w.defs[name] = nil // a struct may hold itself
			w.defs[name] = w.object(t)
		}
		return map[string]any{"$ref": "#/$defs/" + name}
	default:
		panic(fmt.Sprintf("no schema for a %s: add its kind to schemaWriter.of", t))
	}
}

// keyed tells whether a type is a Keyed, and of what.
func keyed(t reflect.Type) (reflect.Type, bool) {
	e := t.Elem()
	if e.Kind() != reflect.Struct || !strings.HasPrefix(e.Name(), "Entry[") {
		return nil, false
	}
	value, _ := e.FieldByName("Value")
	return value.Type, true
}

// defName is the name of a struct's definition: its own in lower case.
func defName(t reflect.Type) string { return strings.ToLower(t.Name()) }

func (w *schemaWriter) object(t reflect.Type) map[string]any {
	properties, required := map[string]any{}, []string{}
	for _, f := range reflect.VisibleFields(t) {
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if f.Anonymous || name == "" {
			continue
		}
		properties[name] = w.member(f)
		if options != "omitempty" {
			required = append(required, name)
		}
	}
	return map[string]any{
		"type": "object", "properties": properties, "required": required, "additionalProperties": false,
	}
}

// member is the schema of a field with what its tags say.
func (w *schemaWriter) member(f reflect.StructField) map[string]any {
	s := w.of(f.Type)
	restricted := s
	if f.Type.Kind() == reflect.Pointer {
		restricted = s["anyOf"].([]any)[0].(map[string]any)
	}
	if enum := f.Tag.Get("enum"); enum != "" {
		restricted["enum"] = strings.Split(enum, ",")
	}
	if only := f.Tag.Get("const"); only != "" {
		restricted["const"] = only
	}
	if says := f.Tag.Get("says"); says != "" {
		s["description"] = says
	}
	return s
}
