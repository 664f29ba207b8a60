package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// The program is tested as its users have it: as a process with arguments,
// files, standard input and output, and an exit code.

// TestMain builds that program once, with a clock that the tests can set. Their own
// binary could stand in for it, but takes twice as long to begin, and is begun two
// thousand times.
func TestMain(m *testing.M) {
	os.Exit(withProgram(m.Run))
}

var buildFlags = []string{"-tags=testclock", "-buildvcs=false"}

func withProgram(run func() int) int {
	dir, err := os.MkdirTemp("", "hourseal-program-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(dir)
	const released = "../../templates/page/built/page.wasm.gz"
	if _, err := os.Stat(released); err == nil {
		fmt.Fprintf(os.Stderr, "%s is there, of a release: the page would be tried with that and not with what is built of the source now. Remove it first.\n", released)
		return 1
	}
	if out, err := exec.Command("go", append(append([]string{"build"}, buildFlags...), "-o", dir, ".")...).CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "go build: %v\n%s", err, out)
		return 1
	}
	os.Setenv("PATH", dir+string(os.PathListSeparator)+os.Getenv("PATH"))
	return run()
}

// clockVariable sets the clock of the program under test, RFC 3339: see clock_set.go.
const clockVariable = "TEST_NOW"

// The files of the invented yard that most tests work on, and the evening on
// which its two jobs are issued.
const (
	scenarioFolder = "../../testdata/scenario"
	scenarioNow    = "2026-05-04T17:30:00Z"
	portJob        = "jobs/gannet-port-2026-05-04.yaml"
	starboardJob   = "jobs/gannet-starboard-2026-05-04.yaml"
)

// ran is how a run of the program ended.
type ran struct {
	code           int
	stdout, stderr string
}

func (r ran) String() string {
	return fmt.Sprintf("exit %d\n--- standard output\n%s--- standard error\n%s", r.code, r.stdout, r.stderr)
}

// folder is a working folder for runs of the program, with a home of its own.
type folder struct {
	dir, home, now string
	env            []string // further variables
}

func newFolder(t testing.TB) folder {
	t.Helper()
	f := folder{dir: t.TempDir(), home: t.TempDir(), now: scenarioNow}
	return f
}

// newYard is a folder with the invented yard in it, a key without a passphrase,
// and trust.yaml that knows the key.
func newYard(t testing.TB) folder {
	t.Helper()
	f := newFolder(t)
	if err := copyFiles(scenarioFolder, f.dir); err != nil {
		t.Fatal(err)
	}
	f.must(t, 0, "key", "new", "--no-input")
	f.must(t, 0, "trust", "add", "keys/yard.pub", "--name", "Ellery Slip Boatyard", "--trust", "trust.yaml")
	return f
}

// environment has nothing of the tester's own that the program looks at.
func (f folder) environment() []string {
	return append([]string{
		"PATH=" + os.Getenv("PATH"), "HOME=" + f.home, "XDG_CONFIG_HOME=" + filepath.Join(f.home, ".config"),
		"TMPDIR=" + os.TempDir(), clockVariable + "=" + f.now,
	}, append(goVariables(), f.env...)...)
}

func (f folder) command(args ...string) *exec.Cmd {
	cmd := exec.Command("hourseal", args...)
	cmd.Dir, cmd.Env = f.dir, f.environment()
	return cmd
}

// run runs the program with nothing on standard input.
func (f folder) run(t testing.TB, args ...string) ran {
	t.Helper()
	return ended(t, f.command(args...))
}

// must is run with the exit code that is wanted.
func (f folder) must(t testing.TB, code int, args ...string) ran {
	t.Helper()
	r := f.run(t, args...)
	if r.code != code {
		t.Fatalf("hourseal %q ended with %d, want %d\n%s", args, r.code, code, r)
	}
	return r
}

func (f folder) path(name string) string { return filepath.Join(f.dir, filepath.FromSlash(name)) }

func (f folder) read(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(f.path(name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func (f folder) write(t testing.TB, name string, data []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(f.path(name)), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(f.path(name), data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// ended runs a command to its end.
func ended(t testing.TB, cmd *exec.Cmd) ran {
	t.Helper()
	var stdout, stderr limited
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	err := cmd.Run()
	if err != nil && !errors.As(err, new(*exec.ExitError)) {
		t.Fatalf("%q: %v", cmd.Args, err)
	}
	return ran{cmd.ProcessState.ExitCode(), string(stdout), string(stderr)}
}

// limited keeps at most 4 MiB of what a program prints.
type limited []byte

func (l *limited) Write(b []byte) (int, error) {
	if len(*l)+len(b) > 4<<20 {
		return 0, errors.New("the program prints without end")
	}
	*l = append(*l, b...)
	return len(b), nil
}

// copyFiles copies the files of a folder and of those in it over what is there.
func copyFiles(from, to string) error {
	return fs.WalkDir(os.DirFS(from), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		target := filepath.Join(to, filepath.FromSlash(name))
		if e.IsDir() {
			return os.MkdirAll(target, 0o755)
		}
		data, err := os.ReadFile(filepath.Join(from, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		return os.WriteFile(target, data, 0o644)
	})
}
