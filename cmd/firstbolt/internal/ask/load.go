package ask

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/datasets"
	"firstbolt/datasets/sheet"
	"firstbolt/model"
	"firstbolt/solver"
)

// loaded is a shed with what was odd about its sheets, or the failure that it could not be used.
type loaded struct {
	shed     *model.Shed
	warnings []answer.Warning
	failure  *answer.Failure
}

// pose loads the shed of a request and poses the question to the solver; where the sheets cannot be used there is none.
func pose(r Request) (loaded, solver.Question, error) {
	l, err := load(r)
	if err != nil || l.failure != nil {
		return l, solver.Question{}, err
	}
	q, err := question(r, l.shed)
	return l, q, err
}

// load reads the shed of a request. An error is wrong use; sheets that cannot be used come back as a failure.
func load(r Request) (loaded, error) {
	options, err := loadOptions(r)
	if err != nil {
		return loaded{}, err
	}
	path := r.Path
	if path == "-" {
		path = "."
	}
	var shed *model.Shed
	var complaints []sheet.Complaint
	if r.Demo {
		shed, complaints, err = datasets.LoadDemo(options)
	} else {
		shed, complaints, err = datasets.Load(path, options)
	}
	var option *datasets.SheetOptionError
	switch {
	case errors.As(err, &option):
		return loaded{}, wrong{err.Error()}
	case err != nil:
		return loaded{failure: unusable(r, err.Error(), nil)}, nil
	}
	l := loaded{shed: shed}
	faults, warnings := sorted(complaints)
	l.warnings = warnings
	if len(faults) == 0 {
		return l, nil
	}
	if flag := allFlags(faults); flag != "" {
		return loaded{}, wrong{flag}
	}
	l.failure = unusable(r, "The sheets cannot be used as they are; nothing was worked out.", faults)
	l.failure.Warnings = l.warnings
	return l, nil
}

// sorted parts what cannot be used from what only looks odd.
func sorted(complaints []sheet.Complaint) (faults []sheet.Complaint, warnings []answer.Warning) {
	for _, c := range complaints {
		if c.Warning {
			warnings = append(warnings, answer.Warning{Code: c.Code, Where: c.Where(), Text: warningText(c), Fix: some(asSentence(c.Fix))})
		} else {
			faults = append(faults, c)
		}
	}
	return faults, warnings
}

func loadOptions(r Request) (datasets.Options, error) {
	decimal, err := sheet.DecimalNamed(r.Decimal)
	if err != nil {
		return datasets.Options{}, wrong{"--decimal: " + err.Error()}
	}
	o := datasets.Options{Decimal: decimal, Sheets: r.Sheets}
	for _, s := range r.Settings {
		o.Settings = append(o.Settings, datasets.Setting{Name: s.Name, Value: s.Value, Flag: "--" + s.Name})
	}
	if r.Path != "-" || r.Demo {
		return o, nil
	}
	if o.Parts, err = io.ReadAll(io.LimitReader(r.Input, sheet.MaxBytes+1)); err != nil {
		return o, wrong{"standard input cannot be read: " + err.Error()}
	}
	return o, nil
}

// unusable is the answer when the sheets cannot be used.
func unusable(r Request, sentence string, faults []sheet.Complaint) *answer.Failure {
	f := fail(r, answer.Sheets, sentence)
	for _, c := range faults {
		f.Error.Complaints = append(f.Error.Complaints, answer.Complaint{
			Where: c.Where(), Column: some(c.Column), Found: some(c.Found), Wanted: c.Wanted, Fix: some(c.Fix), Text: c.String(),
		})
	}
	return f
}

// fail is an answer that only says why there is none.
func fail(r Request, code, sentence string) *answer.Failure {
	f := &answer.Failure{Head: answer.NewHead(r.Command)}
	f.Shed = &answer.Shed{Path: r.Path, Demo: r.Demo}
	if r.Demo {
		f.Shed.Path = datasets.DemoPath
	}
	f.Error = &answer.Error{Code: code, Sentence: sentence}
	return f
}

// allFlags is the faults in words when every one of them is about a flag, else empty.
func allFlags(faults []sheet.Complaint) string {
	var texts []string
	for _, c := range faults {
		if !strings.HasPrefix(c.Sheet, "--") {
			return ""
		}
		texts = append(texts, c.String())
	}
	return strings.Join(texts, "\n")
}

func warningText(c sheet.Complaint) string {
	text := ""
	if c.Column != "" {
		text = c.Column + ": "
	}
	if c.Found != "" {
		text += fmt.Sprintf("found %q, ", c.Found)
	}
	return text + "want " + c.Wanted + "."
}

// head is the start of an answer about a shed.
func head(command string, shed *model.Shed) answer.Head {
	h := answer.NewHead(command)
	h.Shed, h.Currency = &answer.Shed{Path: shed.Path, Demo: shed.Demo}, some(shed.Currency.Code)
	return h
}

// some is a pointer to the text, nil where there is none.
func some(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// IsSheet tells whether a file of this name in a shed would be read as one of its sheets.
func IsSheet(file string) bool { return datasets.IsSheet(file) }
