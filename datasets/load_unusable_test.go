package datasets_test

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"firstbolt/datasets"
)

// locked is a file system whose parts.csv may not be read, as on a shared drive.
type locked struct{ fstest.MapFS }

func (l locked) Open(name string) (fs.File, error) {
	if name == "parts.csv" {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return l.MapFS.Open(name)
}

func (l locked) ReadFile(name string) ([]byte, error) {
	f, err := l.Open(name)
	if err != nil {
		return nil, err
	}
	f.Close()
	return l.MapFS.ReadFile(name)
}

func TestUnreadableSheets(t *testing.T) {
	t.Parallel()
	parts := fstest.MapFS{"parts.csv": {Data: []byte("part,price\n")}}
	for want, files := range map[string]fs.FS{
		`parts.csv in the folder "myshed" cannot be read: you may not read it (permission denied); make it yours`: locked{parts},
		`parts.csv in the folder "myshed" cannot be read: it is a folder itself; put the sheet there`:             fstest.MapFS{"parts.csv/x": {}},
	} {
		_, _, err := datasets.LoadFS(files, "myshed", datasets.Options{})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

// A sheet without rows, or with its header twice, gets one complaint that says how to go on.
func TestOneComplaintForAnEmptySheet(t *testing.T) {
	t.Parallel()
	for parts, want := range map[string]string{
		"":                  `the first two lines could be "part,kind,price" and "front tyre F6,knobbly tyre,24.90"`,
		" \n\n":             `"part,kind,price" and "front tyre F6,knobbly tyre,24.90"`,
		"part,kind,price\n": `add a row; the first two lines could be "part,kind,price" and`,
		"part,kind,price\na,saddle,5\npart,kind,price\nb,saddle,6\n": "parts.csv:3 (A3): found \"part\", want a row; the header stands here once more",
		"part,kind,price\na,saddle,5\nTotal cost,,5.00\n":            "this looks like the sum of the rows above",
		"part,kind,price\na,saddle,5\nTOTAL,,5.00\n":                 "this looks like the sum of the rows above",
	} {
		_, complaints, err := datasets.LoadFS(shedOf(map[string]string{"parts.csv": parts, "rider.csv": "setting,value\nlike," + hardtail}), "shed", datasets.Options{})
		if err != nil || len(complaints) != 1 || !strings.Contains(complaints[0].String(), want) {
			t.Errorf("%q: got %v %v, want one complaint that says %s", parts, complaints, err, want)
		}
	}
}
