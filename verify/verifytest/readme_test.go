package verifytest_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
	"hourseal/verify/verifytest"
)

// TestReadmeReads runs the reader that README.md shows to other implementers over every
// case, and holds it to what Load reads.
func TestReadmeReads(t *testing.T) {
	readme := string(must(os.ReadFile(filepath.Join(folder, "README.md"))))
	_, after, _ := strings.Cut(readme, "```python\n")
	program, _, found := strings.Cut(after, "```")
	if !found {
		t.Fatal("README.md shows no reader")
	}
	script := filepath.Join(t.TempDir(), "read.py")
	if err := os.WriteFile(script, []byte(program), 0o600); err != nil {
		t.Fatal(err)
	}
	cases, err := verifytest.Load(folder)
	if err != nil {
		t.Fatal(err)
	}
	args := []string{script}
	for _, c := range cases {
		args = append(args, filepath.Join(folder, c.Name+verifytest.Ending))
	}
	said := json.NewDecoder(strings.NewReader(outside.Run(t, "python3", args...)))
	for _, c := range cases {
		var path, digest string
		var header struct {
			What, Verdict, Exit, On, Record, Signer string
			Trust                                   []string
		}
		var size int
		if err := said.Decode(&[]any{&path, &header, &size, &digest}); err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(c.Input)
		if size != len(c.Input) || digest != hex.EncodeToString(sum[:]) || filepath.Base(path) != c.Name+verifytest.Ending {
			t.Errorf("%s: %d bytes of digest %s", c.Name, size, digest)
		}
		if header.What != c.What || header.Verdict != string(c.Verdict) || header.On != c.On.String() || header.Record != c.Record ||
			header.Signer != c.Signer || len(header.Trust) != len(c.Trust) {
			t.Errorf("%s: %+v", c.Name, header)
		}
	}
}

// TestReadmeSaysAll: every key of the files, and every verdict, is explained.
func TestReadmeSaysAll(t *testing.T) {
	readme := must(os.ReadFile(filepath.Join(folder, "README.md")))
	keys := map[string]bool{}
	for _, path := range must(filepath.Glob(filepath.Join(folder, "*"+verifytest.Ending))) {
		for _, line := range bytes.Split(header(must(os.ReadFile(path))), []byte("\n")) {
			key, _, _ := bytes.Cut(line, []byte(": "))
			keys[string(key)] = true
		}
	}
	for verdict := range exits {
		keys[string(verdict)] = true
		if verdict.ExitCode() != exits[verdict] {
			t.Errorf("%s ends with %d, want %d", verdict, verdict.ExitCode(), exits[verdict])
		}
	}
	for key := range keys {
		if !bytes.Contains(readme, []byte("`"+key+"`")) {
			t.Errorf("README.md does not say what %s is", key)
		}
	}
	if len(keys) < 20 {
		t.Errorf("%d keys and verdicts only", len(keys))
	}
}
