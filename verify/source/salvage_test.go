package source_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/adler32"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
	"hourseal/sign"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// Two records in one file, in any form, are refused; key statements beside the
// record are no second record.
func TestSalvageCountsRecords(t *testing.T) {
	one, two := record(t, "Gannet", 600), record(t, "Gannet, 412.6 h", 600)
	pdf := reportOf(t, one).bytes(t)
	with := func(more ...[]byte) []byte { return append(bytes.Clone(pdf), bytes.Join(more, []byte("\n"))...) }
	altered := bytes.Clone(one)
	altered[100] ^= 1
	for name, test := range map[string]struct {
		pdf  []byte
		want error
	}{
		"the same record plain":       {with(one), nil},
		"another record plain":        {with(two), source.ErrTwoRecords},
		"an altered copy":             {with(altered), source.ErrTwoRecords},
		"the same record as QR text":  {with([]byte(textsOf(t, one)[0])), nil},
		"another record as QR text":   {with([]byte("see " + strings.ToLower(textsOf(t, two)[0]) + ".")), source.ErrTwoRecords},
		"another report":              {with(reportOf(t, two).bytes(t)), source.ErrTwoRecords},
		"key statement":               {with(sealed(t, sign.KeyStatementV1, "key", 300)), nil},
		"list":                        {with(sealed(t, sign.ListV1, "list", 300)), nil},
		"the prefix of an envelope":   {with(one[:50]), nil},
		"many prefixes":               {with(bytes.Repeat(one[:12], 10_000)), nil},
		"a text of another programme": {with([]byte("https://port-ellery.example/#12345678901234567890")), nil},
	} {
		t.Run(name, func(t *testing.T) {
			found, err := source.Read(test.pdf)
			switch {
			case test.want != nil:
				if !errors.Is(err, test.want) || source.Hint(err) == "" {
					t.Errorf("got %v, want %v", err, test.want)
				}
			case err != nil:
				t.Error(err)
			case !bytes.Equal(found.Envelope, one) || found.Salvaged == "":
				t.Errorf("salvaged %q", found.Salvaged)
			}
		})
	}
}

// The bytes of a deflated stream mean what they inflate to. In stored blocks
// the record is there to see, and a cut between two blocks may fall inside its
// signature: that is no second, altered record.
func TestRecordCutByStoredBlocks(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	cut := len(envelope) - 30
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n1 0 obj\n<< /Filter /FlateDecode >>\nstream\n\x78\x01") // RFC 1950 section 2.2
	for i, block := range [][]byte{envelope[:cut], envelope[cut:]} {
		n := len(block) // RFC 1951 section 3.2.4
		b.Write([]byte{byte(i), byte(n), byte(n >> 8), ^byte(n), ^byte(n >> 8)})
		b.Write(block)
	}
	b.Write(binary.BigEndian.AppendUint32(nil, adler32.Checksum(envelope)))
	b.WriteString("\nendstream\nendobj\n%%EOF\n")
	if found := mustRead(t, b.Bytes()); !bytes.Equal(found.Envelope, envelope) {
		t.Error("another envelope was found")
	}
}

// What the search does not get to is said, not passed over: too many envelopes
// are an error, and of a long stream only the start is searched.
func TestSearchLimits(t *testing.T) {
	one, two := record(t, "Gannet", 600), record(t, "Gannet, 412.6 h", 600)
	var many bytes.Buffer
	many.WriteString("%PDF-1.7\n")
	many.Write(one)
	for i := range 65 {
		many.Write(sealed(t, sign.KeyStatementV1, fmt.Sprint("key ", i), 10))
	}
	if _, err := source.Read(many.Bytes()); !errors.Is(err, source.ErrTooLarge) {
		t.Errorf("65 key statements: %v", err)
	}
	pdf := reportOf(t, one).bytes(t)
	for at, want := range map[int]error{3 << 20: source.ErrTwoRecords, 4 << 20: nil} {
		long := must(t)(sourcetest.EditPage(pdf, 1, func([]byte) []byte {
			return append(make([]byte, at), append(two, make([]byte, 1<<20)...)...)
		}))
		if _, err := source.Read(long); !errors.Is(err, want) {
			t.Errorf("another record at %d of a stream: %v, want %v", at, err, want)
		}
	}
}

// A second program writes the file anew: qpdf, with its own layout, object
// streams and deflate.
func TestResavedFile(t *testing.T) {
	qpdf := outside.Program(t, "qpdf")
	envelope := record(t, "Gannet", 600)
	r := reportOf(t, envelope)
	r.attachments = attachmentsOf(t, envelope, sealed(t, sign.KeyStatementV1, "key", 300))
	dir := t.TempDir()
	in := filepath.Join(dir, "in.pdf")
	if err := os.WriteFile(in, r.bytes(t), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, options := range [][]string{nil, {"--object-streams=generate"}, {"--qdf"}, {"--stream-data=uncompress"}, {"--linearize"}} {
		t.Run(strings.Join(options, " "), func(t *testing.T) {
			out := filepath.Join(dir, "out.pdf")
			if b, err := exec.Command(qpdf, append(options, "--deterministic-id", in, out)...).CombinedOutput(); err != nil {
				t.Fatalf("qpdf: %v\n%s", err, b)
			}
			resaved, err := os.ReadFile(out)
			if err != nil {
				t.Fatal(err)
			}
			refused(t, resaved, envelope, "byte ")
		})
	}
}
