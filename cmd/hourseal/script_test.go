package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write the golden files anew: read them line by line afterwards")

// The scripts, one topic each. Every script starts in an empty folder beside
// the invented yard's files, $YARD, with a home of its own, at the evening of
// the yard's two jobs.
func TestScripts(t *testing.T) {
	yard, err := filepath.Abs(scenarioFolder)
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *update,
		Setup: func(env *testscript.Env) error {
			env.Setenv("HOME", filepath.Join(env.WorkDir, "home"))
			env.Setenv("XDG_CONFIG_HOME", filepath.Join(env.WorkDir, "home", "config"))
			env.Setenv(clockVariable, scenarioNow)
			env.Setenv("TOOLONG", strings.Repeat("n", 300)) // a name that no file system has
			env.Vars = append(env.Vars, goVariables()...)
			env.Setenv("YARD", filepath.Join(env.WorkDir, "examples"))
			return copyFiles(yard, filepath.Join(env.WorkDir, "examples"))
		},
		Condition: scriptCondition,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"ends": scriptEnds, "tidy": scriptTidy, "flip": scriptFlip, "copyto": scriptCopyTo,
			"edit": scriptEdit, "field": scriptField, "draw": scriptDraw,
		},
	})
}

// scriptCondition is [tool:NAME]: the outside program is there. Where the tools
// are required, a missing one is a fault.
func scriptCondition(condition string) (bool, error) {
	name, isTool := strings.CutPrefix(condition, "tool:")
	if !isTool {
		return false, fmt.Errorf("unknown condition %q", condition)
	}
	_, err := exec.LookPath(name)
	if err != nil && outside.Required() {
		return false, fmt.Errorf("%s is required: %w", name, err)
	}
	return err == nil, nil
}

// ends CODE ARGS... runs the program, which must end with that code.
func scriptEnds(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: ends CODE ARGS...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec("hourseal", args[1:]...)
	code := 0
	var exit *exec.ExitError
	switch {
	case errors.As(err, &exit):
		code = exit.ExitCode()
	case err != nil:
		ts.Fatalf("%v", err)
	}
	if code != want {
		ts.Fatalf("hourseal %q ended with %d, want %d", args[1:], code, want)
	}
}

// What differs from run to run, or with every change of the record's format.
var volatile = []struct {
	pattern *regexp.Regexp
	stands  string
}{
	{regexp.MustCompile(`"[0-9a-f]{64}"`), `"(64 hexadecimal digits)"`},
	{regexp.MustCompile(`SHA256:[A-Za-z0-9+/]{43}`), `SHA256:(43 characters)`},
	{regexp.MustCompile(`ssh-ed25519 [A-Za-z0-9+/]{68}`), `ssh-ed25519 (68 characters)`},
	{regexp.MustCompile(`"HTTPS://VERIFY\.ELLERY-SLIP\.EXAMPLE/#[0-9]+"`), `"(QR text)"`},
}

// tidy FROM TO writes lines of JSON out, one value a line, keys in their order
// and figures as they stand, with words for what is volatile.
func scriptTidy(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: tidy FROM TO")
	}
	var out bytes.Buffer
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		ts.Check(json.Indent(&out, []byte(strings.TrimSuffix(line, "\n")), "", "  "))
		out.WriteByte('\n')
	}
	text := out.String()
	for _, v := range volatile {
		text = v.pattern.ReplaceAllString(text, v.stands)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(text), 0o644))
}

// field FROM LINE KEY TO writes the string, or the strings one a line, at the
// key of a line of JSON.
func scriptField(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: field FROM LINE KEY TO")
	}
	number, err := strconv.Atoi(args[1])
	ts.Check(err)
	lines := strings.Split(ts.ReadFile(args[0]), "\n")
	var object map[string]json.RawMessage
	ts.Check(json.Unmarshal([]byte(lines[number-1]), &object))
	var list []string
	if err := json.Unmarshal(object[args[2]], &list); err != nil {
		list = []string{""}
		ts.Check(json.Unmarshal(object[args[2]], &list[0]))
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[3]), []byte(strings.Join(list, "\n")+"\n"), 0o644))
}

// flip FILE OFFSET changes one bit of a file; a negative offset counts from the
// end.
func scriptFlip(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: flip FILE OFFSET")
	}
	offset, err := strconv.Atoi(args[1])
	ts.Check(err)
	data := []byte(ts.ReadFile(args[0]))
	if offset < 0 {
		offset += len(data)
	}
	data[offset] ^= 1
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data, 0o644))
}

// copyto DIR FROM copies the files of a folder into another, over what is there.
func scriptCopyTo(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: copyto DIR FROM")
	}
	ts.Check(copyFiles(ts.MkAbs(args[1]), ts.MkAbs(args[0])))
}

// edit FROM TO OLD NEW [OLD NEW]... writes a copy of a file with texts replaced,
// each of which must be there.
func scriptEdit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 4 || len(args)%2 != 0 {
		ts.Fatalf("usage: edit FROM TO OLD NEW [OLD NEW]...")
	}
	text := ts.ReadFile(args[0])
	for i := 2; i < len(args); i += 2 {
		if !strings.Contains(text, args[i]) {
			ts.Fatalf("%s has no %q", args[0], args[i])
		}
		text = strings.ReplaceAll(text, args[i], args[i+1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(text), 0o644))
}
