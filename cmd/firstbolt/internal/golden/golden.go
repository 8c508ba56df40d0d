// Package golden compares what a test got with a file of the test data, and writes the file anew under
// `go test -update`. It is used by tests only.
package golden

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

// Update tells whether the golden files are to be written anew.
func Update() bool { return *update }

// Compare fails the test where got is not the file's content.
func Compare(t *testing.T, path string, got []byte) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (make it with go test -update, then read it)", err)
	}
	if !bytes.Equal(want, got) {
		t.Errorf("%s differs (write it anew with go test -update, then read the change):\n%s", path, cmp.Diff(string(want), string(got)))
	}
}
