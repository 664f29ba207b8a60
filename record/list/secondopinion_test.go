package list_test

import (
	"bytes"
	"os/exec"
	"testing"

	"hourseal/record/recordtest/outside"
)

// python finds a Python that has the cbor2 library (Debian: python3-cbor2), an
// implementation of CBOR that shares nothing with the one used here. Without it the
// test is skipped, or fails where the tools are required.
func python(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import cbor2").Run() == nil {
			return name
		}
	}
	outside.Missing(t, "python3 with cbor2")
	return ""
}

// TestSecondOpinion: another program reads the lists, prints what it takes for the
// serial, the ends, the count and the reference, and its own canonical encoding of what
// it read is the same bytes.
func TestSecondOpinion(t *testing.T) {
	program := python(t)
	const script = `
import cbor2, sys
data = sys.stdin.buffer.read()
l = cbor2.loads(data)
ends = " ".join(f"{e[1]}:{e[2][:1].hex()}" for e in l.get(4, []))
print(l[2][3], ends, l.get(5, 0), l[7], cbor2.dumps(l, canonical=True) == data, sep="|")
`
	for _, c := range []struct {
		data []byte
		says string
	}{
		{encoded(t, example()), "0045120|1:0a 7:a0|8|Marlin Cover, claim 4471|True\n"},
		{encoded(t, empty()), "0045120||0|Marlin Cover, claim 4471|True\n"},
	} {
		cmd := exec.Command(program, "-c", script)
		cmd.Stdin = bytes.NewReader(c.data)
		var faults bytes.Buffer
		cmd.Stderr = &faults
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("%v: %s", err, faults.String())
		}
		if string(out) != c.says {
			t.Errorf("cbor2 reads %q, want %q", out, c.says)
		}
	}
}
