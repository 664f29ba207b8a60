// Package outside finds the programs that tests ask for a second opinion:
// ssh-keygen, openssl, qpdf, pdftotext, zbarimg and others. A test that lacks
// its program is skipped; with HOURSEAL_REQUIRE_TOOLS=1 it fails, so that no
// check passes for want of a checker.
package outside

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Required says whether a missing program is a failure.
func Required() bool { return os.Getenv("HOURSEAL_REQUIRE_TOOLS") == "1" }

// Program returns the path of a program.
func Program(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		Missing(t, name)
	}
	return path
}

// Missing skips the test for want of something, or fails it.
func Missing(t testing.TB, what string) {
	t.Helper()
	if Required() {
		t.Fatalf("%s is not installed, and HOURSEAL_REQUIRE_TOOLS=1", what)
	}
	t.Skipf("%s is not installed", what)
}

// Run runs a program that must succeed and returns its standard output.
func Run(t testing.TB, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(Program(t, name), args...)
	var errs strings.Builder
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s %q: %v\n%s%s", name, args, err, out, errs.String())
	}
	return string(out)
}
