package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/ask"
	"firstbolt/cmd/firstbolt/internal/json"
	"firstbolt/cmd/firstbolt/internal/text"
)

// view writes an answer in one format.
type view func(io.Writer, answer.Answer) error

// views are the formats that every answer has.
var views = map[string]view{"text": text.Write, "json": json.Write}

// endings are the file endings that choose a format.
var endings = map[string]string{
	".txt": "text", ".json": "json", ".csv": "csv", ".tsv": "tsv", ".md": "md",
	// Nothing writes these, but who asks for one does not want text under its name.
	".pdf": "pdf", ".xlsx": "xlsx", ".xls": "xls", ".ods": "ods", ".html": "html", ".htm": "html", ".docx": "docx", ".xml": "xml", ".yaml": "yaml", ".yml": "yaml",
}

// format is the name of the format that the flags ask for.
func (a *app) format() string {
	if a.flags.format != "" {
		return a.flags.format
	}
	if name, ok := endings[strings.ToLower(filepath.Ext(a.flags.output))]; ok {
		return name
	}
	return "text"
}

// chosen is the view of the format that the flags ask for; also are the formats that this command has on top.
func (a *app) chosen(also map[string]view) (view, error) {
	name := a.format()
	if v, ok := also[name]; ok {
		return v, nil
	}
	if v, ok := views[name]; ok {
		return v, nil
	}
	known := append([]string{"text", "json"}, slices.Sorted(maps.Keys(also))...)
	has := "this command has " + strings.Join(known, ", ") + " only"
	if a.flags.format == "" {
		return nil, usage("-o %s: the ending asks for %s and %s; choose another ending, or add --format text", a.flags.output, name, has)
	}
	if slices.Contains([]string{"csv", "tsv", "md"}, name) {
		return nil, usage("--format %s: %s", name, has)
	}
	return nil, oneOf("format", name, known)
}

// write writes an answer where the flags say and keeps its exit code. A failure that people read goes to standard
// error; as JSON it is a result like any other.
func (a *app) write(ans answer.Answer, v view) error {
	a.code = answer.Exit(ans)
	if _, failed := ans.(*answer.Failure); failed && a.format() != "json" {
		return text.Write(a.err, ans)
	}
	var out bytes.Buffer
	if err := v(&out, ans); err != nil {
		return err
	}
	return a.emit(out.Bytes(), ans)
}

// emit sends bytes to standard output or to the file of -o, which is written beside and renamed, so that a reader never
// sees half of it.
func (a *app) emit(data []byte, ans answer.Answer) error {
	name := a.flags.output
	if name == "" || name == "-" {
		_, err := a.out.Write(data)
		return err
	}
	if shed := ans.Top().Shed; shed != nil && !shed.Demo && filepath.Clean(filepath.Dir(name)) == filepath.Clean(shed.Path) && ask.IsSheet(filepath.Base(name)) {
		return usage("-o %s: that is one of the sheets; firstbolt never writes over what it reads, choose another name", name)
	}
	if err := ask.Replace(name, data); err != nil {
		return unwritable(name, err)
	}
	return nil
}

// unwritable says why a file of -o could not be written and how to mend it, never by the name of the file beside it.
func unwritable(name string, err error) error {
	dir := filepath.Dir(name)
	info, statErr := os.Stat(dir)
	var at *fs.PathError
	var moved *os.LinkError
	switch {
	case errors.Is(statErr, fs.ErrNotExist):
		return usage("-o %s cannot be written: there is no folder %q; make it first", name, dir)
	case statErr == nil && !info.IsDir():
		return usage("-o %s cannot be written: %q is a file, not a folder; choose another name", name, dir)
	case errors.Is(err, fs.ErrPermission):
		return usage("-o %s cannot be written: you may not write into the folder %q; choose another one", name, dir)
	case errors.As(err, &at):
		err = at.Err
	case errors.As(err, &moved):
		err = moved.Err
	}
	return usage("-o %s cannot be written: %v; choose another name or folder", name, err)
}
