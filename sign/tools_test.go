package sign

import (
	"bytes"
	"os"
	"os/exec"
	"testing"
)

// run runs an outside program that must succeed and gives its standard output.
func run(t *testing.T, path string, args ...string) string {
	t.Helper()
	out, errs, err := tryRun(path, args...)
	if err != nil {
		t.Fatalf("%s %q: %v\n%s%s", path, args, err, out, errs)
	}
	return out
}

func tryRun(path string, args ...string) (out, errs string, err error) {
	var stdout, stderr bytes.Buffer
	cmd := exec.Command(path, args...)
	// Nobody is there to answer a question.
	cmd.Env = append(os.Environ(), "SSH_ASKPASS=/bin/false", "SSH_ASKPASS_REQUIRE=never", "DISPLAY=")
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	err = cmd.Run()
	return stdout.String(), stderr.String(), err
}

func writeFile(t *testing.T, path string, content []byte) {
	t.Helper()
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
}
