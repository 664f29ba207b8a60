package record_test

import (
	"bytes"
	"os/exec"
	"testing"

	"hourseal/record/recordtest/outside"
)

// python finds a Python that has the cbor2 library (Debian: python3-cbor2), an
// implementation of CBOR that shares nothing with ours. Without it the test is
// skipped, or fails where the tools are required.
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

// TestSecondOpinion: another program reads the records, and its own canonical
// encoding of what it read is the same bytes. It prints what it takes for the
// serial, the hours and the notes.
func TestSecondOpinion(t *testing.T) {
	program := python(t)
	const script = `
import cbor2, sys
data = sys.stdin.buffer.read()
record = cbor2.loads(data)
if len(sys.argv) > 1:
    sys.stdout.buffer.write(f"{record[7][8]} {record[8][2]} {record.get(20, '')}".encode())
else:
    sys.stdout.buffer.write(cbor2.dumps(record, canonical=True))
`
	run := func(data []byte, args ...string) []byte {
		cmd := exec.Command(program, append([]string{"-c", script}, args...)...)
		cmd.Stdin = bytes.NewReader(data)
		var faults bytes.Buffer
		cmd.Stderr = &faults
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("%v: %s", err, faults.String())
		}
		return out
	}
	for _, e := range examples {
		data := encoded(t, e.make())
		if again := run(data); !bytes.Equal(again, data) {
			t.Errorf("%s: cbor2 encodes it as\n%x, ours is\n%x", e.name, again, data)
		}
	}
	if said := run(encoded(t, examples[0].make()), "say"); string(said) != "0045120 81260 Look at the belt again at 900 hours." {
		t.Errorf("cbor2 reads %q", said)
	}
}
