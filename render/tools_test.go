package render

import (
	"os"
	"path/filepath"
	"testing"
)

// onDisk writes a file into the test's own folder.
func onDisk(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
