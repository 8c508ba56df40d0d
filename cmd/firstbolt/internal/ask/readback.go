package ask

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/datasets"
	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// measuredSheet is firstbolt's own sheet in a shed.
const measuredSheet = "measured.csv"

// takenBack is what became of a filled page: what it said, or why it cannot be used.
type takenBack struct {
	back     *answer.ReadBack
	warnings []answer.Warning
	failure  *answer.Failure
}

// readBack takes a filled page or sheet back and writes what is new into the shed's measured.csv, whose other rows are
// kept. Nothing is written where anything in it cannot be used. An error is wrong use.
func readBack(r Request) (t takenBack, err error) {
	if err := readable(r); err != nil {
		return t, err
	}
	_, l, err := bench(r)
	if err != nil || l.failure != nil {
		return takenBack{failure: l.failure}, err
	}
	name, data, err := filled(r)
	if err != nil {
		return t, err
	}
	options, err := loadOptions(r)
	if err != nil {
		return t, err
	}
	rows, complaints := datasets.ReadAnswers(name, data, l.shed, options)
	for i := range complaints {
		if complaints[i].Code == "implausible" { // asked about on the spot, while the tool is at hand
			complaints[i].Warning, complaints[i].Fix = false, "measure it anew, or leave it empty"
		}
	}
	var faults []sheet.Complaint
	faults, t.warnings = sorted(complaints)
	if len(faults) > 0 {
		t.failure = unusable(r, "The answers cannot be used as they are; nothing was written.", faults)
		t.failure.Warnings = t.warnings
		return t, nil
	}
	t.back = &answer.ReadBack{File: name}
	t.back.Changed, t.back.Same = changes(rows, l.shed)
	if len(t.back.Changed) > 0 {
		t.back.Written, err = lay(rows, r.Path, options)
	}
	return t, err
}

// readable refuses what cannot be read back.
func readable(r Request) error {
	switch {
	case r.Demo:
		return wrong{"--read writes what you measured into a shed of your own; the demo shed has none (firstbolt start myshed makes one)"}
	case r.Path == "-" && r.Read == "-":
		return wrong{"standard input can be the parts sheet or the filled page, not both; save one of them as a file"}
	case r.Sheets["measured"] != "":
		return wrong{"--read writes " + measuredSheet + " of the shed; leave --sheet measured=... out"}
	default:
		return nil
	}
}

// filled is the filled page or sheet and what complaints call it.
func filled(r Request) (name string, data []byte, err error) {
	if r.Read == "-" {
		data, err = io.ReadAll(io.LimitReader(r.Input, sheet.MaxBytes+1))
		if err != nil {
			return "", nil, wrong{"standard input cannot be read: " + err.Error()}
		}
		return "standard input", data, nil
	}
	data, err = os.ReadFile(r.Read)
	var at *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", nil, wrong{fmt.Sprintf("--read: there is no file %q", r.Read)}
	case errors.As(err, &at):
		return "", nil, wrong{fmt.Sprintf("--read: %s cannot be read: %v", r.Read, at.Err)}
	case err != nil:
		return "", nil, wrong{fmt.Sprintf("--read: %s cannot be read: %v", r.Read, err)}
	}
	return r.Read, data, nil
}

// changes are the answers that say something new, and how many do not.
func changes(rows []datasets.Measured, shed *model.Shed) (list []answer.Changed, same int) {
	for _, m := range rows {
		before := said(m, shed)
		if before.String() == m.Value.String() && before.Origin.How >= m.Value.Origin.How {
			same++
			continue
		}
		c := answer.Changed{
			Bike: some(m.Bike), Part: some(m.Part), Slot: some(m.Slot), Fact: m.Fact, Origin: before.Origin.How.String(), Stood: some(before.Origin.String()),
			After: m.Value.String(), Sure: m.Value.Origin.How == model.Measured, Where: m.Origin.String(),
		}
		if before.Known() {
			c.Before = some(before.String())
		}
		list = append(list, c)
	}
	return list, same
}

// said is what the sheets say of the fact so far.
func said(m datasets.Measured, shed *model.Shed) model.Value {
	for i := range shed.Parts {
		if m.Part != "" && shed.Parts[i].ID == m.Part {
			return shed.Parts[i].Facts[m.Fact]
		}
	}
	for i := range shed.Bikes {
		if b := &shed.Bikes[i]; m.Part == "" && b.Name == m.Bike {
			if there := b.InSlot(m.Slot); there != nil {
				return there.Facts[m.Fact]
			}
		}
	}
	return model.Value{}
}

// lay writes the answers into the measured.csv of a folder and gives its path.
func lay(rows []datasets.Measured, folder string, o datasets.Options) (*string, error) {
	if folder == "-" {
		folder = "."
	}
	path := filepath.Join(folder, measuredSheet)
	if entries, err := os.ReadDir(folder); err == nil {
		for _, e := range entries {
			if strings.EqualFold(e.Name(), measuredSheet) {
				path = filepath.Join(folder, e.Name())
			}
		}
	}
	old, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, wrong{fmt.Sprintf("%s cannot be read: %v", path, err)}
	}
	if err := Replace(path, datasets.MeasuredSheet(rows, old, o)); err != nil {
		return nil, wrong{fmt.Sprintf("%s cannot be written: %v; nothing was changed", path, err)}
	}
	return &path, nil
}
