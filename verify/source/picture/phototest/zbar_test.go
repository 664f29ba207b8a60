package phototest_test

import (
	"errors"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
)

// noSymbol is how zbarimg ends when it found nothing (zbarimg(1)).
const noSymbol = 4

// zbarReads says whether zbarimg reads exactly that text off a picture. It looks
// for QR codes only, so that it takes no time for others.
func zbarReads(t testing.TB, picture *image.Gray, text string) bool {
	t.Helper()
	file := filepath.Join(t.TempDir(), "picture.pgm")
	if err := os.WriteFile(file, writePGM(picture), 0o600); err != nil {
		t.Error(err)
		return false
	}
	said, err := exec.Command(outside.Program(t, "zbarimg"), "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", file).Output()
	var exit *exec.ExitError
	if err != nil && (!errors.As(err, &exit) || exit.ExitCode() != noSymbol) {
		t.Errorf("zbarimg: %v", err)
	}
	_ = os.Remove(file)
	return slices.Contains(strings.Split(string(said), "\n"), text)
}
