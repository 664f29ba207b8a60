package qrtext

import (
	"encoding/hex"
	"os/exec"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
)

// pythonReader reads texts, one record's parts a line, and writes each envelope
// in hexadecimal. It is written from the package comment and shares nothing with
// this package: Python's integers do the digits and its zlib, the reference
// library of DEFLATE, inflates with the dictionary.
const pythonReader = `
import re, sys, zlib, hashlib

dictionary = open("dictionary-1.bin", "rb").read()
digits_of = {3: 1, 5: 2, 8: 3, 10: 4, 13: 5, 15: 6, 17: 7}

def inflate(digits, zdict):
    data = b""
    while digits:
        group, digits = digits[:17], digits[17:]
        data += int(group).to_bytes(digits_of[len(group)], "big")
    inflater = zlib.decompressobj(wbits=-15, zdict=zdict) if zdict else zlib.decompressobj(wbits=-15)
    envelope = inflater.decompress(data, 16384)
    assert inflater.eof and not inflater.unused_data, "not one whole stream"
    return envelope

for line in sys.stdin:
    texts = [re.fullmatch(r"(?:HTTPS://[A-Z0-9.-]+/#|hourseal:)([0-9]+)", t).group(1) for t in line.split()]
    form = {t[0] for t in texts}
    assert len(form) == 1
    form = form.pop()
    if form in "14":
        pieces = [t[1:] for t in texts]
    else:
        assert [int(t[1:3]) for t in texts] == list(range(1, int(texts[0][3:5]) + 1))
        pieces = [t[13:] for t in texts]
    envelope = inflate("".join(pieces), dictionary if form in "45" else None)
    if form in "25":
        assert int(texts[0][5:13]) == int.from_bytes(hashlib.sha256(envelope).digest()[:4], "big") % 10**8
    print(envelope.hex())
`

// TestSecondOpinion: another program in another language reads the texts that
// were printed and those that are made now back to their envelopes.
func TestSecondOpinion(t *testing.T) {
	var lines []string
	var want []string
	add := func(texts []string, envelope []byte) {
		lines, want = append(lines, strings.Join(texts, " ")), append(want, hex.EncodeToString(envelope))
	}
	for _, p := range everyPrinted(t) {
		if p.format == formatReference {
			continue
		}
		add(p.texts, p.envelope)
		for level := -2; level <= 9; level++ {
			texts, err := EncodeAt(level, p.envelope, testHost)
			if err != nil {
				t.Fatal(err)
			}
			add(texts, p.envelope)
		}
	}
	for n := 1; n < 6000; n += 97 {
		texts, err := Encode(recordLike(n), "")
		if err != nil {
			t.Fatal(err)
		}
		add(texts, recordLike(n))
	}
	cmd := exec.Command(outside.Program(t, "python3"), "-c", pythonReader)
	cmd.Stdin = strings.NewReader(strings.Join(lines, "\n") + "\n")
	var faults strings.Builder
	cmd.Stderr = &faults
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, faults.String())
	}
	got := strings.Fields(string(out))
	if len(got) != len(want) {
		t.Fatalf("%d envelopes of %d texts", len(got), len(want))
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%.60s…: another envelope", lines[i])
		}
	}
	t.Logf("%d texts", len(want))
}
