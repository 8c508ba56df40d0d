// Package datasets holds the embedded tables and reads a rider's sheets into a model.Shed. It is the only place where
// sheets meet the model.
package datasets

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"sort"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

//go:embed demo
var demoFiles embed.FS

// DemoPath is how the embedded demo shed is called in answers.
const DemoPath = "demo"

// Setting is a setting of rider.csv given by a flag; it wins over the sheet.
type Setting struct {
	Name  string // "budget"
	Value string // "120"
	Flag  string // "--budget", named in complaints and origins
}

// Options of loading a shed.
type Options struct {
	Decimal  sheet.Decimal     // of `--decimal`; Undecided: found out for each sheet
	Parts    []byte            // a parts sheet from standard input, read instead of the shed's
	Sheets   map[string]string // files that replace a sheet of the shed: "parts" -> "~/list.csv"
	Settings []Setting         // flags laid over rider.csv, the currency among them
}

// NoShedError means that there is no shed to read.
type NoShedError struct {
	Path   string
	Reason string
}

// Error names the two ways on.
func (e *NoShedError) Error() string {
	return fmt.Sprintf("%s: write a shed to fill in with `firstbolt start %s`, or look at the demo with `--demo`", e.Reason, e.Path)
}

// UnreadableError means that a sheet is there but cannot be read.
type UnreadableError struct{ Folder, Sheet, Reason, Mend string }

// Error says which sheet of which folder, why not, and how to mend it.
func (e *UnreadableError) Error() string {
	return fmt.Sprintf("%s in the folder %q cannot be read: %s; %s", e.Sheet, e.Folder, e.Reason, e.Mend)
}

func unreadable(folder, file string, err error) *UnreadableError {
	e := &UnreadableError{Folder: folder, Sheet: file, Reason: err.Error(), Mend: "copy it anew, or export it once more"}
	if errors.Is(err, fs.ErrPermission) {
		e.Reason = "you may not read it (permission denied)"
		e.Mend = "make it yours to read (`chmod u+r`, or the file's properties), and close any program that holds it"
	}
	return e
}

// SheetOptionError means that a file was given for a sheet that there is none of, or that cannot be read.
type SheetOptionError struct{ Sheet, Wanted string }

// Error says what is wrong with the option.
func (e *SheetOptionError) Error() string {
	return fmt.Sprintf("--sheet: found %q, want %s", e.Sheet, e.Wanted)
}

// Load reads the shed in a folder. The complaints of all sheets come together and in order; where one of them is no
// warning the shed is incomplete and must not be planned with. An error means that there was nothing to read.
func Load(folder string, o Options) (*model.Shed, []sheet.Complaint, error) {
	info, err := os.Stat(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil, &NoShedError{folder, fmt.Sprintf("there is no folder %q", folder)}
	case err != nil:
		return nil, nil, unreadable(folder, "something", err)
	case !info.IsDir():
		return nil, nil, &NoShedError{strings.TrimSuffix(folder, path.Ext(folder)), fmt.Sprintf("%q is a file, want a folder with parts.csv in it", folder)}
	}
	return LoadFS(os.DirFS(folder), folder, o)
}

// LoadDemo reads the embedded demo shed.
func LoadDemo(o Options) (*model.Shed, []sheet.Complaint, error) {
	files, err := fs.Sub(demoFiles, "demo")
	if err != nil {
		return nil, nil, err
	}
	shed, complaints, err := LoadFS(files, DemoPath, o)
	if shed != nil {
		shed.Demo = true
	}
	return shed, complaints, err
}

// LoadFS reads the shed in the root of a file system; the name is what answers call it.
func LoadFS(files fs.FS, name string, o Options) (*model.Shed, []sheet.Complaint, error) {
	sources, err := findSheets(files, name, o)
	if err != nil {
		return nil, nil, err
	}
	if len(sources["parts"]) == 0 {
		return nil, nil, &NoShedError{name, fmt.Sprintf("there is no parts.csv in %q", name)}
	}
	tables, err := Embedded()
	if err != nil {
		return nil, nil, err
	}
	l := &loader{options: o, sources: sources, tables: tables, shed: newShed(name, tables)}
	l.load()
	sheet.Sort(l.complaints)
	return l.shed, l.complaints, nil
}

func newShed(path string, tables *model.Tables) *model.Shed {
	return &model.Shed{Path: path, Tables: tables}
}

// sheetFile is one file of a sheet.
type sheetFile struct {
	file string // as the rider names it
	data []byte
}

// findSheets reads the files of every sheet: NAME.csv in any case of letters, for parts also parts-*.csv, and what the
// options put in their place.
func findSheets(files fs.FS, folder string, o Options) (map[string][]sheetFile, error) {
	found := map[string][]sheetFile{}
	entries, err := fs.ReadDir(files, ".")
	if err != nil {
		return nil, unreadable(folder, "what stands", err)
	}
	for _, e := range entries {
		name := sheetOf(e.Name())
		if _, known := TableNamed(name); !known || o.Sheets[name] != "" || name == "parts" && o.Parts != nil {
			continue
		}
		if e.IsDir() {
			return nil, &UnreadableError{folder, e.Name(), "it is a folder itself", "put the sheet there as a CSV file of this name, and give the folder another one"}
		}
		data, err := readAtMost(files, e.Name())
		if err != nil {
			return nil, unreadable(folder, e.Name(), err)
		}
		found[name] = append(found[name], sheetFile{e.Name(), data})
	}
	if o.Parts != nil {
		found["parts"] = []sheetFile{{"standard input", o.Parts}}
	}
	return found, addGiven(found, o.Sheets)
}

// sheetOf is the sheet that a file belongs to, by its name.
func sheetOf(file string) string {
	name := strings.ToLower(file)
	if !strings.HasSuffix(name, ".csv") {
		return ""
	}
	name = strings.TrimSuffix(name, ".csv")
	if strings.HasPrefix(name, "parts-") {
		return "parts"
	}
	return name
}

// addGiven adds the files named by --sheet.
func addGiven(found map[string][]sheetFile, given map[string]string) error {
	var names []string
	for name := range given {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		if _, known := TableNamed(name); !known {
			return &SheetOptionError{name, "the name of a sheet; " + sheet.DidYouMean(name, sheetNames(), "the sheets are "+strings.Join(sheetNames(), ", "))}
		}
		data, err := os.ReadFile(given[name])
		if err != nil {
			return &SheetOptionError{name + "=" + given[name], "a file that can be read: " + err.Error()}
		}
		found[name] = []sheetFile{{given[name], data}}
	}
	return nil
}

func sheetNames() []string {
	var names []string
	for _, t := range append(Sheets(), OverrideSheets()...) {
		names = append(names, t.Name)
	}
	return names
}

// readAtMost reads a file; of one beyond the limit just enough that the reader complains.
func readAtMost(files fs.FS, name string) ([]byte, error) {
	info, err := fs.Stat(files, name)
	if err != nil {
		return nil, err
	}
	if info.Size() > sheet.MaxBytes {
		return make([]byte, sheet.MaxBytes+1), nil
	}
	return fs.ReadFile(files, name)
}
