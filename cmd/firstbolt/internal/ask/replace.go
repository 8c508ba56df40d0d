package ask

import (
	"os"
	"path/filepath"
)

// Replace writes a file beside its place and renames it, so that a reader never sees half of it.
func Replace(name string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(name), ".firstbolt-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	if _, err = f.Write(data); err == nil {
		err = f.Chmod(0o644)
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
