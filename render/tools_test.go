package render

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// tool runs an outside program and returns what it says. A missing program skips
// the test, unless HOURSEAL_REQUIRE_TOOLS=1.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("HOURSEAL_REQUIRE_TOOLS") == "1" {
			t.Fatalf("%s is not installed, and HOURSEAL_REQUIRE_TOOLS=1", name)
		}
		t.Skipf("%s is not installed", name)
	}
	var out, errs bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %q: %v\n%s%s", name, args, err, out.Bytes(), errs.Bytes())
	}
	return out.String()
}

// onDisk writes a file into the test's own folder.
func onDisk(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
